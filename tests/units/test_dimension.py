"""Dimensions multiply and divide as SI derives them (SI Brochure, table 4 and 5)."""

from __future__ import annotations

from procgen.units import dimension as d


def test_derived_dimensions() -> None:
    assert d.LENGTH * d.LENGTH == d.AREA
    assert d.FORCE / d.AREA == d.PRESSURE
    assert d.FORCE * d.LENGTH == d.ENERGY
    assert d.TORQUE * d.ANGLE == d.ENERGY
    assert d.PRESSURE * d.TIME == d.VISCOSITY
    assert d.VOLUME / d.TIME == d.FLOW
    assert d.NUMBER / d.TEMPERATURE_DIFFERENCE == d.EXPANSION
    assert (d.LENGTH / d.LENGTH).is_number


def test_points_and_their_differences() -> None:
    assert d.TEMPERATURE.difference == d.TEMPERATURE_DIFFERENCE
    assert d.CLOCK.difference == d.ANGLE
    assert d.TEMPERATURE != d.TEMPERATURE_DIFFERENCE


def test_names() -> None:
    assert d.name_of(d.TEMPERATURE_DIFFERENCE) == "temperature difference"
    assert d.name_of(d.TORQUE) == "torque"
    assert d.name_of(d.AREA / d.TIME) == "length² per time"
    assert d.name_of(d.NUMBER / d.LENGTH) == "1 per length"
    assert all(d.name_of(dimension) == name.replace("_", " ") for name, dimension in d.NAMES.items())
