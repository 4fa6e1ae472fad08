"""Oil holes over one another: how much of the smaller one stands open, and how far a shell may be turned off.

Both holes are taken as circles on the unrolled surface where shell and block meet. On a bore much larger than the holes
the error of unrolling is far below that of drilling.
"""

from __future__ import annotations

from math import acos, degrees, hypot, pi, radians, sqrt

from procgen.trade.registry import function, positive
from procgen.units.dimension import ANGLE, AREA, LENGTH, NUMBER

MINUTES_A_DEGREE = 720 / 360


@function(takes=(LENGTH, LENGTH, LENGTH), gives=AREA, source="geometry")
def lens_area(first_diameter: float, second_diameter: float, apart: float) -> float:
    """Area (mm²) common to two circles (mm) whose centres lie `apart` (mm). Touching from outside counts as closed.

    ValueError if a diameter is not above 0.
    """
    positive(hole_diameter=min(first_diameter, second_diameter))
    r, s, d = first_diameter / 2, second_diameter / 2, abs(apart)
    if d >= r + s:
        return 0.0
    if d <= abs(r - s):
        return pi * min(r, s) ** 2
    sectors = r**2 * _acos((d**2 + r**2 - s**2) / (2 * d * r)) + s**2 * _acos((d**2 + s**2 - r**2) / (2 * d * s))
    kite = sqrt(max(0.0, (-d + r + s) * (d + r - s) * (d - r + s) * (d + r + s)))
    return sectors - kite / 2


@function(takes=(LENGTH, LENGTH, LENGTH), gives=NUMBER, source="geometry")
def hole_overlap(first_diameter: float, second_diameter: float, apart: float) -> float:
    """Share of the smaller hole that stands open, 0 to 1; hole diameters and centre distance in mm.

    ValueError if a diameter is not above 0.
    """
    return lens_area(first_diameter, second_diameter, apart) / (pi / 4 * min(first_diameter, second_diameter) ** 2)


@function(takes=(LENGTH, ANGLE, LENGTH), gives=LENGTH, source="geometry")
def hole_offset(radius: float, turned: float, along: float) -> float:
    """Distance (mm) between hole centres on a bore of `radius` (mm), one `turned` (deg) and shifted `along` (mm) off.

    Unrolled arc; against the chord it reads less than 0.04 % high below 5 deg. ValueError if radius is not above 0.
    """
    positive(radius=radius)
    return hypot(radius * radians(turned), along)


@function(takes=(LENGTH, LENGTH, LENGTH, ANGLE, LENGTH), gives=NUMBER, source="geometry")
def opening_left(
    block_hole_diameter: float, shell_hole_diameter: float, radius: float, turned: float, along: float
) -> float:
    """Share of the smaller hole (0 to 1) open in a shell that sits `turned` (deg) and shifted `along` (mm) off.

    Hole diameters and the radius (mm) of the bore in the block. ValueError if a size is not above 0.
    """
    return hole_overlap(block_hole_diameter, shell_hole_diameter, hole_offset(radius, turned, along))


@function(takes=(LENGTH, LENGTH, LENGTH, NUMBER), gives=ANGLE, source="geometry")
def clock_error_max(block_hole_diameter: float, shell_hole_diameter: float, radius: float, overlap: float) -> float:
    """Most (deg) that a shell may be turned off before less than `overlap` (0 to 1) of the smaller hole stands open.

    Hole diameters and the radius (mm) of the bore in the block; no shift along the bore. ValueError if a size is not
    above 0 or the overlap is no share.
    """
    positive(radius=radius)
    return degrees(offset_max(block_hole_diameter, shell_hole_diameter, overlap) / radius)


@function(takes=(LENGTH, LENGTH, NUMBER), gives=LENGTH, source="geometry")
def offset_max(first_diameter: float, second_diameter: float, overlap: float) -> float:
    """Most (mm) that two holes may stand apart before less than `overlap` (0 to 1) of the smaller one is open: the arc
    at the shell's outside, where it is only turned; the shift, where it is only shifted.

    ValueError if a diameter is not above 0 or the overlap is no share.
    """
    positive(hole_diameter=min(first_diameter, second_diameter))
    if not 0 <= overlap <= 1:
        raise ValueError("an overlap is a share between 0 and 100 %")
    low, high = abs(first_diameter - second_diameter) / 2, (first_diameter + second_diameter) / 2
    if overlap in (0, 1):
        return high if overlap == 0 else low
    while low < (middle := (low + high) / 2) < high:
        if hole_overlap(first_diameter, second_diameter, middle) >= overlap:
            low = middle
        else:
            high = middle
    return low


@function(takes=(LENGTH, LENGTH, LENGTH, NUMBER, LENGTH), gives=ANGLE, source="geometry")
def clock_error_shifted(
    block_hole_diameter: float, shell_hole_diameter: float, radius: float, overlap: float, along: float
) -> float:
    """Most (deg) that a shell may still be turned off when it already sits `along` (mm) off its place.

    ValueError, beside those of `clock_error_max`, where the shift alone leaves too little open.
    """
    positive(radius=radius)
    most = offset_max(block_hole_diameter, shell_hole_diameter, overlap)
    if abs(along) > most:
        raise ValueError(
            f"{abs(along):g} mm along the bore alone leaves less than {overlap * 100:g} % of the hole open"
        )
    return degrees(sqrt(most**2 - along**2) / radius)


@function(takes=(LENGTH, ANGLE), gives=LENGTH, source="geometry")
def arc(radius: float, turned: float) -> float:
    """Length (mm) on a bore of `radius` (mm) that lies under `turned` (deg). ValueError if radius is not above 0."""
    positive(radius=radius)
    return radius * radians(turned)


@function(takes=(ANGLE,), gives=NUMBER, source="a clock face: 12 hours round")
def clock_minutes(turned: float) -> float:
    """Minutes of clock position in `turned` (deg): half an hour is 15 deg."""
    return turned * MINUTES_A_DEGREE


def _acos(cosine: float) -> float:
    """Arc cosine that forgives rounding just outside ±1."""
    return acos(max(-1.0, min(1.0, cosine)))
