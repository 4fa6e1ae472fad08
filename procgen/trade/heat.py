"""What warmth does to a size, to a press fit and to a measurement."""

from __future__ import annotations

from procgen.trade.fits import growth
from procgen.trade.registry import function, positive
from procgen.units.dimension import EXPANSION, LENGTH, TEMPERATURE, TEMPERATURE_DIFFERENCE

REFERENCE = 293.15  # K: sizes hold at 20 °C, ISO 1 (from memory, not checked)


@function(takes=(LENGTH, LENGTH, LENGTH, EXPANSION), gives=TEMPERATURE_DIFFERENCE, source="linear expansion")
def heat_to_free(interference: float, gap: float, size: float, expansion: float) -> float:
    """How much warmer (K) a hole must be than the part in it to let go of it and leave a running `gap`.

    `interference` and `gap` on diameter, `size` of the hole in mm, `expansion` of its metal in 1/K; the part stays
    cold. The same figure cools the part instead, with the part's own expansion. ValueError if size or expansion is not
    above 0.
    """
    positive(size=size, expansion=expansion)
    return (interference + gap) / (size * expansion)


@function(takes=(LENGTH, LENGTH, EXPANSION, EXPANSION, TEMPERATURE_DIFFERENCE), gives=LENGTH, source="linear expansion")
def warm_interference(
    interference: float, size: float, hole_expansion: float, part_expansion: float, warmer: float
) -> float:
    """What is left (mm) of a cold `interference` (mm) on a joint of `size` (mm) once both are `warmer` (K).

    Expansions in 1/K; below 0 the joint is loose.
    """
    return interference + growth(size, part_expansion, warmer) - growth(size, hole_expansion, warmer)


@function(takes=(LENGTH, EXPANSION, TEMPERATURE), gives=LENGTH, source="ISO 1, linear expansion")
def size_at_20(size: float, expansion: float, temperature: float) -> float:
    """Size (mm) at 20 °C of a part of that `expansion` (1/K) that measures `size` (mm) at `temperature` (K).

    The gauge is taken to be right at 20 °C. ValueError if the size is not above 0.
    """
    positive(size=size)
    return size / (1 + expansion * (temperature - REFERENCE))
