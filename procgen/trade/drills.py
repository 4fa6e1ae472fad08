"""Drill sizes that a shop has in its drawers, to choose probe rods by: number, letter and 1/64 in drills."""

from __future__ import annotations

from bisect import bisect_right
from fractions import Fraction

from procgen.trade.thread_tables import INCH
from procgen.values import dataclass

# Inches, #1 to #80, as published; no formula gives them.
_NUMBERS = """
.2280 .2210 .2130 .2090 .2055 .2040 .2010 .1990 .1960 .1935 .1910 .1890 .1850 .1820 .1800 .1770 .1730 .1695 .1660 .1610
.1590 .1570 .1540 .1520 .1495 .1470 .1440 .1405 .1360 .1285 .1200 .1160 .1130 .1110 .1100 .1065 .1040 .1015 .0995 .0980
.0960 .0935 .0890 .0860 .0820 .0810 .0785 .0760 .0730 .0700 .0670 .0635 .0595 .0550 .0520 .0465 .0430 .0420 .0410 .0400
.0390 .0380 .0370 .0360 .0350 .0330 .0320 .0310 .0292 .0280 .0260 .0250 .0240 .0225 .0210 .0200 .0180 .0160 .0145 .0135
"""
_LETTERS = """
.234 .238 .242 .246 .250 .257 .261 .266 .272 .277 .281 .290 .295 .302 .316 .323 .332 .339 .348 .358 .368 .377 .386 .397
.404 .413
"""


@dataclass(frozen=True, slots=True, order=True)
class Drill:
    size: float  # mm
    name: str  # "#9", "O", "25/64"


def _drills() -> tuple[Drill, ...]:
    found = {float(inch) * INCH: f"#{number}" for number, inch in enumerate(_NUMBERS.split(), 1)}
    found |= {float(inch) * INCH: chr(ord("A") + place) for place, inch in enumerate(_LETTERS.split())}
    found |= {n / 64 * INCH: str(Fraction(n, 64)) for n in range(1, 65)}  # 1/4 in rather than E
    return tuple(sorted(Drill(size, name) for size, name in found.items()))


DRILLS = _drills()


def largest_not_over(size: float) -> Drill:
    """The largest drill (mm) that enters a hole of `size` (mm). ValueError where the smallest is larger."""
    at = bisect_right([drill.size for drill in DRILLS], size)
    if at == 0:
        raise ValueError(f"no drill enters a hole of {size:g} mm")
    return DRILLS[at - 1]


def nearest(size: float) -> Drill:
    """The drill nearest to `size` (mm); of two as near, the smaller."""
    return min(DRILLS, key=lambda drill: (abs(drill.size - size), drill.size))
