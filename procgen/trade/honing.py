"""The cross-hatch that a hone leaves: its angle from spindle speed and strokes, and the strokes for an angle.

The angle is the included one, between the two families of scratches, halved by a line round the bore. A cycle is once
down and once up. Mean speeds: near each reversal the hatch lies flatter.
"""

from __future__ import annotations

from math import atan2, degrees, pi, radians, tan

from procgen.trade.registry import function, positive
from procgen.units.dimension import ANGLE, FREQUENCY, LENGTH


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
