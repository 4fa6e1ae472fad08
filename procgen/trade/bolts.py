"""Plain bolts: stress area, and torque for a preload by the short formula T = K d F.

An estimate for bolts that the family lists no torque for. The maker's torque or angle goes before it; caps, studs and
angle-tightened bolts are never worked out. K scatters by about 30 % even with care (one test report), and so does the
preload that a torque gives.
"""

from __future__ import annotations

from math import pi, sqrt

from procgen.trade.registry import function, positive
from procgen.trade.thread_tables import INCH
from procgen.units.dimension import AREA, FORCE, LENGTH, NUMBER, TORQUE

SHORT = "T = K d F, common in bolt makers' handbooks"


@function(takes=(LENGTH, NUMBER), gives=AREA, source="ASME B1.1")
def stress_area_inch(major: float, per_inch: float) -> float:
    """Stress area (mm²) of an inch bolt of `major` diameter (mm) with `per_inch` threads an inch.

    For steel up to 100 ksi. ValueError if a size is not above 0 or the thread is deeper than the bolt.
    """
    positive(major=major, threads_an_inch=per_inch)
    return _area(major - 0.9743 * INCH / per_inch)


@function(takes=(LENGTH, LENGTH), gives=AREA, source="ISO 898-1")
def stress_area_metric(major: float, pitch: float) -> float:
    """Stress area (mm²) of a metric bolt of `major` diameter and `pitch` (mm): half-way from pitch to root diameter.

    ValueError if a size is not above 0 or the thread is deeper than the bolt.
    """
    positive(major=major, pitch=pitch)
    return _area(major - 13 / 24 * sqrt(3) * pitch)


@function(takes=(NUMBER, LENGTH, FORCE), gives=TORQUE, source=SHORT)
def bolt_torque(nut_factor: float, major: float, preload: float) -> float:
    """Torque (kg·mm²/s²) that pulls a bolt of `major` diameter (mm) to `preload` (kg·mm/s²).

    `nut_factor` K is about 0.2 dry and 0.15 oiled. ValueError if a size is not above 0.
    """
    positive(nut_factor=nut_factor, major=major, preload=preload)
    return nut_factor * major * preload


@function(takes=(TORQUE, NUMBER, LENGTH), gives=FORCE, source=SHORT)
def bolt_preload(torque: float, nut_factor: float, major: float) -> float:
    """Preload (kg·mm/s²) that a torque gives: bolt_torque the other way round. ValueError if a size is not above 0."""
    positive(torque=torque, nut_factor=nut_factor, major=major)
    return torque / (nut_factor * major)


def _area(diameter: float) -> float:
    if diameter <= 0:
        raise ValueError("the thread is deeper than the bolt is thick")
    return pi / 4 * diameter**2
