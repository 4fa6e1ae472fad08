"""The hone: how far it strokes, how fast, and the cross-hatch that this leaves.

The angle is the included one, between the two families of scratches, halved by a line round the bore. A cycle is once
down and once up. Mean speeds: near each reversal the hatch lies flatter.
"""

from __future__ import annotations

from math import atan2, degrees, pi, radians, tan

from procgen.trade.registry import function, positive
from procgen.units.dimension import ANGLE, FREQUENCY, LENGTH, SPEED


@function(takes=(LENGTH, FREQUENCY, LENGTH, FREQUENCY), gives=ANGLE, source="geometry")
def hatch_angle(bore: float, spindle: float, stroke: float, cycles: float) -> float:
    """Included cross-hatch angle (deg) of a bore (mm) honed at `spindle` (1/s) with `cycles` (1/s) of `stroke` (mm).

    ValueError if any is not above 0.
    """
    positive(bore=bore, spindle_speed=spindle, stroke=stroke, cycles=cycles)
    return 2 * degrees(atan2(2 * stroke * cycles, pi * bore * spindle))


@function(takes=(LENGTH, FREQUENCY, LENGTH, ANGLE), gives=FREQUENCY, source="geometry")
def hatch_cycles(bore: float, spindle: float, stroke: float, angle: float) -> float:
    """Full cycles (1/s) that give an included cross-hatch `angle` (deg); bore, stroke in mm, `spindle` in 1/s.

    ValueError if a size is not above 0 or the angle is not between 0 and 180 deg.
    """
    positive(bore=bore, spindle_speed=spindle, stroke=stroke)
    if not 0 < angle < 180:
        raise ValueError("a cross-hatch angle lies between 0 and 180 degrees")
    return pi * bore * spindle * tan(radians(angle / 2)) / (2 * stroke)


@function(takes=(LENGTH, FREQUENCY, LENGTH, ANGLE), gives=FREQUENCY, source="geometry")
def hatch_spindle(bore: float, cycles: float, stroke: float, angle: float) -> float:
    """Spindle speed (1/s) that gives an included cross-hatch `angle` (deg) with as many `cycles` (1/s) as can be done.

    Bore and stroke in mm. ValueError if a size is not above 0 or the angle is not between 0 and 180 deg.
    """
    positive(cycles=cycles)
    return cycles / hatch_cycles(bore, 1.0, stroke, angle)


@function(takes=(ANGLE,), gives=ANGLE, source="geometry")
def hatch_supplement(angle: float) -> float:
    """The same cross-hatch told the other way (deg): across the bore's axis for round the bore, and back.

    ValueError if the angle is not between 0 and 180 deg.
    """
    if not 0 < angle < 180:
        raise ValueError("a cross-hatch angle lies between 0 and 180 degrees")
    return 180 - angle


@function(takes=(LENGTH, FREQUENCY), gives=SPEED, source="geometry")
def rim_speed(diameter: float, spindle: float) -> float:
    """Speed (mm/s) of a stone or cutter round a bore of `diameter` (mm) at `spindle` (1/s)."""
    positive(diameter=diameter, spindle_speed=spindle)
    return pi * diameter * spindle


@function(takes=(LENGTH, FREQUENCY), gives=SPEED, source="geometry")
def stroke_speed(stroke: float, cycles: float) -> float:
    """Mean speed (mm/s) of a stone along the bore: a `stroke` (mm) down and up in each of `cycles` (1/s)."""
    positive(stroke=stroke, cycles=cycles)
    return 2 * stroke * cycles


@function(takes=(LENGTH, LENGTH, LENGTH), gives=LENGTH, source="geometry; over-travel is common practice, no source")
def hone_stroke(bore_length: float, over_travel: float, stone_length: float) -> float:
    """How far (mm) the stones must stroke to run out of the bore by `over_travel` (mm) at both ends.

    ValueError if a size is not above 0, the stones run out by half their length or more and tip, or nothing is left
    to stroke.
    """
    positive(bore_length=bore_length, over_travel=over_travel, stone_length=stone_length)
    if over_travel >= stone_length / 2:
        raise ValueError("stones that run out by half their length tip over the edge")
    stroke = bore_length + 2 * over_travel - stone_length
    if stroke <= 0:
        raise ValueError("the stones are too long to stroke in this bore")
    return stroke
