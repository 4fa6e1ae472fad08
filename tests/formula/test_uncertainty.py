"""How a value moves with its readings: against finite differences, hand-worked cases and random errors in thousands."""

from __future__ import annotations

import math

import numpy as np
import pytest
from formulas import Bench, formula
from hypothesis import given
from hypothesis import strategies as st

from procgen.formula import Cell, Spread, known, reading, single, uncertainty
from procgen.formula.types import number
from procgen.model.formula import Function, Parameter
from procgen.units.dimension import LENGTH

DISC = Function("disc", (Parameter("d", LENGTH),), LENGTH, False, lambda d: math.pi / 4 * d * d, "geometry")


def bench(**values: float) -> Bench:
    return Bench(
        {name: number(LENGTH) for name in values},
        {name: single(reading(value, name), LENGTH) for name, value in values.items()},
        extra={"disc": DISC},
    )


@pytest.mark.parametrize(
    ("source", "partials"),
    [
        ("a + b", {"a": 1, "b": 1}),
        ("a - b", {"a": 1, "b": -1}),
        ("a - a", {"a": 0}),
        ("a * b", {"a": 4, "b": 3}),
        ("a / b", {"a": 1 / 4, "b": -3 / 16}),
        ("-a * 2", {"a": -2}),
        ("abs(a - b)", {"a": -1, "b": 1}),
        ("max(a, b)", {"b": 1}),
        ("min(a, b)", {"a": 1}),
        ("sqrt(a * b)", {"a": math.sqrt(4 / 3) / 2, "b": math.sqrt(3 / 4) / 2}),
        ("disc(a)", {"a": math.pi / 2 * 3}),
        ("a if a < b else b", {"a": 1}),
        ("3", {}),
    ],
)
def test_partials(source: str, partials: dict[str, float]) -> None:
    found = bench(a=3.0, b=4.0).cell(source).partials
    assert dict(found) == pytest.approx(partials, rel=1e-8)


SIZES = st.floats(0.5, 200)


@given(SIZES, SIZES, SIZES)
def test_partials_are_the_finite_differences(a: float, b: float, c: float) -> None:
    source = "(a * b - c) / (a + b) + sqrt(a * a + c * c) + disc(b) / 12"
    found = bench(a=a, b=b, c=c).cell(source)
    for name, value in (("a", a), ("b", b), ("c", c)):
        step = 1e-4 * value
        ends = [bench(**{"a": a, "b": b, "c": c, name: value + s}).cell(source).number for s in (step, -step)]
        assert found.partials[name] == pytest.approx((ends[0] - ends[1]) / (2 * step), rel=1e-4, abs=1e-5)


def readings(values: list[float]) -> Spread:
    return Spread(("depth",), {(str(i),): reading(v, f"bore {i}") for i, v in enumerate(values)}, LENGTH)


def test_aggregates() -> None:
    scope = Bench({"bore": number(LENGTH, "depth")}, {"bore": readings([1.0, 5.0, 3.0])})
    assert scope.cell("max(bore)").partials == {"bore 1": 1.0}
    assert scope.cell("span(bore)").partials == {"bore 1": 1.0, "bore 0": -1.0}
    assert scope.cell("mean(bore)").partials == pytest.approx({f"bore {i}": 1 / 3 for i in range(3)})
    assert scope.cell("sum(bore)").partials == {f"bore {i}": 1.0 for i in range(3)}


def test_clearance_is_a_difference_of_two_measurements() -> None:
    """U of a clearance = the root of the sum of squares: 0.004 and 0.0045 give 0.0060208 (worked by hand)."""
    clearance = bench(bore=48.562, journal=48.496).cell("bore - journal")
    assert uncertainty(clearance, {"bore": 0.004, "journal": 0.0045}) == pytest.approx(0.0060208, abs=5e-8)


def test_a_common_error_shrinks_differences_and_not_means() -> None:
    two = bench(a=10.0, b=10.2)
    both = {"a": 0.004, "b": 0.004}
    assert uncertainty(two.cell("(a + b) / 2"), both) == pytest.approx(0.004)  # one gauge wrongly set: no averaging out
    assert uncertainty(two.cell("a + b"), both) == pytest.approx(0.008)
    assert uncertainty(two.cell("a - b"), both) == pytest.approx(0.004 * math.sqrt(2))  # independent is the larger
    assert uncertainty(known(3.0), {}) == 0.0


def test_a_reading_without_an_uncertainty_is_an_error() -> None:
    with pytest.raises(KeyError):
        uncertainty(bench(a=1.0).cell("a * 2"), {})


@pytest.mark.parametrize(
    "source", ["a * b / c", "sqrt(a * a + b * b) - c", "(a - b) * (a + c) / b", "disc(a) - disc(c)"]
)
def test_independent_errors_by_the_thousand(source: str) -> None:
    """Monte Carlo as in JCGM 101: normal errors of U/2 each; the spread of the result is half its U."""
    values, expanded = {"a": 98.4, "b": 48.5, "c": 61.2}, {"a": 0.004, "b": 0.006, "c": 0.003}
    generator = np.random.default_rng(20)
    draws = {name: generator.normal(v, expanded[name] / 2, 200_000) for name, v in values.items()}
    python = source.replace("disc(a)", "(np.pi/4*a*a)").replace("disc(c)", "(np.pi/4*c*c)").replace("sqrt", "np.sqrt")
    spread = 2 * np.std(eval(python, {"np": np}, draws))
    cell = bench(**values).cell(source)
    independent = math.hypot(*(partial * expanded[name] for name, partial in cell.partials.items()))
    assert independent == pytest.approx(spread, rel=0.01)
    assert uncertainty(cell, expanded) >= independent


@pytest.mark.parametrize("source", ["a + b + c", "a * b / c", "(a + b + c) / 3"])
def test_one_common_error(source: str) -> None:
    """All readings off by the same error, one way: the result moves by the sum of the signed shares."""
    values, error = {"a": 98.4, "b": 48.5, "c": 61.2}, 0.004
    cell = bench(**values).cell(source)
    off = bench(**{name: value + error for name, value in values.items()}).cell(source)
    common = abs(math.fsum(cell.partials.values())) * error
    assert common == pytest.approx(abs(off.number - cell.number), rel=1e-3)
    assert uncertainty(cell, dict.fromkeys(values, error)) >= common


def test_the_tree_is_typed_all_the_same() -> None:
    assert bench(a=1.0).type("disc(a)") == number(LENGTH)
    assert isinstance(bench(a=1.0).cell("a"), Cell)
    assert formula("disc(a)") is not None
