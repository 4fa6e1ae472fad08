"""What oil a bearing takes, and what pressure a passage takes: estimates, each with the rule it follows.

All are for oil that flows in layers, at one temperature, in round and smooth passages; none of them is a limit.
In base units: mm, s, kg; pressures in kPa, viscosity in kg/(mm·s) (1 mPa·s = 1e-6), density in kg/mm³.
"""

from __future__ import annotations

from math import pi, sqrt

from procgen.trade.registry import function, positive
from procgen.units.dimension import (
    AREA,
    FLOW,
    FORCE,
    FREQUENCY,
    LENGTH,
    MASS,
    NUMBER,
    PRESSURE,
    VISCOSITY,
    VOLUME,
)

DENSITY = MASS / VOLUME
LAMINAR = 2000.0  # Reynolds number; textbooks say 2000 to 2300
FILM = "viscous flow through a narrow ring, eccentric"
POISEUILLE = "Hagen and Poiseuille"


@function(takes=(LENGTH, LENGTH, LENGTH, PRESSURE, VISCOSITY, NUMBER), gives=FLOW, source=FILM)
def annular_flow(
    diameter: float, radial_clearance: float, land: float, pressure: float, viscosity: float, eccentricity: float
) -> float:
    """Oil (mm³/s) past one land of a bearing: π d c³ Δp (1 + 1.5 ε²) / (12 μ l).

    `radial_clearance` is half the diametral one, which would give eight times the flow. ValueError if a size is not
    above 0 or the eccentricity is not 0 to 1.
    """
    positive(diameter=diameter, radial_clearance=radial_clearance, land=land, viscosity=viscosity)
    _eccentric(eccentricity)
    return pi * diameter * radial_clearance**3 * pressure * (1 + 1.5 * eccentricity**2) / (12 * viscosity * land)


@function(takes=(LENGTH, LENGTH, LENGTH, PRESSURE, VISCOSITY, NUMBER), gives=FLOW, source=FILM)
def groove_flow(
    diameter: float, radial_clearance: float, land: float, pressure: float, viscosity: float, eccentricity: float
) -> float:
    """Oil (mm³/s) from a bearing with a groove round its middle: past two lands of `land` (mm) each."""
    return 2 * annular_flow(diameter, radial_clearance, land, pressure, viscosity, eccentricity)


@function(takes=(LENGTH, FREQUENCY, LENGTH, LENGTH, NUMBER), gives=FLOW, source="short-bearing theory")
def side_flow(diameter: float, speed: float, width: float, radial_clearance: float, eccentricity: float) -> float:
    """Oil (mm³/s) that a turning journal drives out at its sides: π d n L c ε, `speed` n in turns a second."""
    positive(diameter=diameter, width=width, radial_clearance=radial_clearance)
    _eccentric(eccentricity)
    return pi * diameter * speed * width * radial_clearance * eccentricity


@function(takes=(FORCE, LENGTH, LENGTH), gives=PRESSURE, source="geometry")
def projected_load(load: float, width: float, diameter: float) -> float:
    """Load on the projected area of a bearing (kPa): W / (L d)."""
    positive(width=width, diameter=diameter)
    return load / (width * diameter)


@function(takes=(LENGTH, FREQUENCY, LENGTH, LENGTH, VISCOSITY, NUMBER), gives=FORCE, source="short-bearing theory")
def short_bearing_load(
    diameter: float, speed: float, width: float, radial_clearance: float, viscosity: float, eccentricity: float
) -> float:
    """Load (kg·mm/s²) that a short bearing carries; fair for widths under half the diameter.

    ValueError if a size is not above 0 or the eccentricity not below 1.
    """
    positive(diameter=diameter, width=width, radial_clearance=radial_clearance, viscosity=viscosity)
    _eccentric(eccentricity)
    if eccentricity == 1:
        raise ValueError("at an eccentricity of 1 the journal touches, and no film carries it")
    rest = 1 - eccentricity**2
    film = viscosity * pi * diameter * speed * width**3 / (4 * radial_clearance**2)
    return film * eccentricity / rest**2 * sqrt(pi**2 * rest + 16 * eccentricity**2)


@function(takes=(DENSITY, FLOW, LENGTH, VISCOSITY), gives=NUMBER, source="definition")
def reynolds(density: float, flow: float, diameter: float, viscosity: float) -> float:
    """Reynolds number of a flow (mm³/s) in a round passage (mm): 4 ρ Q / (π d μ)."""
    positive(diameter=diameter, viscosity=viscosity)
    return 4 * density * flow / (pi * diameter * viscosity)


@function(takes=(NUMBER, LENGTH), gives=LENGTH, source="textbook figure, from memory, not checked")
def entrance_length(reynolds_number: float, diameter: float) -> float:
    """How far (mm) oil runs in a passage before its flow has settled: about 0.06 Re d."""
    return 0.06 * reynolds_number * diameter


@function(takes=(VISCOSITY, DENSITY, LENGTH, LENGTH, FLOW), gives=PRESSURE, source=POISEUILLE)
def least_drop(viscosity: float, density: float, length: float, diameter: float, flow: float) -> float:
    """Pressure (kPa) that a passage takes at least: 128 μ L Q / (π d⁴). More, where the flow has not settled in it.

    ValueError where the flow is no longer in layers, at a Reynolds number of 2000 or more.
    """
    positive(length=length, diameter=diameter, viscosity=viscosity, density=density)
    number = reynolds(density, flow, diameter, viscosity)
    if number >= LAMINAR:
        raise ValueError(
            f"the oil does not flow in layers here: Reynolds number {number:.0f}, {LAMINAR:.0f} is the most"
        )
    return 128 * viscosity * length * flow / (pi * diameter**4)


@function(takes=(VISCOSITY, DENSITY, LENGTH, LENGTH, FLOW), gives=PRESSURE, source=POISEUILLE)
def laminar_drop(viscosity: float, density: float, length: float, diameter: float, flow: float) -> float:
    """Pressure (kPa) that a passage takes.

    ValueError as for `least_drop`, and where the passage is shorter than the flow needs to settle: then that is only
    the least.
    """
    drop = least_drop(viscosity, density, length, diameter, flow)
    entrance = entrance_length(reynolds(density, flow, diameter, viscosity), diameter)
    if entrance > length:
        raise ValueError(
            f"the flow settles only after {entrance:.0f} mm, and the passage is {length:.0f} mm long: "
            f"{drop:.3g} kPa is the least it takes"
        )
    return drop


@function(takes=(DENSITY, FLOW, NUMBER, AREA), gives=PRESSURE, source="sharp-edged hole, from memory, not checked")
def hole_drop(density: float, flow: float, discharge: float, area: float) -> float:
    """Pressure (kPa) that a short hole takes: (ρ/2) (Q / (Cd A))², `discharge` Cd 0.6 to 0.8, `area` in mm²."""
    positive(discharge=discharge, area=area)
    return density / 2 * (flow / (discharge * area)) ** 2


def _eccentric(eccentricity: float) -> None:
    if not 0 <= eccentricity <= 1:
        raise ValueError(f"an eccentricity is 0 to 1, and this is {eccentricity:g}")
