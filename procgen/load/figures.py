"""A procedure's values, readings and decisions."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from procgen.files.document import Cursor
from procgen.files.problems import Place, Related
from procgen.files.text import Text
from procgen.load.reader import Reader, entries, items, text, word, words
from procgen.model.procedure import Branch, Buy, Decision, Expect, Limits, Reading, ValueSpec
from procgen.units.dimension import NAMES


def values(at: Cursor | None, reader: Reader) -> Mapping[str, ValueSpec]:
    return {name: load_value(name, spec, place, reader) for name, spec, place in entries(at)}


def load_value(name: str, spec: Cursor, place: Place, reader: Reader) -> ValueSpec:
    """A value. One without a title is called by its name; the card never shows it."""
    formula, fixed = spec.known("formula"), spec.known("is")
    if formula is not None and fixed is not None:
        related = (Related(formula.place, "the formula"),)
        message = f"`{name}` is given outright and worked out too: only one could count"
        reader.error("wrong-form", message, fixed.place, "keep `is` or `formula`", related)
    if formula is None and "is" not in spec:
        reader.error("missing-key", f"`{name}` has no `formula`", place, "say how it is worked out, or what it `is`")
    return changed_value(ValueSpec(name, name.replace("_", " "), (), place), spec, place, reader)


def changed_value(base: ValueSpec, spec: Cursor, place: Place, reader: Reader) -> ValueSpec:
    """A value with the given fields instead of its own. A figure takes a formula's place, and the other way round."""
    given = {key: content for key, content, _ in entries(spec)}
    changes: dict[str, object] = {"place": place}
    if "title" in given:
        changes["title"] = word(given["title"], base.title)
    if "each" in given:
        changes["each"] = words(given["each"])
    if "formula" in given:
        changes |= {"formula": reader.formula(given["formula"]), "fixed": None, "source": ""}
    if "is" in given:
        changes |= {"fixed": reader.quantity(given["is"], None), "formula": None, "source": ""}
    for key in ("source", "because"):
        if key in given:
            changes[key] = word(given[key])
    if "show" in given:
        changes |= {"show": reader.show(given["show"]), "show_place": given["show"].place}
    if "limits" in given:
        least, most = (reader.formula(given["limits"].get(side)) for side in ("min", "max"))
        changes["limits"] = Limits(least, most) if least or most else None
    if "when" in given:
        changes["when"] = reader.formula(given["when"])
    return replace(base, **changes)  # type: ignore[arg-type]


def readings(at: Cursor | None, reader: Reader) -> Mapping[str, Reading]:
    return {name: _reading(name, spec, place, reader) for name, spec, place in entries(at)}


def _reading(name: str, spec: Cursor, place: Place, reader: Reader) -> Reading:
    dimension = word(spec.get("measure"))
    choices, ways, each = _words_by_name(spec.get("choices")), spec.known("axis"), words(spec.get("each"))
    if ways is not None and "axis" not in each:
        each = (*each, "axis")
        hint = f"write `each: [{', '.join(each)}]`, or leave out `axis`"
        reader.error("wrong-form", f"`{name}` has ways across, and is not read for each of them", ways.place, hint)
    for said in {said for said in choices.values() if list(choices.values()).count(said) > 1}:
        alike = [choice for choice, words in choices.items() if words == said]
        message = f"`{alike[0]}` and `{alike[1]}` of `{name}` both read “{said}”"
        reader.error("wrong-form", message, spec["choices"].key_place(alike[1]), "say them apart")
    return Reading(
        name=name,
        title=word(spec.get("title")),
        each=each,
        place=place,
        choices=choices,
        dimension=dimension,
        gauge=word(spec.get("with")),
        where=word(spec.get("where")),
        how=word(spec.get("how")),
        axis=_words_by_name(spec.get("axis")),
        at=reader.formula(spec.get("at")),
        expect=_expect(spec.get("expect"), dimension, reader),
        least={word: int(content.number()) for word, content, _ in entries(spec.get("least"))},
        when=reader.formula(spec.get("when")),
    )


def _expect(spec: Cursor | None, dimension: str, reader: Reader) -> Expect | None:
    if spec is None or spec.is_empty:
        return None
    apart = NAMES[dimension].difference if dimension else None
    near = reader.formula(spec.get("near"))
    below, above = (reader.quantity(spec.get(side), apart) for side in ("below", "above"))
    for side, reach in (("below", below), ("above", above)):
        if reach is not None and reach.value < 0:
            message = f"`{side}` is how far it may lie {side} `near`, and can't be less than nothing"
            reader.error("out-of-range", message, spec[side].place, "write it without the sign")
    return Expect(near, below, above) if near and below and above else None


def decisions(at: Cursor | None, reader: Reader) -> Mapping[str, Decision]:
    return {name: _decision(name, spec, place, reader) for name, spec, place in entries(at)}


def _decision(name: str, spec: Cursor, place: Place, reader: Reader) -> Decision:
    branches = [_branch(branch, reader) for branch in items(spec.get("branches"))]
    otherwise = spec.known("otherwise")
    if otherwise is not None:
        branches.append(_branch(otherwise, reader))
    reader.unique("two-branches", branches, "branches")
    cases = [(reader.formula(case.get("when")), word(case.get("because"))) for case in items(spec.get("impossible"))]
    return Decision(
        name=name,
        title=word(spec.get("title")),
        each=words(spec.get("each")),
        branches=tuple(branches),
        place=place,
        when=reader.formula(spec.get("when")),
        impossible=tuple((when, because) for when, because in cases if when is not None),
    )


def _branch(spec: Cursor, reader: Reader) -> Branch:
    then = text(spec.get("then")) or Text("", spec.place)
    buy = tuple(_buy(part, reader) for part in items(spec.known("buy")))
    return Branch(word(spec.get("id")), reader.formula(spec.get("when")), then, spec.place, tuple(b for b in buy if b))


def _buy(spec: Cursor, reader: Reader) -> Buy | None:
    count = reader.formula(spec.get("count"))
    return None if count is None else Buy(word(spec.get("item")), count, word(spec.get("size")), spec.place)


def _words_by_name(at: Cursor | None) -> dict[str, str]:
    return {name: word(content) for name, content, _ in entries(at)}
