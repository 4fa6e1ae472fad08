"""Scales that a person can work with, and how they are said."""

from __future__ import annotations

from fractions import Fraction

SCALES = tuple(
    Fraction(text)
    for text in ("50 40 30 25 20 15 10 5 4 3 2 3/2 1 2/3 1/2 2/5 1/3 1/4 1/5 1/6 1/7 1/8 1/10 1/12 1/15 1/20 1/25 1/30 1/40 1/50").split()
)


def said(scale: Fraction) -> str:
    """ "Full size", "Scale 1 : 2.5", "Scale 5 : 1"."""
    if scale == 1:
        return "Full size"
    if scale > 1:
        return f"Scale {float(scale):g}\u202f:\u202f1"
    return f"Scale 1\u202f:\u202f{float(1 / scale):g}"
