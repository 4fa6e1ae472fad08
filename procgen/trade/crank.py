"""Where a piston stands in its bore at any angle of the crank, with or without an offset of pin or cylinder."""

from __future__ import annotations

from math import asin, cos, degrees, radians, sin, sqrt

from procgen.trade.registry import function, positive
from procgen.units.dimension import ANGLE, LENGTH


@function(takes=(LENGTH, LENGTH, LENGTH, ANGLE), gives=LENGTH, source="geometry")
def piston_drop(stroke: float, rod_length: float, offset: float, angle: float) -> float:
    """How far (mm) the piston stands below its highest point, `angle` (deg) after the crank points up the bore.

    `stroke` is twice the crank's throw, `offset` how far pin or bore lies off the crankshaft; all mm. An offset is
    above 0 towards the side on which the crankpin rises. ValueError if a size is not above 0, or the offset is too
    large for the rod.
    """
    throw = _throw(stroke, rod_length, offset)
    aside = throw * sin(radians(angle)) + offset
    highest = sqrt((rod_length + throw) ** 2 - offset**2)
    return highest - throw * cos(radians(angle)) - sqrt(rod_length**2 - aside**2)


@function(takes=(LENGTH, LENGTH, LENGTH), gives=ANGLE, source="geometry")
def top_angle(stroke: float, rod_length: float, offset: float) -> float:
    """Angle (deg) after the crank points up the bore at which the piston is highest; as in piston_drop."""
    throw = _throw(stroke, rod_length, offset)
    return degrees(asin(-offset / (rod_length + throw)))


@function(takes=(LENGTH, LENGTH, LENGTH), gives=LENGTH, source="geometry")
def offset_stroke(stroke: float, rod_length: float, offset: float) -> float:
    """How far (mm) the piston really runs: a little over twice the throw where there is an `offset`; as above."""
    throw = _throw(stroke, rod_length, offset)
    return sqrt((rod_length + throw) ** 2 - offset**2) - sqrt((rod_length - throw) ** 2 - offset**2)


def _throw(stroke: float, rod_length: float, offset: float) -> float:
    positive(stroke=stroke, rod_length=rod_length)
    if not stroke / 2 + abs(offset) < rod_length:
        raise ValueError("the rod is too short for this stroke and offset")
    return stroke / 2
