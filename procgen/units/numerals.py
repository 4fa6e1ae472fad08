"""Numbers as people write them, read exactly: 98.40, −78, 1.2e-5, 1/4, 1 13/64, 1-13/64."""

from __future__ import annotations

import re
from fractions import Fraction

# Digits and exponents are bounded, so that no numeral can cost more than it is worth to read.
_DECIMAL = r"[0-9]{1,30}(?:\.[0-9]{1,30})?(?:[eE][-+]?[0-9]{1,2})?"
_FRACTION = r"(?:(?P<whole>[0-9]{1,6})[ \u00a0-])?(?P<over>[0-9]{1,6})/(?P<under>[0-9]{1,6})"
_END = r"(?![0-9.,/:_]|[eE][-+]?[0-9])"
NUMERAL = re.compile(rf"(?P<text>(?P<sign>[-+\u2212]?)(?:{_FRACTION}|(?P<decimal>{_DECIMAL}))){_END}")
"""Matches a numeral at the beginning of a text; group `text` is the numeral as written."""


def exact(numeral: re.Match[str]) -> Fraction:
    """The number that a match of NUMERAL stands for. ValueError: a fraction over 0, or a mixed one not below 1."""
    if numeral["decimal"]:
        number = Fraction(numeral["decimal"])
    else:
        over, under = int(numeral["over"]), int(numeral["under"])
        if under == 0 or (numeral["whole"] and over >= under):
            raise ValueError(f"`{numeral['text']}` is not a fraction")
        number = int(numeral["whole"] or 0) + Fraction(over, under)
    return -number if numeral["sign"] in ("-", "\u2212") else number


def mend(text: str) -> str:
    """How to write a numeral that NUMERAL refuses, or ""."""
    if re.match(r"[-+\u2212]?[0-9]+,[0-9]", text):
        return f"the decimal sign is a point and thousands stand without a mark: {text.replace(',', '.', 1)}"
    if re.match(r"[-+\u2212]?\.[0-9]", text):
        return f"write a nought before the point: {text.replace('.', '0.', 1)}"
    if re.match(r"[-+\u2212]?[0-9]+\.(?![0-9])", text):
        return "write a digit after the point, or leave the point out"
    if re.match(r"[-+\u2212]?[0-9]+_[0-9]", text):
        return f"write it without the underscore: {text.replace('_', '')}"
    return ""
