"""A formula's text cut into tokens. Whatever the language has not got is told here, each with its own mend."""

from __future__ import annotations

import re
from dataclasses import dataclass

from procgen.files.problems import Problem, error
from procgen.files.text import Text

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
    while position < len(source):
        match = _TOKEN.match(source, position)
        if match is None:  # only white space is left
            break
        position = match.end()
        kind = match.lastgroup or "mark"
        token = Token(kind, match[kind], match.start(kind))
        if kind == "number":
            unit = _UNIT.match(source, position)
            if unit is not None and _is_unit(unit[1], source[unit.end() :]):
                position = unit.end()
                problems.append(_with_unit(token, unit[1], text))
            elif (problem := _bad_number(token, text)) is not None:
                problems.append(problem)
        elif kind == "quoted":
            inner = token.text.strip("\"'“”‘’«»").strip()
            hint = f"write `{inner}`" if re.fullmatch(r"[a-z][a-z0-9_]*", inner) else "write the word's name, bare"
            problems.append(error("formula-token", "a formula has no quotes: words stand bare", text.at(token.at), hint))
        elif kind == "word" and token.text in KEYWORDS:
            token = Token("mark", token.text, token.at)
        elif kind == "mark" and token.text not in _GOOD:
            message = f"a formula has no `{token.text}`"
            problems.append(error("formula-token", message, text.at(token.at), _MENDS.get(token.text, "")))
        tokens.append(token)
    tokens.append(Token("end", "", len(source)))
    return tuple(tokens), tuple(problems)


_UNIT = re.compile(r"\s*(%|°[CF]?|:[0-9]+|[A-Za-zµμΔ]+[²³]?(?:[/·][A-Za-z]+[²³]?)*)")


def _is_unit(word: str, rest: str) -> bool:
    """Whether what follows a number is a unit; `2 in (a, b)` is the comparison, `2 in` the inch."""
    if word == "in":
        return not rest.lstrip().startswith("(")
    return word not in KEYWORDS and len(word) <= 7 and "_" not in rest[:1]


def _with_unit(token: Token, unit: str, text: Text) -> Problem:
    what = f"{token.text}{unit}" if unit[0] in ":°" else f"{token.text} {unit}"
    message = f"a formula has no numbers with units: {what}"
    return error("formula-number", message, text.at(token.at), f"give it a name with `is: {what}` and a source")


def _bad_number(token: Token, text: Text) -> Problem | None:
    if not token.text.isdecimal():
        message = f"a formula has no decimals: {token.text}"
    elif len(token.text) > 1 and token.text.startswith("0"):
        message = f"a whole number has no leading zero: {token.text}"
        return error("formula-number", message, text.at(token.at), f"write {token.text.lstrip('0') or '0'}")
    elif len(token.text) > 2 or int(token.text) > LARGEST:
        message = f"a number above {LARGEST} means something: {token.text}"
    else:
        return None
    return error("formula-number", message, text.at(token.at), f"give it a name with `is: {token.text}` and a source")
