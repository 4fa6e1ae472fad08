"""The gap of a piston ring: what a wider place, a taper and heat make of it."""

from __future__ import annotations

from math import pi

from procgen.trade.registry import function, positive
from procgen.units.dimension import EXPANSION, LENGTH, TEMPERATURE_DIFFERENCE


@function(takes=(LENGTH,), gives=LENGTH, source="geometry")
def gap_growth(bore_growth: float) -> float:
    """How much (mm) a ring's gap opens in a bore wider by `bore_growth` (mm): by π of it."""
    return pi * bore_growth


@function(takes=(LENGTH, LENGTH, LENGTH), gives=LENGTH, source="geometry")
def gap_elsewhere(gap: float, bore_there: float, bore_here: float) -> float:
    """Gap (mm) `here` of a ring whose `gap` was measured `there` in the same bore; mean diameters of both places (mm).

    Set the gap at the tightest place and work out the widest, never the other way. ValueError if a bore is not above 0.
    """
    positive(bore=min(bore_there, bore_here))
    return gap + gap_growth(bore_here - bore_there)


@function(
    takes=(LENGTH, EXPANSION, TEMPERATURE_DIFFERENCE, EXPANSION, TEMPERATURE_DIFFERENCE),
    gives=LENGTH, source="linear expansion",
)  # fmt: skip
def gap_closing(
    bore: float, ring_expansion: float, ring_warmer: float, wall_expansion: float, wall_warmer: float
) -> float:
    """How much (mm) a gap closes as the ring gets hotter than the wall; the gap's own metal is neglected.

    `bore` in mm, expansions in 1/K, and how much `warmer` (K) each is than when the gap was measured. ValueError if the
    bore is not above 0.
    """
    positive(bore=bore)
    return pi * bore * (ring_expansion * ring_warmer - wall_expansion * wall_warmer)


@function(
    takes=(LENGTH, LENGTH, EXPANSION, TEMPERATURE_DIFFERENCE, EXPANSION, TEMPERATURE_DIFFERENCE),
    gives=LENGTH, source="linear expansion",
)  # fmt: skip
def hot_gap(
    gap: float, bore: float, ring_expansion: float, ring_warmer: float, wall_expansion: float, wall_warmer: float
) -> float:
    """What is left (mm) of a cold `gap` (mm) in a running engine; below 0 the ends butt. As in gap_closing, exact."""
    return gap + gap * ring_expansion * ring_warmer - gap_closing(
        bore, ring_expansion, ring_warmer, wall_expansion, wall_warmer
    )  # fmt: skip


@function(
    takes=(LENGTH, LENGTH, EXPANSION, TEMPERATURE_DIFFERENCE, EXPANSION, TEMPERATURE_DIFFERENCE),
    gives=LENGTH, source="linear expansion",
)  # fmt: skip
def cold_gap(
    hot: float, bore: float, ring_expansion: float, ring_warmer: float, wall_expansion: float, wall_warmer: float
) -> float:
    """Cold gap (mm) that leaves `hot` (mm) in a running engine: hot_gap the other way round."""
    closing = gap_closing(bore, ring_expansion, ring_warmer, wall_expansion, wall_warmer)
    return (hot + closing) / (1 + ring_expansion * ring_warmer)
