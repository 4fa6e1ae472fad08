"""Every registered function is fit for formulas: named, sourced, dimensioned, and pure on floats."""

import inspect

import pytest

from procgen.trade.registry import FUNCTIONS, function
from procgen.units.dimension import ANGLE, LENGTH, NUMBER


def test_what_the_first_cards_call_is_there() -> None:
    assert {
        "displacement", "swept_volume", "compression_ratio", "stack_height", "survey_stations", "light_stations",
        "clock_error_max", "hole_overlap", "hatch_cycles", "hatch_angle", "leg_tension", "stand_moment",
        "taper_engagement",
    } <= set(FUNCTIONS)  # fmt: skip


@pytest.mark.parametrize("name", sorted(FUNCTIONS))
def test_entry(name: str) -> None:
    entry = FUNCTIONS[name]
    assert entry.name == name
    assert entry.source
    assert entry.call.__doc__
    assert [p.name for p in entry.takes] == list(inspect.signature(entry.call).parameters)


def test_dimensions_of_one() -> None:
    entry = FUNCTIONS["clock_error_max"]
    assert [p.dimension for p in entry.takes] == [LENGTH, LENGTH, LENGTH, NUMBER]
    assert entry.gives == ANGLE
    assert not entry.gives_list
    assert FUNCTIONS["survey_stations"].gives_list


def test_a_name_is_registered_once() -> None:
    with pytest.raises(ValueError, match="two functions"):

        @function(takes=(LENGTH,), gives=LENGTH, source="geometry")
        def growth(size: float) -> float:
            return size
