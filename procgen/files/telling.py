"""What a validator finds wrong, in the words of the file's author: which key, what it wants, what stands there."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Any

from procgen.files.document import Cursor, Document, Number, Path
from procgen.files.problems import Place, Problem, error
from procgen.units.dimension import NAMES
from procgen.units.nearest import did_you_mean, nearest
from procgen.units.spelling import a_thing

if TYPE_CHECKING:
    from jsonschema import ValidationError

_TYPES = {
    "string": "text", "number": "a number", "integer": "a whole number", "array": "a list",
    "object": "a map (`key: value`)", "null": "nothing", "boolean": "true or false",
}  # fmt: skip
_SHORT = 8
"""As many allowed names are listed in a hint; more would bury the one that is meant."""
_LONG = 16
"""As many where none is meant that could be told."""


def told(document: Document, fault: ValidationError) -> list[Problem]:
    """The problems that one finding of the validator stands for."""
    path: Path = tuple(fault.absolute_path)
    cursor = document.at(path)
    if "propertyNames" in fault.absolute_schema_path and isinstance(fault.instance, str):
        return [_bad_key(cursor, fault)]
    tell = _TELLERS.get(str(fault.validator), _unsaid)
    return tell(cursor, fault)


def called(path: Path) -> str:
    """What an entry is called in a sentence: its key, or its place in a list."""
    if not path:
        return "the file"
    last = path[-1]
    return f"`{last}`" if isinstance(last, str) else f"entry {last + 1} of {called(path[:-1])}"


def listed(words: Iterable[object], join: str = "or") -> str:
    """ "a", "a or b", "a, b or c"."""
    *most, last = [str(word) for word in words]
    return f"{', '.join(most)} {join} {last}" if most else last


def _kind(value: object) -> str:
    if value is None:
        return "empty"
    return {dict: "a map (`key: value`)", list: "a list", Number: "a number"}.get(type(value), "text")


def _schema(fault: ValidationError) -> Mapping[str, Any]:
    return fault.schema if isinstance(fault.schema, Mapping) else {}


def _wanted(fault: ValidationError) -> Any:
    """The keyword's value in the schema."""
    return fault.validator_value


def _says(fault: ValidationError) -> str:
    return str(_schema(fault).get("x-says", ""))


def _type(cursor: Cursor, fault: ValidationError) -> list[Problem]:
    types = [_wanted(fault)] if isinstance(_wanted(fault), str) else list(_wanted(fault))
    wanted = [_TYPES[name] for name in types if name != "null"] or ["nothing"]
    quantity = NAMES.get(_schema(fault).get("quantity", ""))
    if quantity is not None and not {"object", "integer"} & set(types):
        wanted = [a_thing(quantity)]
    value = cursor.value
    hint = ""
    if isinstance(value, Number) and "string" in types:
        hint = _with_unit(value, fault) or f'put it in quotes: "{value.text}"'
    elif isinstance(value, (str, Number)) and "array" in types:
        hint = f"for a list of one write [{cursor.node.raw}]"
    elif isinstance(value, dict) and "string" in types:
        hint = "a colon and a space make a key of what stands before them; put quotes round the whole text"
    elif isinstance(value, list) and "string" in types and quantity is None:
        hint = "write one text; one that begins with [ needs quotes"
    elif isinstance(value, str) and {"number", "integer"} & set(types):
        hint = "write a number alone"
    found = _written(cursor) if isinstance(value, Number) and "integer" in types else _kind(value)
    message = f"{called(cursor.path)} wants {listed(wanted)}; this is {found}"
    return [error("wrong-type", message, cursor.place, hint)]


def _with_unit(value: Number, fault: ValidationError) -> str:
    """Where the schema's example is a number and its unit, that unit is what is missing."""
    examples = [str(one).split(" ") for one in _schema(fault).get("examples", ())]
    unit = next((one[1] for one in examples if len(one) == 2 and one[0].replace(".", "").isdigit()), "")
    return f"write its unit too, for example {value.text} {unit}" if unit else ""


def _unknown(cursor: Cursor, fault: ValidationError) -> list[Problem]:
    allowed = list(_schema(fault).get("properties", {}))
    patterns = list(_schema(fault).get("patternProperties", {}))
    missing = [name for name in _schema(fault).get("required", ()) if name not in cursor]
    problems = []
    for key, _ in cursor.items():
        if key in allowed or any(re.search(pattern, key) for pattern in patterns):
            continue
        hint = did_you_mean(key, missing) or did_you_mean(key, (name for name in allowed if name not in cursor))
        if allowed and len(allowed) <= (_SHORT if hint else _LONG):
            hint += ("; " if hint else "") + f"known here: {', '.join(allowed)}"
        where = f" in {called(cursor.path)}" if cursor.path else ""
        problems.append(error("unknown-key", f"unknown key `{key}`{where}", cursor.key_place(key), hint))
    return problems


def _missing(cursor: Cursor, fault: ValidationError) -> list[Problem]:
    """A key left out; not told where an unknown key is most like it: that is one slip, not two."""
    known = _schema(fault).get("properties", {})
    strangers = [key for key, _ in cursor.items() if key not in known]
    absent = [name for name in _wanted(fault) if name not in cursor]
    misspelt = {nearest(key, absent) for key in strangers} if known else set()
    problems = []
    for name in absent:
        if name not in misspelt:
            title = known.get(name, {}).get("title", "") if isinstance(known.get(name), Mapping) else ""
            hint = f"add `{name}:`" + (f" ({title})" if title and str(title).lower() != name else "")
            problems.append(error("missing-key", f"{called(cursor.path)} has no `{name}`", cursor.place, hint))
    return problems


def _dependent(cursor: Cursor, fault: ValidationError) -> list[Problem]:
    problems = []
    for key, others in _wanted(fault).items():
        for other in others if key in cursor else ():
            if other not in cursor:
                message = f"`{key}` needs `{other}` beside it"
                problems.append(error("missing-key", message, cursor.key_place(key), f"add `{other}:`"))
    return problems


def _choice(cursor: Cursor, fault: ValidationError) -> list[Problem]:
    values = [_wanted(fault)] if fault.validator == "const" else list(_wanted(fault))
    words = [str(value) for value in values if value is not None]
    given = _written(cursor)
    message = f"{called(cursor.path)} wants {listed(f'`{word}`' for word in words)}; this is {given}"
    return [error("not-a-choice", message, cursor.place, did_you_mean(given.strip("`"), words))]


def _pattern(cursor: Cursor, fault: ValidationError) -> list[Problem]:
    message, hint = _misspelt(called(cursor.path), str(fault.instance), fault)
    return [error("wrong-form", message, cursor.place, hint)]


def _bad_key(cursor: Cursor, fault: ValidationError) -> Problem:
    key = str(fault.instance)
    if fault.validator == "enum":
        words = [str(word) for word in _wanted(fault)]
        hint = did_you_mean(key, words) or f"known here: {', '.join(words)}"
        return error("unknown-key", f"unknown key `{key}` in {called(cursor.path)}", cursor.key_place(key), hint)
    message, hint = _misspelt(f"a key of {called(cursor.path)}", key, fault)
    return error("wrong-form", message, cursor.key_place(key), hint)


def _misspelt(name: str, given: str, fault: ValidationError) -> tuple[str, str]:
    """For a text that does not match its pattern: the schema's own words where it has them, else an example."""
    says, examples = _says(fault), [e for e in _schema(fault).get("examples", ()) if isinstance(e, str)]
    message = f"{name} wants {says}; this is `{given}`" if says else f"`{given}` is not written as {name} wants it"
    bare = given.lower().removesuffix(".yaml")
    for mended in (re.sub(r"[\W_]+", joint, bare).strip("-_") for joint in "-_"):
        if fault.validator == "pattern" and mended and re.search(str(_wanted(fault)), mended):
            return message, f"did you mean `{mended}`?"
    return message, f"for example `{examples[0]}`" if examples else ""


def _bound(cursor: Cursor, fault: ValidationError) -> list[Problem]:
    words = {
        "minimum": "the least is", "maximum": "the most is",
        "exclusiveMinimum": "it must be more than", "exclusiveMaximum": "it must be less than",
        "multipleOf": "it must be a multiple of",
    }[str(fault.validator)]  # fmt: skip
    message = f"{called(cursor.path)} is {_written(cursor).strip('`')}; {words} {_wanted(fault):g}"
    return [error("out-of-range", message, cursor.place)]


def _size(cursor: Cursor, fault: ValidationError) -> list[Problem]:
    keyword, limit = str(fault.validator), int(_wanted(fault))
    thing = "character" if keyword.endswith("Length") else "entr"
    count = len(cursor.value) if isinstance(cursor.value, str) else len(cursor)
    name = called(cursor.path)
    if count == 0:
        return [error("wrong-size", f"{name} is without {'text' if thing == 'character' else 'entries'}", cursor.place)]
    other = keyword.replace("min", "max") if keyword.startswith("min") else keyword.replace("max", "min")
    bound = "" if _schema(fault).get(other) == limit else ("at least " if keyword.startswith("min") else "at most ")
    message = f"{name} has {_counted(count, thing)}; {bound}{limit} {'is' if limit == 1 else 'are'} wanted"
    return [error("wrong-size", message, cursor.place)]


def _too_many(cursor: Cursor, fault: ValidationError) -> list[Problem]:
    """A list longer than the entries that its schema describes one by one (`items` is false)."""
    limit = len(_schema(fault).get("prefixItems", ()))
    message = f"{called(cursor.path)} has {_counted(len(cursor), 'entr')}; at most {limit} are wanted"
    return [error("wrong-size", message, cursor[limit].place)]


def _counted(count: int, thing: str) -> str:
    if thing == "entr":
        return f"{count} {'entry' if count == 1 else 'entries'}"
    return f"{count} {thing}{'' if count == 1 else 's'}"


def _twice(cursor: Cursor, fault: ValidationError) -> list[Problem]:
    seen: dict[str, Place] = {}
    for entry in cursor:
        key = repr(entry.value)
        if key in seen:
            message = f"{_written(entry)} stands twice in {called(cursor.path)}"
            return [error("twice", message, entry.place, "keep one of the two")]
        seen[key] = entry.place
    return [error("twice", f"an entry stands twice in {called(cursor.path)}", cursor.place)]


def _one_of(cursor: Cursor, fault: ValidationError) -> list[Problem]:
    """Of the forms allowed, the one that was most likely meant: the one of this value's type with the fewest faults."""
    forms: dict[Any, list[ValidationError]] = {}
    for inner in fault.context or ():
        forms.setdefault(inner.relative_schema_path[0], []).append(inner)
    typed = [found for found in forms.values() if not any(f.validator == "type" and not f.relative_path for f in found)]
    if _says(fault):
        message = f"{called(cursor.path)} wants {_says(fault)}; this is {_kind(cursor.value)}"
        return [error("wrong-form", message, cursor.place)]
    if not typed:
        types = [_wanted(inner) for found in forms.values() for inner in found if inner.validator == "type"]
        names = [name for given in types for name in ([given] if isinstance(given, str) else given)]
        wanted = listed(dict.fromkeys(_TYPES[name] for name in names if name != "null"))
        message = f"{called(cursor.path)} wants {wanted}; this is {_kind(cursor.value)}"
        return [error("wrong-type", message, cursor.place)]
    likeliest = min(typed, key=len)
    return [problem for inner in likeliest for problem in told(cursor.doc, inner)]


def _unsaid(cursor: Cursor, fault: ValidationError) -> list[Problem]:
    """A keyword without a sentence of its own: the schema must say what it wants."""
    if fault.validator is None:  # the schema `false`; the validator names the map or list, not the entry in it
        entries = [*cursor, *(entry for _, entry in cursor.items())]
        found = [entry for entry in entries if entry.value is fault.instance] or [cursor]
        return [error("unknown-key", f"{called(entry.path)} does not belong here", entry.place) for entry in found]
    says = _says(fault)
    message = f"{called(cursor.path)} wants {says}" if says else f"{called(cursor.path)} is not as its form wants it"
    return [error("wrong-form", message, cursor.place)]


def _written(cursor: Cursor) -> str:
    value = cursor.value
    if isinstance(value, Number):
        return f"`{value.text}`"
    return f"`{value}`" if isinstance(value, str) else _kind(value)


_TELLERS = {
    "type": _type, "additionalProperties": _unknown, "required": _missing, "dependentRequired": _dependent,
    "enum": _choice, "const": _choice, "pattern": _pattern, "uniqueItems": _twice, "anyOf": _one_of, "oneOf": _one_of,
    "items": _too_many,
    **dict.fromkeys(("minimum", "maximum", "exclusiveMinimum", "exclusiveMaximum", "multipleOf"), _bound),
    **dict.fromkeys(("minLength", "maxLength", "minItems", "maxItems", "minProperties", "maxProperties"), _size),
}  # fmt: skip
