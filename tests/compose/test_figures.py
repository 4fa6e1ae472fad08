"""Numbers on a card, against the standard library's decimal: 1 in is 25.4 mm exactly (international inch, 1959)."""

from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from procgen.compose.figures import Units, between, blank, computed, in_line, units_for, written
from procgen.formula import NONE, known, unknown, wanting
from procgen.model.card import Figure
from procgen.units.dimension import CLOCK, LENGTH, PRESSURE, TEMPERATURE, TORQUE
from procgen.units.quantity import parse_quantity, parse_show
from procgen.units.table import UNITS

INCH = Decimal("25.4")
MM = Units({LENGTH: UNITS["mm"]}, also=True)
IN = Units({LENGTH: UNITS["in"]}, also=True)
PLAIN = Units({LENGTH: UNITS["mm"]}, also=False)


class Shown:
    """A shop or family that says nothing but in which units it wants its figures."""

    def __init__(self, show: dict[str, str], also: bool = False) -> None:
        self.show, self.also = show, also


def test_the_authors_unit_keeps_the_authors_digits() -> None:
    """0.0010 in says that the last nought was meant."""
    assert written(parse_quantity("0.0010 in"), IN) == Figure("0.0010", "in", also="0.025 mm")
    assert written(parse_quantity("98.40 mm"), MM) == Figure("98.40", "mm", also="3.874 in")
    assert written(parse_quantity("1 13/64 in"), IN).text == "1 13/64"
    assert written(parse_quantity("-0.30 mm"), PLAIN) == Figure("\u22120.30", "mm")


def test_where_the_shop_shows_another_unit_the_authors_figure_stands_in_brackets_as_written() -> None:
    assert written(parse_quantity("0.0060 in"), MM) == Figure("0.152", "mm", also="0.0060 in")  # 0.1524
    assert written(parse_quantity("1 13/64 in"), MM).also == "1 13/64 in"
    assert written(parse_quantity("98.40 mm"), IN) == Figure("3.874", "in", also="98.40 mm")


@pytest.mark.parametrize(
    ("show", "stated", "said", "also"),
    [
        ({"temperature": "°C"}, "2 K", "2", "4 °F"),
        ({"temperature": "°C"}, "2 Δ°C", "2", "4 °F"),  # 3.6; Fahrenheit's degrees are 5/9 as large
        ({"temperature": "°C"}, "18 Δ°F", "10.0", "18 °F"),
        ({"temperature": "°F"}, "10.0 K", "18.0", "10.0 K"),
        ({"temperature": "°F"}, "10.0 Δ°C", "18.0", "10.0 °C"),
    ],
)
def test_a_difference_of_temperature_is_in_the_degrees_of_the_shops_thermometer(
    show: dict[str, str], stated: str, said: str, also: str
) -> None:
    """A difference may be given in K or in degrees Celsius, with the same number (SI Brochure, 9th edition)."""
    units = units_for(Shown(show, also=True), Shown({}))  # type: ignore[arg-type]
    found = written(parse_quantity(stated), units)
    assert (found.text, found.unit, found.also) == (said, show["temperature"], also)
    assert computed(known(2.0), parse_show("1 K"), units).unit == show["temperature"]


def test_a_shop_may_want_its_differences_in_kelvin() -> None:
    show = {"temperature": "°C", "temperature_difference": "K"}
    units = units_for(Shown(show), Shown({}))  # type: ignore[arg-type]
    assert in_line(written(parse_quantity("2 Δ°C"), units)) == "2\u202fK"


def test_brackets_only_where_the_shop_wants_them_and_where_the_other_system_has_a_unit() -> None:
    assert written(parse_quantity("98.40 mm"), PLAIN).also == ""
    assert written(parse_quantity("0.006 in"), PLAIN).also == "0.006 in"  # never without the figure that decides
    assert written(parse_quantity("45 deg"), MM).also == ""
    assert written(parse_quantity("80 rev/min"), MM).also == ""


@pytest.mark.parametrize(
    ("text", "relation", "said"),
    [
        ("0.0006 in", "≤", "0.015"),  # 0.01524
        ("0.0003 in", "≤", "0.007"),  # 0.00762: to the nearest it would let pass what the inches stop
        ("0.0003 in", "", "0.008"),
        ("0.0006 in", "≥", "0.016"),
        ("0.0050 in", "≤", "0.127"),  # 0.127 exactly: a converted figure that is exact is not moved
        ("0.0050 in", "≥", "0.127"),
        ("3.937 in", "≤", "99.99"),  # 99.9998
        ("3.937 in", "≥", "100.00"),
    ],
)
def test_a_converted_limit_goes_inward(text: str, relation: str, said: str) -> None:
    found = written(parse_quantity(text), MM, relation)
    assert (found.text, found.relation, found.also) == (said, relation, text)


@given(st.decimals("0.0001", "40", places=4), st.sampled_from(["≤", "≥"]))
def test_no_converted_limit_lets_pass_what_the_authors_figure_stops(inches: Decimal, relation: str) -> None:
    shown = Decimal(written(parse_quantity(f"{inches} in"), MM, relation).text)
    exact = inches * INCH
    step = Decimal(1).scaleb(shown.as_tuple().exponent)  # type: ignore[arg-type]
    rounding = ROUND_FLOOR if relation == "≤" else ROUND_CEILING
    assert shown == exact.quantize(step, rounding)
    assert step == Decimal("0.001") or exact >= 15 * step  # within a fifteenth, unless finer than is ever measured


@pytest.mark.parametrize(
    ("text", "relation", "said"),
    [("1 mm", "≤", "0.039"), ("0.5 mm", "≥", "0.020"), ("2.0 mm", "≤", "0.078"), ("150 mm", "", "5.9"),
     ("0.05 mm", "≤", "0.0019"), ("0.25 mm", "≤", "0.0098"), ("60 mm", "", "2.4")],
)  # fmt: skip
def test_a_coarse_figure_gets_no_digits_that_nobody_measured(text: str, relation: str, said: str) -> None:
    """By 25.4 mm an inch."""
    assert written(parse_quantity(text), IN, relation).text == said


def test_a_small_figure_keeps_its_digits_in_a_coarse_unit() -> None:
    """1 psi is 6.894757 kPa (NIST SP 811, appendix B.8)."""
    kilopascals = Units({PRESSURE: UNITS["kPa"]}, also=False)
    assert written(parse_quantity("1 psi"), kilopascals) == Figure("6.9", "kPa", also="1 psi")
    assert written(parse_quantity("145 psi"), kilopascals).text == "1000"
    newton_metres = Units({TORQUE: UNITS["N·m"]}, also=False)
    assert written(parse_quantity("9 lbf·in"), newton_metres).text == "1.02"  # 0.112984829 N·m each, the same source


@pytest.mark.parametrize("digits", ["0.01", "0.010", "0.02", "0.1", "0.005"])
def test_no_bracketed_figure_comes_to_nothing(digits: str) -> None:
    """A hundredth of a millimetre is four tenths of a thousandth of an inch, not 0.000 in; 25.4 mm are an inch."""
    said = written(parse_quantity(f"{digits} mm"), MM).also.removesuffix(" in")
    assert abs(Decimal(said) * Decimal("25.4") - Decimal(digits)) <= Decimal(digits) / 4


def test_nothing_and_a_point_on_a_scale_have_no_digits_to_keep() -> None:
    kilopascals = Units({PRESSURE: UNITS["kPa"]}, also=False)
    celsius = Units({TEMPERATURE: UNITS["°C"]}, also=False)
    assert written(parse_quantity("0 psi"), kilopascals).text == "0"
    assert written(parse_quantity("32 °F"), celsius).text == "0"
    assert written(parse_quantity("33 °F"), celsius).text == "1"
    assert written(parse_quantity("212 °F"), celsius).text == "100"


def test_the_clock_has_no_unit_and_is_never_converted() -> None:
    assert written(parse_quantity("4:30"), MM) == Figure("4:30")
    assert written(parse_quantity("12:00"), MM) == Figure("12:00")
    assert computed(known(135.0), parse_show("0:05"), MM) == Figure("4:30")
    assert computed(known(359.0), parse_show("0:05"), MM) == Figure("12:00")
    assert computed(known((0.0, 90.0)), parse_show("0:05"), MM) == Figure("12:00, 3:00")
    assert blank(UNITS["clock"]) == Figure("", state="blank")
    assert CLOCK.point


@given(st.decimals("-200", "200", places=5))
def test_a_worked_out_value_is_rounded_half_even_in_its_own_steps(millimetres: Decimal) -> None:
    nearest = millimetres.quantize(Decimal("0.001"), ROUND_HALF_EVEN)
    said = computed(known(float(millimetres)), parse_show("0.001 mm"), PLAIN).text.replace("\u2212", "-")
    assert Decimal(said) == nearest
    assert not said.startswith("-0.000")


def test_noise_has_no_digits_to_keep() -> None:
    assert computed(known(1e-14), parse_show("0.01 mm"), MM) == Figure("0.00", "mm", also="0.000 in")


def test_a_worked_out_value_in_the_shops_unit() -> None:
    """A step of 0.001 mm is nearest to one of 0.0001 in among the powers of ten."""
    assert computed(known(25.4), parse_show("0.001 mm"), IN) == Figure("1.0000", "in", also="25.400 mm")
    assert computed(known(25.4), parse_show("0.001 mm"), MM) == Figure("25.400", "mm", also="1.0000 in")


def test_a_worked_out_limit_goes_inward_in_both_units() -> None:
    third = float(Fraction(1, 30))  # 0.0333… mm, 0.001312… in
    assert computed(known(third), parse_show("0.01 mm"), MM, "≤") == Figure("0.03", "mm", "≤", "0.0013 in")
    assert computed(known(third), parse_show("0.01 mm"), MM, "≥") == Figure("0.04", "mm", "≥", "0.0014 in")


def test_lists() -> None:
    assert computed(known((0.25, 0.5)), parse_show("0.01 mm"), PLAIN) == Figure("0.25, 0.50", "mm")
    assert computed(known((6.35, 12.7)), parse_show("0.01 mm"), IN).text == "0.250, 0.500"


@pytest.mark.parametrize(
    ("cell", "state"), [(unknown("x"), "blank"), (wanting("x"), "wanting"), (NONE, "none"), (known(1.0), "known")]
)
def test_four_states(cell: object, state: str) -> None:
    assert computed(cell, parse_show("0.1 mm"), MM).state == state  # type: ignore[arg-type]


def test_a_figure_in_a_sentence() -> None:
    assert in_line(Figure("0.10", "mm", "≤", "0.004 in")) == "≤ 0.10\u202fmm"
    assert in_line(blank(UNITS["mm"])) == "____\u202fmm"
    assert in_line(Figure("", "mm", state="wanting")) == "____\u202fmm"
    assert in_line(Figure("", "mm", state="none")) == "–\u202fmm"
    assert in_line(Figure("4:30")) == "4:30"


def test_two_limits_as_one() -> None:
    low, high = Figure("0.03", "mm", "≥", "0.001 in"), Figure("0.08", "mm", "≤", "0.003 in")
    assert between(low, high) == Figure("0.03–0.08", "mm", "", "0.001–0.003 in")
    assert between(Figure("2", "bar", "≥"), Figure("60", "psi", "≤")).text == "2\u202fbar–60"
    assert between(low, blank(UNITS["mm"], "≤")) == Figure("0.03–____", "mm")
    assert between(blank(UNITS["mm"], "≥"), high).text == "____–0.08"
    assert between(blank(UNITS["mm"], "≥"), blank(UNITS["mm"], "≤")) == blank(UNITS["mm"])


def test_a_familys_units_go_before_the_shops() -> None:
    shop, family = Shown({"length": "mm", "torque": "N·m"}, also=True), Shown({"length": "in"})
    found = units_for(shop, family)  # type: ignore[arg-type]
    assert found == Units({LENGTH: UNITS["in"], TORQUE: UNITS["N·m"]}, also=True)
    assert found.usual(PRESSURE).symbol == "kPa"
    assert found.usual(LENGTH).symbol == "in"
