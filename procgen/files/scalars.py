"""What a plain YAML scalar means: the core schema of YAML 1.2, and over it the stricter reading of our files."""

from __future__ import annotations

import math
import re
from functools import lru_cache

_NULL = re.compile(r"|~|null|Null|NULL")
_TRUE = re.compile(r"true|True|TRUE")
_FALSE = re.compile(r"false|False|FALSE")
_INT = re.compile(r"[-+]?[0-9]+")
_OCTAL = re.compile(r"0o[0-7]+")
_HEX = re.compile(r"0x[0-9a-fA-F]+")
_FLOAT = re.compile(r"[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?")
_INFINITY = re.compile(r"[-+]?(?:\.inf|\.Inf|\.INF)")
_NAN = re.compile(r"\.nan|\.NaN|\.NAN")

_UNDERSCORED = re.compile(r"[-+]?[0-9][0-9_]*_[0-9_]*(?:\.[0-9_]*)?")
_LEADING_NOUGHT = re.compile(r"[-+]?0+[0-9][0-9]*(?:\.[0-9]*)?(?:[eE][-+]?[0-9]+)?")
_BINARY = re.compile(r"0b[01_]+")


_once = lru_cache(maxsize=20_000)  # an edited file says nearly all that it said before, and others much the same


@_once
def refusal(text: str) -> tuple[str, str] | None:
    """Why a plain scalar is refused and the mend, or None where its meaning is plain.

    Refused is what one reader takes for one thing and another for something else: 010 is ten or eight, 1_000 a number
    or a text. A clock position 4:30, `no` and a date are texts and stay so.
    """
    if _TRUE.fullmatch(text) or _FALSE.fullmatch(text):
        return f"`{text}` is a yes-or-no value, and files here have none: a choice is a word", _quote(text, "a word")
    if _OCTAL.fullmatch(text) or _HEX.fullmatch(text) or _BINARY.fullmatch(text):
        meant = "an ordinary decimal number"
        return f"`{text}` is not written as a decimal number", _quote(text, meant)
    if _LEADING_NOUGHT.fullmatch(text):
        plain = re.sub(r"^([-+]?)0+(?=[0-9])", r"\1", text)
        return f"`{text}` begins with a nought: some readers take it for octal", _quote(text, f"`{plain}`")
    if _UNDERSCORED.fullmatch(text):
        return f"`{text}` looks like a number and is none", _quote(text, f"`{text.replace('_', '')}`")
    if _INFINITY.fullmatch(text) or _NAN.fullmatch(text):
        return f"`{text}` is not a finite number", "write a number, or leave it empty while it is not yet known"
    if (_FLOAT.fullmatch(text) or _INT.fullmatch(text)) and not math.isfinite(float(text)):
        return f"`{text}` is too large for a number", _quote(text, "a smaller number")
    return None


@_once
def is_number(text: str) -> bool:
    """Whether a plain scalar that is not refused is a number."""
    return bool(_FLOAT.fullmatch(text))


def is_empty(text: str) -> bool:
    """Whether a plain scalar is null."""
    return bool(_NULL.fullmatch(text))


def _quote(text: str, instead: str) -> str:
    return f'write {instead}, or "{text}" in quotes where the text is meant'
