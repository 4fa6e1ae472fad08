"""One cylinder: what it sweeps, how its parts stack up, where its rings run and where to gauge it."""

from __future__ import annotations

from math import ceil, floor, pi

from procgen.trade.registry import Many, function, positive
from procgen.units.compare import less
from procgen.units.dimension import LENGTH, NUMBER, VOLUME

DEPTH_STEP = 0.5  # mm: as fine as a depth stop in a bore is set by eye
INSIDE = 2.0  # mm inside each end of ring travel, where wear is greatest and the gauge still clears the ridge


@function(takes=(LENGTH, LENGTH), gives=VOLUME, source="geometry")
def swept_volume(bore: float, stroke: float) -> float:
    """Volume (mm³) that one piston sweeps in a bore (mm) over a stroke (mm). ValueError if either is not above 0."""
    positive(bore=bore, stroke=stroke)
    return pi / 4 * bore**2 * stroke


@function(takes=(LENGTH, LENGTH, NUMBER), gives=VOLUME, source="geometry")
def displacement(bore: float, stroke: float, count: float) -> float:
    """Volume (mm³) that `count` pistons sweep; bore, stroke in mm. ValueError if any is not above 0."""
    positive(count=count)
    return swept_volume(bore, stroke) * count


@function(takes=(VOLUME, LENGTH, LENGTH, LENGTH, LENGTH, VOLUME), gives=VOLUME, source="geometry")
def clearance_volume(
    chamber: float, gasket_bore: float, gasket_thickness: float, bore: float, deck_clearance: float, dish: float
) -> float:
    """Volume (mm³) left over the piston at the top: chamber + gasket + deck space + dish.

    Volumes mm³ (a dome is a negative dish), sizes mm; `gasket_thickness` as compressed, `bore` as finished,
    `deck_clearance` above 0 when the crown stops below the deck. ValueError if nothing is left.
    """
    left = chamber + swept_volume(gasket_bore, gasket_thickness) + pi / 4 * bore**2 * deck_clearance + dish
    if left <= 0:
        raise ValueError("no volume is left over the piston at the top")
    return left


@function(takes=(VOLUME, VOLUME), gives=NUMBER, source="geometry")
def compression_ratio(swept: float, clearance: float) -> float:
    """(swept + clearance) / clearance, from volumes in mm³. ValueError if either is not above 0."""
    positive(swept_volume=swept, clearance_volume=clearance)
    return (swept + clearance) / clearance


@function(takes=(LENGTH, LENGTH, LENGTH, LENGTH), gives=LENGTH, source="geometry")
def stack_height(stroke: float, rod_length: float, compression_height: float, deck_clearance: float) -> float:
    """Crank centreline to deck (mm) that these parts (mm) fill: half the stroke, rod, piston, gap."""
    return stroke / 2 + rod_length + compression_height + deck_clearance


@function(takes=(LENGTH, LENGTH, LENGTH), gives=Many(LENGTH), source="common practice, no source")
def survey_stations(travel_top: float, travel_bottom: float, bore_bottom: float) -> tuple[float, ...]:
    """Six depths (mm below the deck) to gauge a worn bore at, from the top down.

    One in the unworn band above ring travel, four in travel (2 mm inside each end and two evenly between), one in the
    band below it. Each is set to a half millimetre, and never rounds across an end of travel. All in mm below the deck.
    ValueError where a band or the travel is missing, so that there is nothing true to compare with.
    """
    if not travel_top > 0:
        raise ValueError("the top ring runs to the deck: there is no unworn band above it")
    if not travel_bottom > travel_top + 2 * INSIDE:
        raise ValueError("ring travel is too short to gauge, or its ends are the wrong way round")
    if not bore_bottom > travel_bottom:
        raise ValueError("the oil ring leaves the bore: there is no unworn band below it")
    first, last = travel_top + INSIDE, travel_bottom - INSIDE
    inside = (first, first + (last - first) / 3, last - (last - first) / 3, last)
    return (
        _settled(travel_top / 2, 0.0, travel_top),
        *(_settled(depth, travel_top, travel_bottom) for depth in inside),
        _settled((travel_bottom + bore_bottom) / 2, travel_bottom, bore_bottom),
    )


@function(takes=(LENGTH, LENGTH, LENGTH, LENGTH), gives=Many(LENGTH), source="common practice, no source")
def light_stations(travel_top: float, travel_bottom: float, ring_width: float, pitch: float) -> tuple[float, ...]:
    """Depths (mm below the deck) of a ring's upper edge to look past it at a lamp.

    From the top of travel, every `pitch`, and last where its lower edge stands at the bottom of travel.

    All in mm. ValueError if `pitch` is not above 0 or the travel is no longer than the ring is wide.
    """
    positive(pitch=pitch, ring_width=ring_width)
    lowest = travel_bottom - ring_width
    if not less(travel_top, lowest, LENGTH):
        raise ValueError("ring travel is no longer than the ring is wide, or its ends are the wrong way round")
    count = ceil((lowest - travel_top) / pitch) + 1
    steps = tuple(travel_top + n * pitch for n in range(count) if less(travel_top + n * pitch, lowest, LENGTH))
    return (*steps, lowest)


def _settled(depth: float, above: float, below: float) -> float:
    """The half millimetre nearest to `depth` that lies between the two limits; `depth` itself where none does."""
    steps = depth / DEPTH_STEP
    near = sorted((floor(steps) * DEPTH_STEP, ceil(steps) * DEPTH_STEP), key=lambda step: abs(step - depth))
    return next((step for step in near if above < step < below), depth)
