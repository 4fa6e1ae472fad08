"""Press fits of plugs and shells in the block: pressure, hoop stress and driving force, elastic.

A core plug yields before it reaches the elastic figure, so pressure and force are upper bounds, never targets.
"""

from __future__ import annotations

from math import pi

from procgen.trade.registry import function, positive
from procgen.units.dimension import EXPANSION, FORCE, LENGTH, NUMBER, PRESSURE, TEMPERATURE_DIFFERENCE

LAME = "Lamé's thick cylinder, plane stress"


@function(takes=(LENGTH, LENGTH, LENGTH, LENGTH, PRESSURE, NUMBER, PRESSURE, NUMBER), gives=PRESSURE, source=LAME)
def press_pressure(
    diameter: float, interference: float, inner_bore: float, outer_diameter: float,
    inner_modulus: float, inner_poisson: float, outer_modulus: float, outer_poisson: float,
) -> float:  # fmt: skip
    """Pressure (kPa) between a pressed ring and its boss.

    `diameter` of the joint, `interference` on diameter, `inner_bore` of the ring (0: solid) and `outer_diameter` of the
    boss in mm; moduli in kPa. ValueError unless inner_bore < diameter < outer_diameter and the rest is above 0.
    """
    positive(diameter=diameter, inner_modulus=inner_modulus, outer_modulus=outer_modulus)
    if not 0 <= inner_bore < diameter < outer_diameter:
        raise ValueError("a press fit needs: bore of the ring < joint < outside of the boss")
    if interference < 0:
        raise ValueError("there is no pressure where the fit is loose")
    joint = diameter**2
    boss = ((outer_diameter**2 + joint) / (outer_diameter**2 - joint) + outer_poisson) / outer_modulus
    ring = ((joint + inner_bore**2) / (joint - inner_bore**2) - inner_poisson) / inner_modulus
    return interference / (diameter * (boss + ring))


@function(takes=(PRESSURE, LENGTH, LENGTH), gives=PRESSURE, source=LAME)
def boss_hoop(pressure: float, diameter: float, outer_diameter: float) -> float:
    """Pull round the boss (kPa) at a joint of `diameter` (mm) under `pressure` (kPa); take the thinnest wall outside.

    ValueError unless 0 < diameter < outer_diameter.
    """
    positive(diameter=diameter)
    if not outer_diameter > diameter:
        raise ValueError("the boss must be larger than its hole")
    return pressure * (outer_diameter**2 + diameter**2) / (outer_diameter**2 - diameter**2)


@function(takes=(PRESSURE, LENGTH, LENGTH), gives=PRESSURE, source=LAME)
def ring_hoop(pressure: float, diameter: float, inner_bore: float) -> float:
    """Squeeze round the inside of a pressed ring (kPa, below 0) at a joint of `diameter` (mm) under `pressure` (kPa).

    A core plug yields well before a large one. ValueError unless 0 <= inner_bore < diameter.
    """
    _within(inner_bore, diameter)
    return -2 * pressure * diameter**2 / (diameter**2 - inner_bore**2)


@function(takes=(PRESSURE, LENGTH, LENGTH, PRESSURE), gives=LENGTH, source=LAME)
def bore_closing(pressure: float, diameter: float, inner_bore: float, modulus: float) -> float:
    """How much (mm on diameter) a pressed shell's bore closes under `pressure` (kPa), by its `modulus` (kPa).

    ValueError unless 0 <= inner_bore < diameter and the modulus is above 0.
    """
    positive(modulus=modulus)
    return -ring_hoop(pressure, diameter, inner_bore) * inner_bore / modulus


@function(takes=(NUMBER, LENGTH, LENGTH, PRESSURE), gives=FORCE, source="friction on a cylinder")
def press_force(friction: float, diameter: float, length: float, pressure: float) -> float:
    """Force (kg·mm/s²) that drives a joint of `diameter` and `length` (mm) under `pressure` (kPa)."""
    positive(diameter=diameter, length=length)
    return friction * pi * diameter * length * pressure


@function(takes=(LENGTH, EXPANSION, TEMPERATURE_DIFFERENCE), gives=LENGTH, source="linear expansion")
def growth(size: float, expansion: float, warmer: float) -> float:
    """Growth (mm) of a `size` (mm) by `warmer` (K) at `expansion` (1/K); a hole grows like solid metal."""
    return size * expansion * warmer


def _within(inner_bore: float, diameter: float) -> None:
    if not 0 <= inner_bore < diameter:
        raise ValueError("the ring's bore must be smaller than its outside")
