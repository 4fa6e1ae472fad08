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


@function(takes=(NUMBER, LENGTH, LENGTH, PRESSURE), gives=FORCE, source="friction on a cylinder")
def press_force(friction: float, diameter: float, length: float, pressure: float) -> float:
    """Force (kg·mm/s²) that drives a joint of `diameter` and `length` (mm) under `pressure` (kPa)."""
    positive(diameter=diameter, length=length)
    return friction * pi * diameter * length * pressure


@function(takes=(LENGTH, EXPANSION, TEMPERATURE_DIFFERENCE), gives=LENGTH, source="linear expansion")
def growth(size: float, expansion: float, warmer: float) -> float:
    """Growth (mm) of a `size` (mm) by `warmer` (K) at `expansion` (1/K); a hole grows like solid metal."""
    return size * expansion * warmer
