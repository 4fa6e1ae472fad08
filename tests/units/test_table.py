"""The table of units against pint, which knows the same definitions.

pint is asked by its own long names only: its short ones are false friends here (cfm is a centi-femtometre to it, mil an
angle, N·m and J are one).
"""

from __future__ import annotations

import math
from fractions import Fraction

import pint
import pytest

from procgen.units import dimension as d
from procgen.units.table import CLOCK_FACE, COUNT, UNITS, counterpart, units_of

_PINT_BASE = {
    d.LENGTH: "millimeter",
    d.AREA: "millimeter**2",
    d.VOLUME: "millimeter**3",
    d.MASS: "kilogram",
    d.TIME: "second",
    d.SPEED: "millimeter/second",
    d.FLOW: "millimeter**3/second",
    d.FREQUENCY: "1/second",
    d.FORCE: "kilogram*millimeter/second**2",
    d.PRESSURE: "kilogram/millimeter/second**2",
    d.VISCOSITY: "kilogram/millimeter/second",
    d.TORQUE: "kilogram*millimeter**2/second**2",
    d.ENERGY: "kilogram*millimeter**2/second**2",
    d.TEMPERATURE_DIFFERENCE: "kelvin",
    d.ANGLE: "degree",
    d.EXPANSION: "1/kelvin",
    d.NUMBER: "dimensionless",
}

_PINT_NAMES = {
    "mm": "millimeter", "cm": "centimeter", "m": "meter", "µm": "micrometer", "in": "inch", "ft": "foot",
    "thou": "thou", "µin": "microinch", "mm²": "millimeter**2", "cm²": "centimeter**2", "in²": "inch**2",
    "mm³": "millimeter**3", "cm³": "centimeter**3", "L": "liter", "in³": "inch**3", "US gal": "gallon",
    "kg": "kilogram", "g": "gram", "lb": "pound", "s": "second", "min": "minute", "h": "hour",
    "m/min": "meter/minute", "m/s": "meter/second", "ft/min": "foot/minute", "L/min": "liter/minute",
    "cfm": "foot**3/minute", "US gal/min": "gallon/minute", "/min": "1/minute", "/s": "1/second", "N": "newton",
    "kN": "kilonewton", "lbf": "force_pound", "Pa": "pascal", "kPa": "kilopascal", "bar": "bar", "MPa": "megapascal",
    "GPa": "gigapascal", "psi": "force_pound/inch**2", "mPa·s": "millipascal*second", "Pa·s": "pascal*second",
    "psi·s": "reyn", "N·m": "newton*meter", "kgf·m": "kilogram_force*meter", "lbf·ft": "force_pound*foot",
    "lbf·in": "force_pound*inch", "J": "joule", "kJ": "kilojoule", "K": "kelvin", "Δ°C": "delta_degree_Celsius",
    "Δ°F": "delta_degree_Fahrenheit", "°": "degree", "rad": "radian", "%": "percent", "mm/mm": "millimeter/millimeter",
    "1/K": "1/kelvin", "µm/(m·K)": "micrometer/meter/kelvin",
}  # fmt: skip

_NOT_ASKED = {"", "clock", "dB(A)", "rev/min", "°C", "°F"}
"""A plain number; clock positions and levels, which pint has not; revolutions, which it counts as angles; the two
temperature scales, which have their own test."""

registry = pint.UnitRegistry()


def test_every_unit_is_asked_of_pint_or_named_as_not() -> None:
    assert {unit.symbol for unit in UNITS.values()} == set(_PINT_NAMES) | _NOT_ASKED


@pytest.mark.parametrize("symbol", _PINT_NAMES)
def test_factor_is_pints(symbol: str) -> None:
    unit = UNITS[symbol]
    asked = registry.Quantity(1.0, _PINT_NAMES[symbol]).to(_PINT_BASE[unit.dimension]).magnitude
    assert math.isclose(unit.to_base(Fraction(1)), asked, rel_tol=1e-12)


@pytest.mark.parametrize("degrees", [-459.67, -40.0, 0.0, 32.0, 68.0, 98.6, 212.0, 451.0])
def test_temperature_scales_are_pints(degrees: float) -> None:
    for symbol, name in (("°F", "degree_Fahrenheit"), ("°C", "degree_Celsius")):
        asked = registry.Quantity(degrees, name).to("kelvin").magnitude
        assert math.isclose(UNITS[symbol].to_base(Fraction(degrees)), asked, rel_tol=1e-12, abs_tol=1e-10)


@pytest.mark.parametrize(
    ("symbol", "number", "other", "exact"),
    [
        # NIST SP 811 (2008), appendix B: the inch, pound, pound-force, US gallon and the units made of them.
        ("in", "1", "mm", "25.4"),
        ("thou", "1", "mm", "0.0254"),
        ("µin", "1", "µm", "0.0254"),
        ("lb", "1", "kg", "0.45359237"),
        ("lbf", "1", "N", "4.4482216152605"),
        ("lbf·ft", "1", "N·m", "1.3558179483314004"),
        ("in³", "1", "cm³", "16.387064"),
        ("US gal", "1", "L", "3.785411784"),
        ("bar", "1", "kPa", "100"),
        ("kgf·m", "1", "N·m", "9.80665"),
        ("cfm", "1", "L/min", "28.316846592"),
        ("lbf·ft", "1", "lbf·in", "12"),
        ("°F", "212", "°C", "100"),
        ("°F", "-40", "°C", "-40"),
        ("Δ°F", "1.8", "K", "1"),
        ("N·m", "1", "kgf·m", str(1 / Fraction("9.80665"))),
        ("rev/min", "60", "/s", "1"),
    ],
)
def test_exact_definitions(symbol: str, number: str, other: str, exact: str) -> None:
    unit, wanted = UNITS[symbol], UNITS[other]
    base = Fraction(number) * unit.factor + unit.offset
    assert (base - wanted.offset) / wanted.factor == Fraction(exact)


def test_what_does_not_end_as_a_decimal() -> None:
    # 1 psi = 6894.7572931683613367… Pa, 1 lbf·in = 0.1129848290276167 N·m: long division of the definitions; the
    # first seven figures as in NIST SP 811
    assert math.floor(UNITS["psi"].factor * 1000 * 10**16) == 68947572931683613367
    assert UNITS["psi·s"].factor / UNITS["Pa·s"].factor == UNITS["psi"].factor / UNITS["Pa"].factor
    assert float(UNITS["lbf·in"].factor / UNITS["N·m"].factor) == 0.1129848290276167


def test_worked_examples() -> None:
    # 65 lbf·ft and 45 psi converted by hand with the factors above, to ten figures
    assert math.isclose(65 * UNITS["lbf·ft"].factor / UNITS["N·m"].factor, 88.12816664, rel_tol=1e-9)
    assert math.isclose(45 * UNITS["psi"].factor / UNITS["bar"].factor, 3.102640782, rel_tol=1e-9)


def test_pi_is_math_pi() -> None:
    assert UNITS["rad"].to_base(Fraction(1)) == math.degrees(1.0)


def test_torque_and_energy_stay_apart() -> None:
    assert UNITS["N·m"].dimension != UNITS["J"].dimension
    assert UNITS["N·m"].factor == UNITS["J"].factor


def test_counterparts_measure_the_same_thing_in_the_other_system() -> None:
    pairs = [(unit, other) for unit in UNITS.values() if (other := counterpart(unit)) is not None]
    assert len(pairs) > 30
    for unit, other in pairs:
        assert other.dimension == unit.dimension
        assert {unit.system, other.system} == {"metric", "inch"}
    assert counterpart(COUNT) is None
    assert counterpart(CLOCK_FACE) is None


def test_units_of_a_dimension() -> None:
    assert [unit.symbol for unit in units_of(d.MASS)] == ["kg", "g", "lb"]
