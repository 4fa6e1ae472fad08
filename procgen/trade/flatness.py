"""A face by its corners."""

from __future__ import annotations

from procgen.trade.registry import function
from procgen.units.dimension import LENGTH


@function(takes=(LENGTH, LENGTH, LENGTH, LENGTH), gives=LENGTH, source="geometry; flatness as in ISO 1101")
def corner_twist(first: float, second: float, third: float, fourth: float) -> float:
    """Flatness (mm) of a rectangular face that is only twisted, from the heights (mm) of its corners in order round it.

    Two planes this far apart hold all four corners. A plain tilt counts nothing; a hollow between the corners is not
    seen.
    """
    return abs(first - second + third - fourth) / 2
