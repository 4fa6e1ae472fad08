"""A formula's text cut into tokens. Whatever the language has not got is told here, each with its own mend."""

from __future__ import annotations

import re

from procgen.files.problems import Problem, error
from procgen.files.text import Text
from procgen.units.table import UNITS
from procgen.values import dataclass

KEYWORDS = frozenset({"if", "else", "or", "and", "not", "is", "in"})
LARGEST = 12
"""Any number above it means something, and gets a name and a source."""

_TOKEN = re.compile(
    r"""\s*(?:
      (?P<number>[0-9]+(?:[.,][0-9]+)*(?:[eE][+-]?[0-9]+)?)
    | (?P<word>[A-Za-z_][A-Za-z0-9_]*(?:\.[A-Za-z0-9_]+)*)
    | (?P<quoted>"[^"]*"?|'[^']*'?|[“”‘’«»][^“”‘’«»]*[“”‘’«»]?)
    | (?P<mark>\*\*|//|===?|!==?|<>|<=|>=|=<|=>|<|>|&&?|\|\|?|[-+*/(),\[\]]|.)
    )""",
    re.VERBOSE | re.DOTALL,
)

_UNIT = re.compile(r"\s*(:[0-9]+|[^\s()\[\],<>=+*0-9/-][^\s()\[\],<>=+*0-9-]*)")

_GOOD = frozenset({"<", "<=", ">", ">=", "+", "-", "*", "/", "(", ")", ",", "[", "]"})

_EQUAL = "for a word write `is`; for sizes write <= or >=, which count a difference below the smallest step as none"
_UNEQUAL = "for a word write `is not`; for sizes write `a < b or a > b`"
_POWER = "write `x * x`, or sqrt(x) for the root"
_MENDS: dict[str, str] = {
    "=": _EQUAL, "==": _EQUAL, "===": _EQUAL, "!=": _UNEQUAL, "!==": _UNEQUAL, "<>": _UNEQUAL, "≠": _UNEQUAL,
    "&": "write `and`", "&&": "write `and`", "|": "write `or`", "||": "write `or`", "!": "write `not`",
    "^": _POWER, "**": _POWER, "²": "write `x * x`", "³": "write `x * x * x`", "√": "write sqrt(x)",
    "//": "write `/`; a formula never cuts a result down to a whole number", "%": "write `/`, or name a ratio",
    "=<": "write `<=`", "=>": "write `>=`", "≤": "write `<=`", "≥": "write `>=`",
    "×": "write `*`", "·": "write `*`", "÷": "write `/`", "−": "write a plain `-`", "–": "write a plain `-`",
    "{": "braces are for texts: here the name stands bare", "}": "braces are for texts: here the name stands bare",
    "?": "write `a if condition else b`", ":": "write `a if condition else b`",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Token:
    """`kind` is number, word, mark or end; keywords are marks."""

    kind: str
    text: str
    at: int


def tokens_of(text: Text) -> tuple[tuple[Token, ...], tuple[Problem, ...]]:
    """Cut `text` into tokens, the last of kind "end", with a problem for each that the language has not got."""
    source = text.value
    tokens: list[Token] = []
    problems: list[Problem] = []
    position = 0
    while (match := _TOKEN.match(source, position)) is not None:
        kind = match.lastgroup or "mark"
        token = Token(kind, match[kind], match.start(kind))
        position = match.end()
        wrong: tuple[str, str, str] | None = None
        if kind == "number":
            unit = _unit_at(source, position)
            position += len(unit)
            named = bool(tokens) and tokens[-1].text == "["  # `cylinder[14]` is a name, no quantity
            wrong = _unit_wrong(token.text + unit) if unit else None if named else _number_wrong(token.text)
        elif kind == "quoted":
            inner = token.text.strip("\"'“”‘’«»").strip()
            hint = f"write `{inner}`" if re.fullmatch(r"[a-z][a-z0-9_]*", inner) else "write the word's own name, bare"
            wrong = "formula-token", "a formula has no quotes: words stand bare", hint
        elif kind == "mark" and token.text not in _GOOD:
            wrong = "formula-token", f"a formula has no `{token.text}`", _MENDS.get(token.text, "")
        elif token.text in KEYWORDS:
            token = Token("mark", token.text, token.at)
        if wrong is not None:
            code, message, hint = wrong
            problems.append(error(code, message, text.at(token.at), hint))
        tokens.append(token)
    tokens.append(Token("end", "", len(source)))
    return tuple(tokens), tuple(problems)


def _unit_at(source: str, position: int) -> str:
    """The unit that follows a number, with the space before it, or "". `2 in (a, b)` compares; `2 in` is the inch."""
    match = _UNIT.match(source, position)
    if match is None or (match[1] == "in" and source[match.end() :].lstrip().startswith("(")):
        return ""
    if match[1].startswith(":") or match[1] in UNITS:
        return match[0]
    first = match[1].partition("/")[0]
    return match[0][: -len(match[1])] + first if first in UNITS else ""


def _unit_wrong(what: str) -> tuple[str, str, str]:
    hint = f"give it a name with `is: {what}` and a source"
    return "formula-number", f"a formula has no numbers with units: {what}", hint


def _number_wrong(number: str) -> tuple[str, str, str] | None:
    if not number.isdecimal():
        message = f"a formula has no decimals: {number}"
    elif len(number) > 1 and number.startswith("0"):
        hint = f"write {number.lstrip('0') or '0'}"
        return "formula-number", f"a whole number has no leading zero: {number}", hint
    elif len(number) > 2 or int(number) > LARGEST:
        message = f"a number above {LARGEST} means something: {number}"
    else:
        return None
    return "formula-number", message, f"give it a name with `is: {number}` and a source"
