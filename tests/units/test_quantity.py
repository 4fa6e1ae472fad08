"""Reading quantities: every spelling that is meant, and what is said of those that are not."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from procgen.units import dimension as d
from procgen.units.quantity import Quantity, UnitError, parse_quantity, parse_show
from procgen.units.table import CLOCK_FACE, UNITS


@pytest.mark.parametrize(
    ("written", "value", "symbol", "kept"),
    [
        ("98.40 mm", 98.40, "mm", "98.40"),
        ("98.40mm", 98.40, "mm", "98.40"),
        ("0.0010 in", 0.0254, "in", "0.0010"),
        ("1/4 in", 6.35, "in", "1/4"),
        ("1 13/64 in", 30.559375, "in", "1 13/64"),
        ("1-13/64 in", 30.559375, "in", "1-13/64"),
        ("-1/4 in", -6.35, "in", "-1/4"),
        ("2 thou", 0.0508, "thou", "2"),
        ("6 um", 0.006, "µm", "6"),
        ("6 \u03bcm", 0.006, "µm", "6"),  # Greek mu for the micro sign
        ("3 in^2", 1935.48, "in²", "3"),
        ("-78 °C", 195.15, "°C", "-78"),
        ("\u221278 degC", 195.15, "°C", "\u221278"),
        ("68 degF", 293.15, "°F", "68"),
        ("8 K", 8.0, "K", "8"),
        ("45 deg", 45.0, "°", "45"),
        ("90 %", 0.9, "%", "90"),
        ("0.0045 mm/mm", 0.0045, "mm/mm", "0.0045"),
        ("65 lbf.ft", 88128166.641541026, "lbf·ft", "65"),
        ("65 lbf⋅ft", 88128166.641541026, "lbf·ft", "65"),
        ("10 N.m", 1e7, "N·m", "10"),
        ("300 rpm", 5.0, "rev/min", "300"),
        ("11.5e-6 1/K", 11.5e-6, "1/K", "11.5e-6"),
        ("11.5 um/(m.K)", 11.5e-6, "µm/(m·K)", "11.5"),
        ("85 dB(A)", 85.0, "dB(A)", "85"),
        ("+3 mm", 3.0, "mm", "+3"),
        ("1.5 US gal", 5678117.676, "US gal", "1.5"),
    ],
)
def test_quantities(written: str, value: float, symbol: str, kept: str) -> None:
    assert parse_quantity(written) == Quantity(value, UNITS[symbol].dimension, UNITS[symbol], kept)


@pytest.mark.parametrize(
    ("written", "degrees"),
    [("12:00", 0), ("3:00", 90), ("4:30", 135), ("04:30", 135), ("6:00", 180), ("11:59", 359.5), ("12:59", 29.5)],
)
def test_clock_positions(written: str, degrees: float) -> None:
    """A clock's hand goes 30° an hour from 12:00 (geometry)."""
    assert parse_quantity(written, d.CLOCK) == Quantity(degrees, d.CLOCK, CLOCK_FACE, written)


def test_a_bare_number_takes_the_default() -> None:
    assert parse_quantity("98.40", d.LENGTH, UNITS["in"]).value == 2499.36
    assert parse_quantity("98.40", default=UNITS["mm"]).dimension == d.LENGTH
    assert parse_quantity("0.25", d.NUMBER).value == 0.25


def test_a_float_is_rounded_once() -> None:
    """0.1 in is 2.54 mm, while 0.1 * 25.4 is not; 3.87425 in likewise (exact decimals)."""
    assert parse_quantity("0.1 in").value == 2.54
    assert parse_quantity("3.87425 in").value == 98.40595
    assert parse_quantity("98.6 °F").value == float(Fraction("310.15"))


_EMPTY = "leave it empty while it is not yet known"
_EXAMPLE = "write a number and its unit, for example 12.5 mm"
_LOWEST = "write the fraction in lowest terms, for example 1 13/64 in"


@pytest.mark.parametrize(
    ("written", "dimension", "message", "hint"),
    [
        ("5 N·m", d.LENGTH, "a length was expected; N·m is a torque", "units for it: mm, cm, m, µm, in, ft"),
        ("5 N·m", d.ENERGY, "an energy was expected; N·m is a torque", "units for it: J, kJ"),
        ("5 J", d.TORQUE, "a torque was expected; J is an energy", "units for it: N·m, kgf·m, lbf·ft, lbf·in"),
        (
            "19 °C",
            d.TEMPERATURE_DIFFERENCE,
            "a temperature difference was expected; °C is a temperature",
            "units for it: K, Δ°C, Δ°F",
        ),
        ("19 K", d.TEMPERATURE, "a temperature was expected; K is a temperature difference", "units for it: °C, °F"),
        ("4:30", d.ANGLE, "an angle was expected; 4:30 is a clock position", "units for it: °, rad"),
        ("45 deg", d.CLOCK, "a clock position was expected; ° is an angle", "write h:mm, for example 4:30"),
        ("4", d.CLOCK, "a clock position was expected; `4` is a bare number", "write h:mm, for example 4:30"),
        ("4 clock", d.CLOCK, "a clock position is written h:mm", "for example 4:30"),
        ("13:00", d.CLOCK, "`13:00` is not on a clock face", "clock positions run from 12:00 round to 11:59"),
        ("4:75", None, "`4:75` is not on a clock face", "clock positions run from 12:00 round to 11:59"),
        ("5 mm", d.NUMBER, "a plain number was expected; mm is a length", "units for it: %, mm/mm"),
        ("98.4", d.LENGTH, "a length was expected; `98.4` has no unit", "write the unit after it, for example 98.4 mm"),
        ("98.40", None, "a quantity was expected; `98.40` has no unit", "write the unit after it"),
        ("3 mmm", None, "unknown unit `mmm`", "did you mean `mm`?"),
        ("3 lb-ft", d.TORQUE, "unknown unit `lb-ft`", "did you mean `lbf·ft`?"),
        ("3 mil", d.LENGTH, "unknown unit `mil`", "did you mean `thou`?"),
        ('3"', d.LENGTH, 'unknown unit `"`', "did you mean `in`?"),
        ("3 PSI", d.PRESSURE, "unknown unit `PSI`", "did you mean `psi`?"),
        ("8O.60", d.LENGTH, "unknown unit `O.60`", "a letter stands among the digits: nought is 0, one is 1"),
        ("3 zorkmid", None, "unknown unit `zorkmid`", "units are a closed list; the guide shows them all"),
        (
            "98,40 mm",
            d.LENGTH,
            "a length was expected; `98,40 mm` is not one",
            "the decimal sign is a point and thousands stand without a mark: 98.40 mm",
        ),
        (".5 mm", d.LENGTH, "a length was expected; `.5 mm` is not one", "write a nought before the point: 0.5 mm"),
        (
            "5. mm",
            d.LENGTH,
            "a length was expected; `5. mm` is not one",
            "write a digit after the point, or leave the point out",
        ),
        (
            "1_000 mm",
            d.LENGTH,
            "a length was expected; `1_000 mm` is not one",
            "write it without the underscore: 1000 mm",
        ),
        (
            "loose",
            d.LENGTH,
            "a length was expected; `loose` is not one",
            f"{_EXAMPLE}; {_EMPTY}",
        ),
        (
            "loose",
            d.NUMBER,
            "a plain number was expected; `loose` is not one",
            f"write a number, for example 0.25; {_EMPTY}",
        ),
        ("1/0 in", d.LENGTH, "`1/0` is not a fraction", _LOWEST),
        ("1 5/4 in", d.LENGTH, "`1 5/4` is not a fraction", _LOWEST),
        ("1e999 mm", d.LENGTH, "a length was expected; `1e999 mm` is not one", _EXAMPLE),
        ("1/2/3 in", d.LENGTH, "a length was expected; `1/2/3 in` is not one", _EXAMPLE),
    ],
)  # fmt: skip
def test_what_is_said_of_the_rest(written: str, dimension: d.Dimension | None, message: str, hint: str) -> None:
    with pytest.raises(UnitError) as caught:
        parse_quantity(written, dimension)
    assert (caught.value.message, caught.value.hint) == (message, hint)


def test_a_default_of_another_dimension_is_refused() -> None:
    with pytest.raises(UnitError, match=re.escape("a length was expected; kg is a mass")):
        parse_quantity("5", d.LENGTH, UNITS["kg"])


def test_steps_to_show() -> None:
    assert parse_show("0.001 mm").step == Decimal("0.001")
    assert parse_show("0.5 deg").unit is UNITS["°"]
    assert parse_show("0:05").step == 5
    assert parse_show("0:05").unit is CLOCK_FACE
    assert parse_show("1 %", d.NUMBER).unit is UNITS["%"]
    assert parse_show("0.01").unit is UNITS[""]


@pytest.mark.parametrize("written", ["0 mm", "-1 mm", "1/64 in", "mm", "5 clock", "0.001 mmm", "0:00"])
def test_steps_refused(written: str) -> None:
    with pytest.raises(UnitError):
        parse_show(written)


def test_a_step_of_another_dimension_is_refused() -> None:
    with pytest.raises(UnitError, match="a length was expected; kg is a mass"):
        parse_show("0.1 kg", d.LENGTH)


@given(
    st.decimals(min_value=-99999, max_value=99999, places=4),
    st.sampled_from(sorted({unit.symbol for unit in UNITS.values()} - {"", "clock"})),
)
def test_there_and_back(number: Decimal, symbol: str) -> None:
    """Whatever the unit, a number comes back from base units to within the noise of one float rounding."""
    quantity = parse_quantity(f"{number} {symbol}")
    back = quantity.unit.from_base(quantity.value)
    size = abs(Fraction(number)) + abs(quantity.unit.offset / quantity.unit.factor)
    assert abs(back - Fraction(number)) <= size * Fraction(1, 2**52)
    assert Decimal(quantity.text) == number


@given(st.text(max_size=12))
def test_any_text_is_read_or_refused(text: str) -> None:
    """Nothing else is raised, whatever is typed."""
    for read in (parse_quantity, parse_show):
        try:
            read(text)
        except UnitError as fault:
            assert fault.message  # noqa: PT017


@pytest.mark.parametrize("text", ["80.00-80.02", "80.00 – 80.02", "80 ± 0.1 mm", "2026-01-02", "80 to 81 mm"])
def test_more_than_one_figure(text: str) -> None:
    with pytest.raises(UnitError, match=r"one number and its unit were expected; `.+` stands after the number"):
        parse_quantity(text, d.LENGTH)
