"""Readings that look like a slip: far from what can be there, and not confirmed by a person."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.compose.figures import in_line
from procgen.compose.readings import Reported
from procgen.compose.scope import CardScope
from procgen.compose.spoken import default_show
from procgen.formula import State
from procgen.formula.words import lowered
from procgen.model.card import Figure
from procgen.model.procedure import Reading
from procgen.units.dimension import NAMES
from procgen.units.printing import show_in, shown
from procgen.units.quantity import Quantity, Show
from procgen.units.table import Unit
from procgen.values import dataclass

FACTORS = (10.0, 0.1, 25.4, 1 / 25.4, 100.0, 0.01)
"""Slips of the point, and inches taken for millimetres."""


@dataclass(frozen=True, slots=True)
class Slip:
    """`what` was read where; between what it should lie; what may have been meant, "" where nobody can guess."""

    what: str
    value: str
    low: str
    high: str
    meant: str


def slip_of(reported: Reported, reading: Reading, scope: CardScope) -> Slip | None:
    """None where the reading lies between its bounds, where it has none, or where a person confirmed it."""
    value = reported.taken.value
    bounds = scope.queried(reading, reported.taken)
    if bounds is None or not isinstance(value, Quantity):
        return None
    low, high = (_text(bound, default_show(NAMES[reading.dimension]), value.unit) for bound in bounds)
    what = " ".join([lowered(reading.title), *reported.taken.index])
    return Slip(what, value.text, low, high, _meant(value, bounds))


def less_than_nothing(scope: CardScope) -> Iterator[tuple[str, Reported]]:
    """What must be at least nothing and is less, such as a clearance, each with one of its readings."""
    readings = scope.bench.readings
    for value in scope.procedure.values.values():
        if readings is None or value.formula is None or value.limits is None or value.limits.min is None:
            continue
        for bound in scope.indices(value.each):
            cell, least = scope.spread(value.name, bound).one, scope.cell(value.limits.min, bound)
            measured = cell.state is State.KNOWN and cell.partials and least.state is State.KNOWN
            if measured and cell.number < 0 <= least.number:
                yield " ".join([value.title.lower(), *bound.values()]), readings.reported(min(cell.partials))


def _text(bound: float, show: Show, unit: Unit) -> str:
    """In the unit that the reading was written in."""
    return in_line(Figure(shown(bound, show_in(show, unit)), unit.printed))


def _meant(value: Quantity, bounds: tuple[float, float]) -> str:
    """The same digits with two exchanged, or the point elsewhere."""
    text = value.text
    swaps = (text[:at] + text[at + 1] + text[at] + text[at + 2 :] for at in range(len(text) - 1))
    for swapped in swaps:
        if _is_number(swapped) and bounds[0] <= float(swapped) * float(value.unit.factor) <= bounds[1]:
            return swapped
    for factor in FACTORS:
        if bounds[0] <= value.value * factor <= bounds[1]:
            return f"{float(value.text) * factor:g} {value.unit.printed}"
    return ""


def _is_number(text: str) -> bool:
    return text.replace(".", "", 1).isdigit()
