"""What hangs on a sling and on a stand."""

from __future__ import annotations

from math import asin, degrees, radians, sin

from procgen.trade.registry import function, positive
from procgen.units.dimension import ANGLE, FORCE, LENGTH, MASS, NUMBER, TORQUE

GRAVITY = 9806.65  # mm/s², standard gravity by definition


@function(takes=(MASS, NUMBER, ANGLE), gives=FORCE, source="geometry")
def leg_tension(mass: float, legs: float, angle: float) -> float:
    """Pull (kg·mm/s²) in each of `legs` equal sling legs that carry `mass` (kg) at `angle` (deg) from the horizontal.

    The load hangs centred and every leg counted carries its share: of three or four rigid legs count two.
    ValueError if mass or legs is not above 0 or the angle is not above 0 and up to 90 deg.
    """
    positive(mass=mass, legs=legs)
    if not 0 < angle <= 90:
        raise ValueError("a sling leg stands above 0 and up to 90 degrees from the horizontal")
    return mass * GRAVITY / (legs * sin(radians(angle)))


@function(takes=(MASS, NUMBER, ANGLE), gives=MASS, source="geometry")
def leg_load(mass: float, legs: float, angle: float) -> float:
    """Mass (kg) that each of `legs` equal sling legs must be rated for, hung straight, to carry `mass` (kg) at `angle`
    (deg) from the horizontal: a sling's plate says a mass, not a force.

    Of three or four rigid legs count two. ValueError as in leg_tension.
    """
    return leg_tension(mass, legs, angle) / GRAVITY


@function(takes=(LENGTH, LENGTH), gives=ANGLE, source="geometry")
def leg_angle(length: float, height: float) -> float:
    """Angle (deg) from the horizontal of a sling leg of `length` (mm) that rises `height` (mm).

    ValueError unless 0 < height <= length.
    """
    positive(length=length, height=height)
    if height > length:
        raise ValueError("a sling leg cannot rise higher than it is long")
    return degrees(asin(height / length))


@function(takes=(MASS, NUMBER, ANGLE), gives=MASS, source="geometry")
def sling_capacity(rating: float, legs: float, angle: float) -> float:
    """Mass (kg) that `legs` legs carry at `angle` (deg) from the horizontal, each rated `rating` (kg) hung straight.

    Of three or four rigid legs count two. ValueError as in leg_tension.
    """
    positive(rating=rating, legs=legs)
    return rating / leg_tension(1.0, legs, angle) * GRAVITY


@function(takes=(MASS, LENGTH), gives=TORQUE, source="geometry")
def stand_moment(mass: float, overhang: float) -> float:
    """Moment (kg·mm²/s²) on a stand's head plate from `mass` (kg) whose centre hangs `overhang` (mm) out from it.

    ValueError if either is not above 0.
    """
    positive(mass=mass, overhang=overhang)
    return mass * GRAVITY * overhang
