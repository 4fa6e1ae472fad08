"""How figures print, for the page: steps and units as exact numbers, each way of printing once."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any

from procgen.compose.figures import Units
from procgen.units.compare import step_of
from procgen.units.dimension import Dimension, name_of
from procgen.units.printing import show_in
from procgen.units.quantity import Show
from procgen.units.table import CLOCK_FACE, UNITS, Unit, counterpart

Json = Any  # what json.dumps takes


class Shows:
    """`written`: each way to print as [the shop's unit, the other system's or null]. `units`: by symbol, a factor and
    an offset to base units, each as two whole numbers in text, and what it measures.
    """

    def __init__(self) -> None:
        self.written: list[Json] = []
        self.units: dict[str, Json] = {}
        self._places: dict[tuple[Show, Unit], int] = {}

    def of(self, show: Show, units: Units) -> int:
        """The place in `written` of a show, in the unit that is shown for it."""
        unit = units.of(show.unit)
        place = self._places.get((show, unit))
        if place is None:
            other = counterpart(unit)
            entry = [self._show(show_in(show, unit)), None if other is None else self._show(show_in(show, other))]
            if entry not in self.written:
                self.written.append(entry)
            place = self._places[show, unit] = self.written.index(entry)
        return place

    def entered(self, dimension: Dimension, units: Units) -> tuple[str, str]:
        """The units in which a reading of that dimension may be entered: the shop's, and the other system's or ""."""
        unit = units.usual(dimension)
        other = counterpart(unit)
        self.units.update(_spellings(dimension))  # a job's file may be written in any of them
        return unit.symbol, "" if other is None else other.symbol

    def _show(self, show: Show) -> Json:
        unit: Unit = show.unit
        clock = unit is CLOCK_FACE
        symbol = "" if clock else unit.printed
        self.units[unit.symbol] = _unit(unit)
        return [f"{show.step:f}", symbol, unit.symbol, step_of(unit.dimension)] + ([True] if clock else [])


@cache
def _spellings(dimension: Dimension) -> Mapping[str, Json]:
    return {spelling: _unit(unit) for spelling, unit in UNITS.items() if unit.dimension == dimension}


@cache
def _unit(unit: Unit) -> Json:
    exact = (part for number in (unit.factor, unit.offset) for part in (number.numerator, number.denominator))
    return [*map(str, exact), name_of(unit.dimension)]
