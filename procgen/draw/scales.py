"""Scales that a person can work with, and how they are said."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache

_ENLARGED = (50, 40, 30, 25, 20, 15, 10, 5, 4, 3, 2, Fraction(3, 2), 1)
_REDUCED = (Fraction(3, 2), 2, Fraction(5, 2), 3, 4, 5, 6, 7, 8, 10, 12, 15, 20, 25, 30, 40, 50)
SCALES = (*(Fraction(times) for times in _ENLARGED), *(1 / Fraction(parts) for parts in _REDUCED))


@lru_cache(maxsize=100)
def scales_to(largest: float) -> tuple[Fraction, ...]:
    return tuple(scale for scale in SCALES if scale <= largest)


def said(scale: Fraction) -> str:
    """ "Full size", "Scale 1 : 2.5", "Scale 5 : 1"."""
    if scale == 1:
        return "Full size"
    if scale > 1:
        return f"Scale\u00a0{float(scale):g}\u202f:\u202f1"
    return f"Scale\u00a01\u202f:\u202f{float(1 / scale):g}"
