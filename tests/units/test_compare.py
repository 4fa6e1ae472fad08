"""The one comparison: noise counts as none, and everything a gauge can read counts."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from procgen.units import dimension as d
from procgen.units.compare import STEPS, at_most, equal, less, step_of

_FAR = d.Dimension((7, 0, 0, 0, 0, 0))
"""A dimension that has no step of its own."""


def test_sums_that_floats_get_wrong() -> None:
    assert 0.1 + 0.2 != 0.3
    assert equal(0.1 + 0.2, 0.3, d.LENGTH)
    assert at_most(0.1 + 0.2, 0.3, d.LENGTH)
    assert not less(0.3, 0.1 + 0.2, d.LENGTH)


def test_a_micrometre_counts() -> None:
    """No gauge at a stand reads below 1 µm (common practice, no source); the step is a thousandth of that."""
    assert less(0.300, 0.301, d.LENGTH)
    assert not at_most(0.301, 0.300, d.LENGTH)
    assert less(0.300000, 0.300002, d.LENGTH)
    assert equal(0.3, 0.3000009, d.LENGTH)


def test_every_named_dimension_has_its_step() -> None:
    assert set(STEPS) == set(d.NAMES.values())
    assert all(step > 0 for step in STEPS.values())


@pytest.mark.parametrize(
    ("dimension", "largest"),
    [
        (d.LENGTH, 1e4),  # mm: a ten-metre block
        (d.MASS, 1e4),  # kg
        (d.PRESSURE, 2.2e8),  # kPa: the modulus of steel
        (d.FORCE, 1e9),  # mN: 1 MN
        (d.TORQUE, 1e10),  # 10 kN·m
        (d.ANGLE, 360),
        (d.TEMPERATURE, 1500),
        (d.VOLUME, 1e9),  # mm³: 1 m³
    ],
)
def test_steps_lie_above_the_noise_of_the_largest_values(dimension: d.Dimension, largest: float) -> None:
    """Four roundings of the last digit of a float (IEEE 754 binary64) still count as none."""
    assert 4 * math.ulp(largest) < step_of(dimension)


def test_unlisted_dimensions_compare_relatively() -> None:
    assert step_of(_FAR) == 0.0
    assert equal(1e12, 1e12 + 100, _FAR)
    assert less(1e12, 1e12 + 10_000, _FAR)
    assert equal(0.0, 0.0, _FAR)


@given(st.floats(-1e6, 1e6), st.floats(-1e6, 1e6), st.sampled_from([*STEPS, _FAR]))
def test_of_two_values_one_is_less_or_they_are_equal(a: float, b: float, dimension: d.Dimension) -> None:
    assert [less(a, b, dimension), less(b, a, dimension), equal(a, b, dimension)].count(True) == 1
    assert at_most(a, b, dimension) == (not less(b, a, dimension))


def test_nothing_compares_with_what_is_no_number() -> None:
    assert not equal(math.nan, math.nan, d.LENGTH)
    assert not at_most(math.nan, 1.0, d.LENGTH)
