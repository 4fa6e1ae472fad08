"""Printing: rounding against published rules and the decimal module, fractions of an inch against arithmetic."""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from procgen.units import dimension as d
from procgen.units.compare import at_most
from procgen.units.printing import as_written, show_in, show_of, shown
from procgen.units.quantity import UnitError, parse_quantity, parse_show
from procgen.units.table import UNITS


@pytest.mark.parametrize(
    ("written", "step", "even"),
    [
        # ASTM E29, rounding method: exactly half goes to the even digit. ISO 80000-1 annex B, rule A, is the same.
        ("12.25 mm", "0.1 mm", "12.2"),
        ("12.35 mm", "0.1 mm", "12.4"),
        ("98.4055 mm", "0.001 mm", "98.406"),
        ("98.4065 mm", "0.001 mm", "98.406"),
        ("-0.25 mm", "0.1 mm", "−0.2"),
        ("2.500001 mm", "1 mm", "3"),
        ("12.2499 mm", "0.1 mm", "12.2"),  # in two steps it would be 12.25, then 12.3
        ("3.87425 in", "0.0001 in", "3.8742"),  # a tie in inches, whatever it is in millimetres
        ("0.00635 mm", "0.0001 in", "0.0002"),  # 0.00025 in
        ("99.5 °F", "1 °F", "100"),
        ("98.5 °F", "1 °F", "98"),
        ("45.25 psi", "0.5 psi", "45.0"),  # 90.5 steps: to the even 90
        ("45.75 psi", "0.5 psi", "46.0"),  # 91.5 steps: to the even 92
        ("65.5 lbf·ft", "1 lbf·ft", "66"),
        ("-0.04 mm", "0.1 mm", "0.0"),  # no minus before nought
        ("1250 mm", "100 mm", "1200"),
    ],
)
def test_half_even(written: str, step: str, even: str) -> None:
    assert shown(parse_quantity(written).value, parse_show(step)) == even


def test_float_noise_is_no_tie_breaker() -> None:
    """98.2 + 0.2065 and 98.4065 are neighbours among floats, and the same size to anybody with a gauge."""
    show = parse_show("0.001 mm")
    assert 98.2 + 0.2065 != 98.4065
    assert shown(98.2 + 0.2065, show) == shown(98.4065, show) == "98.406"


@pytest.mark.parametrize(
    ("written", "step", "up", "down"),
    [
        ("0.10 mm", "0.0001 in", "0.0040", "0.0039"),  # 0.003937 in
        ("0.006 in", "0.001 mm", "0.153", "0.152"),  # 0.1524 mm
        ("0.0045 in", "0.0001 in", "0.0045", "0.0045"),  # on a step: stays
        ("-0.10 mm", "0.0001 in", "−0.0039", "−0.0040"),
        ("40 psi", "1 kPa", "276", "275"),  # 275.79 kPa
    ],
)
def test_limits_go_inward(written: str, step: str, up: str, down: str) -> None:
    value = parse_quantity(written).value
    assert (shown(value, parse_show(step), "up"), shown(value, parse_show(step), "down")) == (up, down)


def test_a_limit_on_a_step_stays_there_in_spite_of_noise() -> None:
    total = 0.1 + 0.2
    assert total > 0.3
    assert shown(total, parse_show("0.1 mm"), "up") == "0.3"
    assert shown(0.7 - 0.1, parse_show("0.1 mm"), "down") == "0.6"
    assert shown(0.3000005, parse_show("0.1 mm"), "up") == "0.3"  # half the comparison step: equal
    assert shown(0.3000015, parse_show("0.1 mm"), "up") == "0.4"


def test_towards_is_one_of_three() -> None:
    with pytest.raises(ValueError, match="sideways"):
        shown(1.23, parse_show("0.1 mm"), "sideways")


@given(
    st.integers(-999_999, 999_999),
    st.sampled_from(["mm", "in", "°F", "°C", "psi", "kPa", "lbf·ft", "N·m", "kg", "lb", "°", "K", "%", "L/min", "cfm"]),
)
def test_ties_are_decimals_ties(thousandths: int, symbol: str) -> None:
    """Rounded to hundredths, a number of thousandths in any unit goes where the decimal module sends it."""
    number = Decimal(thousandths) / 1000
    value = parse_quantity(f"{number:f} {symbol}").value
    wanted = number.quantize(Decimal("0.01"), ROUND_HALF_EVEN)
    printed = shown(value, parse_show(f"0.01 {symbol}")).replace("−", "-")
    assert Decimal(printed) == wanted
    assert printed != "-0.00"


@given(
    st.decimals(min_value=-9999, max_value=9999, places=4),
    st.sampled_from(sorted({unit.symbol for unit in UNITS.values()} - {"", "clock"})),
)
def test_digits_are_kept(number: Decimal, symbol: str) -> None:
    """Shown in the unit and to the digits that the author wrote, a number is what the author wrote."""
    quantity = parse_quantity(f"{number:f} {symbol}")
    if number:
        assert shown(quantity.value, show_of(quantity)) == as_written(quantity)


@given(
    st.integers(1, 99_999),
    st.sampled_from([("mm", "in"), ("in", "mm"), ("N·m", "lbf·ft"), ("kPa", "psi"), ("°C", "°F")]),
)
def test_an_inward_limit_never_lets_more_pass(thousandths: int, units: tuple[str, str]) -> None:
    quantity = parse_quantity(f"{Decimal(thousandths) / 1000} {units[0]}")
    show = show_in(parse_show(f"0.001 {units[0]}"), UNITS[units[1]])
    upper = parse_quantity(shown(quantity.value, show, "down"), default=show.unit)
    lower = parse_quantity(shown(quantity.value, show, "up"), default=show.unit)
    assert at_most(upper.value, quantity.value, quantity.dimension)
    assert at_most(quantity.value, lower.value, quantity.dimension)
    assert lower.value - upper.value <= float(show.step * 1) * float(show.unit.factor) * (1 + 1e-9)


@pytest.mark.parametrize(
    ("show", "unit", "other"),
    [
        ("0.001 mm", "in", "0.0001"),
        ("0.0001 in", "mm", "0.001"),
        ("0.01 mm", "in", "0.001"),
        ("1 N·m", "lbf·ft", "1"),
        ("1 kPa", "psi", "0.1"),
        ("1 kPa", "bar", "0.01"),
        ("0.001 mm", "µm", "1"),
        ("1 °C", "°F", "1"),
        ("1 g", "kg", "0.001"),
    ],
)
def test_the_same_show_in_another_unit(show: str, unit: str, other: str) -> None:
    """The power of ten nearest to the converted step: log10(0.001 / 25.4) = −4.4, so 0.0001 in."""
    assert show_in(parse_show(show), UNITS[unit]).step == Decimal(other)
    assert show_in(parse_show(show), UNITS[unit]).unit is UNITS[unit]


def test_a_show_keeps_to_its_dimension() -> None:
    with pytest.raises(UnitError, match="a length was expected; kg is a mass"):
        show_in(parse_show("1 mm"), UNITS["kg"])


@pytest.mark.parametrize(
    ("written", "show", "printed"),
    [
        ("4:30", "0:01", "4:30"),
        ("4:32", "0:05", "4:30"),
        ("4:33", "0:05", "4:35"),
        ("11:58", "0:05", "12:00"),
        ("12:00", "0:01", "12:00"),
        ("12:20", "0:30", "12:30"),
    ],
)
def test_clock_positions(written: str, show: str, printed: str) -> None:
    assert shown(parse_quantity(written, d.CLOCK).value, parse_show(show)) == printed


def test_as_written() -> None:
    assert as_written(parse_quantity("0.0010 in")) == "0.0010"
    assert as_written(parse_quantity("-78 °C")) == "−78"
    assert as_written(parse_quantity("1-13/64 in")) == "1-13/64"
    assert as_written(parse_quantity("4:30")) == "4:30"


def test_show_of_what_is_written() -> None:
    assert show_of(parse_quantity("76.20 mm")) == parse_show("0.01 mm")
    assert show_of(parse_quantity("1/4 in")) == parse_show("0.0001 in")
    assert show_of(parse_quantity("4:30")) == parse_show("0:01")
    assert show_of(parse_quantity("90 %")) == parse_show("1 %")
