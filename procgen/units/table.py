"""The closed list of units: what each measures, its exact factor to the base unit, how it is spelt and printed.

Base units: mm, kg, s, K, degree, dB; from them mN (force), kPa (pressure), mN·mm (torque and energy). Definitions:
inch, pound and pound-force from the international yard and pound agreement of 1959 with g = 9.80665 m/s² (CGPM 1901);
US gallon = 231 in³; bar, litre, minute, degree from the SI Brochure, non-SI units accepted with it.
A torque's base unit is force times arm, as the trade reckons it, not work per degree.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from fractions import Fraction
from types import MappingProxyType

from procgen.units import dimension as d
from procgen.units.dimension import Dimension
from procgen.values import dataclass


@dataclass(frozen=True, slots=True)
class Unit:
    """`base value = number * factor + offset`, exactly. `system`: "metric", "inch", or "" where both use it."""

    symbol: str
    dimension: Dimension
    factor: Fraction
    offset: Fraction = Fraction(0)
    system: str = ""
    aliases: tuple[str, ...] = field(default=(), compare=False)

    def __hash__(self) -> int:
        return hash(self.symbol)  # of one symbol there is one unit, and fractions take long

    @property
    def printed(self) -> str:
        """The symbol as people read it. A difference of temperature may be given in K or in °C, with the same number
        (SI Brochure, 9th edition, under the kelvin); Δ tells it from a temperature in files alone.
        """
        return self.symbol.removeprefix("Δ")

    def to_base(self, number: Fraction) -> float:
        """The number in base units, rounded once."""
        return float(number * self.factor + self.offset)

    def from_base(self, value: float) -> Fraction:
        """A value in base units as a number in this unit, exactly what the float says."""
        return (Fraction(value) - self.offset) / self.factor


_INCH = Fraction("25.4")
_FOOT = 12 * _INCH
_POUND = Fraction("0.45359237")
_G = Fraction("9806.65")  # mm/s²
_LBF = _POUND * _G  # mN
_PSI = _LBF / _INCH**2  # kPa
_PI = Fraction("3.14159265358979323846264338327950288419716939937511")  # the one factor that no fraction can hold


def _metric(symbol: str, of: Dimension, factor: str | int | Fraction, *aliases: str, offset: str = "0") -> Unit:
    return Unit(symbol, of, Fraction(factor), Fraction(offset), "metric", aliases)


def _inch(symbol: str, of: Dimension, factor: int | Fraction, *aliases: str, offset: Fraction = Fraction(0)) -> Unit:
    return Unit(symbol, of, Fraction(factor), offset, "inch", aliases)


def _both(symbol: str, of: Dimension, factor: str | int | Fraction, *aliases: str) -> Unit:
    return Unit(symbol, of, Fraction(factor), aliases=aliases)


COUNT = _both("", d.NUMBER, 1)
"""A plain number."""
CLOCK_FACE = _both("clock", d.CLOCK, 30)
"""A position on the clock face, written h:mm; the number is hours after 12:00."""

_LISTED = (
    _metric("mm", d.LENGTH, 1),
    _metric("cm", d.LENGTH, 10),
    _metric("m", d.LENGTH, 1000),
    _metric("µm", d.LENGTH, "0.001", "um"),
    _inch("in", d.LENGTH, _INCH),
    _inch("ft", d.LENGTH, _FOOT),
    _inch("thou", d.LENGTH, _INCH / 1000),
    _inch("µin", d.LENGTH, _INCH / 10**6, "uin"),
    _metric("mm²", d.AREA, 1, "mm2"),
    _metric("cm²", d.AREA, 100, "cm2"),
    _inch("in²", d.AREA, _INCH**2, "in2"),
    _metric("mm³", d.VOLUME, 1, "mm3"),
    _metric("cm³", d.VOLUME, 1000, "cm3", "cc", "mL"),
    _metric("L", d.VOLUME, 10**6),
    _inch("in³", d.VOLUME, _INCH**3, "in3"),
    _inch("US gal", d.VOLUME, 231 * _INCH**3),
    _metric("kg", d.MASS, 1),
    _metric("g", d.MASS, "0.001"),
    _inch("lb", d.MASS, _POUND),
    _both("s", d.TIME, 1),
    _both("min", d.TIME, 60),
    _both("h", d.TIME, 3600),
    _metric("m/min", d.SPEED, Fraction(1000, 60)),
    _metric("m/s", d.SPEED, 1000),
    _inch("ft/min", d.SPEED, _FOOT / 60),
    _metric("L/min", d.FLOW, Fraction(10**6, 60)),
    _inch("cfm", d.FLOW, _FOOT**3 / 60),
    _inch("US gal/min", d.FLOW, 231 * _INCH**3 / 60),
    _both("rev/min", d.FREQUENCY, Fraction(1, 60), "rpm"),
    _both("/min", d.FREQUENCY, Fraction(1, 60), "1/min"),
    _both("/s", d.FREQUENCY, 1, "1/s", "Hz"),
    _metric("N", d.FORCE, 1000),
    _metric("kN", d.FORCE, 10**6),
    _inch("lbf", d.FORCE, _LBF),
    _metric("Pa", d.PRESSURE, "0.001"),
    _metric("kPa", d.PRESSURE, 1),
    _metric("bar", d.PRESSURE, 100),
    _metric("MPa", d.PRESSURE, 1000, "N/mm²", "N/mm2"),
    _metric("GPa", d.PRESSURE, 10**6),
    _inch("psi", d.PRESSURE, _PSI),
    _metric("mPa·s", d.VISCOSITY, "0.000001", "mPa.s"),
    _metric("Pa·s", d.VISCOSITY, "0.001", "Pa.s"),
    _inch("psi·s", d.VISCOSITY, _PSI, "psi.s", "reyn"),
    _metric("N·m", d.TORQUE, 10**6, "N.m"),
    _metric("kgf·m", d.TORQUE, _G * 1000, "kgf.m"),
    _inch("lbf·ft", d.TORQUE, _LBF * _FOOT, "lbf.ft"),
    _inch("lbf·in", d.TORQUE, _LBF * _INCH, "lbf.in"),
    _metric("J", d.ENERGY, 10**6),
    _metric("kJ", d.ENERGY, 10**9),
    _metric("°C", d.TEMPERATURE, 1, "degC", offset="273.15"),
    _inch("°F", d.TEMPERATURE, Fraction(5, 9), "degF", offset=Fraction("459.67") * 5 / 9),
    _metric("K", d.TEMPERATURE_DIFFERENCE, 1),
    _metric("Δ°C", d.TEMPERATURE_DIFFERENCE, 1, "delta °C", "delta degC"),
    _inch("Δ°F", d.TEMPERATURE_DIFFERENCE, Fraction(5, 9), "delta °F", "delta degF"),
    _both("°", d.ANGLE, 1, "deg"),
    _both("rad", d.ANGLE, 180 / _PI),
    CLOCK_FACE,
    _both("%", d.NUMBER, "0.01"),
    _both("mm/mm", d.NUMBER, 1, "in/in"),
    COUNT,
    _both("dB(A)", d.LEVEL, 1),
    _metric("1/K", d.EXPANSION, 1, "/K"),
    _metric("µm/(m·K)", d.EXPANSION, "0.000001", "um/(m.K)"),
)

UNITS: Mapping[str, Unit] = MappingProxyType(
    {name: unit for unit in _LISTED for name in (unit.symbol, *unit.aliases)},
)
"""Every unit by its symbol and by its other spellings. Nothing else is a unit."""

_PAIRS = {
    "mm": "in", "cm": "in", "m": "ft", "µm": "µin", "in": "mm", "ft": "m", "thou": "mm", "µin": "µm",
    "mm²": "in²", "cm²": "in²", "in²": "cm²", "mm³": "in³", "cm³": "in³", "in³": "cm³", "L": "US gal", "US gal": "L",
    "kg": "lb", "g": "lb", "lb": "kg", "m/min": "ft/min", "m/s": "ft/min", "ft/min": "m/min",
    "L/min": "US gal/min", "US gal/min": "L/min", "cfm": "L/min", "N": "lbf", "kN": "lbf", "lbf": "N",
    "kPa": "psi", "bar": "psi", "MPa": "psi", "psi": "kPa", "N·m": "lbf·ft", "kgf·m": "lbf·ft", "lbf·ft": "N·m",
    "lbf·in": "N·m", "°C": "°F", "°F": "°C", "K": "Δ°F", "Δ°C": "Δ°F", "Δ°F": "Δ°C",
}  # fmt: skip


def counterpart(unit: Unit) -> Unit | None:
    """The other system's unit that stands in brackets beside this one; None where both systems share it."""
    other = _PAIRS.get(unit.symbol)
    return UNITS[other] if other is not None else None


def units_of(dimension: Dimension) -> tuple[Unit, ...]:
    """All units of a dimension, in the order of the list."""
    return tuple(unit for unit in _LISTED if unit.dimension == dimension)


def usual(dimension: Dimension) -> Unit:
    """The unit of a dimension that is taken where nobody says which: a plain number has none."""
    return COUNT if dimension == d.NUMBER else UNITS["kPa"] if dimension == d.PRESSURE else units_of(dimension)[0]
