"""Numbers as a reader of this family sees them: which unit, how many digits, what stands in brackets.

The unit that the author wrote is the master and decides; where the shop shows another, the author's figure stands in
brackets. A limit that is converted is rounded inward, so that the card never lets pass what the author's figure stops.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal
from functools import lru_cache

from procgen.formula import Cell, State
from procgen.model.card import Figure
from procgen.model.family import Family
from procgen.model.workshop import Workshop
from procgen.units.compare import equal
from procgen.units.dimension import LENGTH, NAMES, Dimension
from procgen.units.printing import as_written, show_in, show_of, shown
from procgen.units.quantity import Quantity, Show
from procgen.units.table import CLOCK_FACE, UNITS, Unit, counterpart, usual
from procgen.values import dataclass

_STATES = {State.UNKNOWN: "blank", State.WANTING: "wanting", State.NONE: "none"}
_INWARD = {"≤": "down", "≥": "up"}


@dataclass(frozen=True, slots=True)
class Units:
    """The units that a family's cards show."""

    shown: Mapping[Dimension, Unit]
    also: bool

    def of(self, unit: Unit) -> Unit:
        """The unit to show for something written in `unit`."""
        return self.shown.get(unit.dimension, unit)

    def usual(self, dimension: Dimension) -> Unit:
        """The unit to show for something that nobody has written yet."""
        return self.of(usual(dimension))


def units_for(workshop: Workshop, family: Family) -> Units:
    chosen = {**workshop.show, **family.show}
    if "temperature" in chosen:  # K would be read off no thermometer of the shop
        chosen.setdefault("temperature_difference", f"Δ{chosen['temperature']}")
    return Units({NAMES[name]: UNITS[symbol] for name, symbol in chosen.items()}, workshop.also)


def computed(cell: Cell, show: Show, units: Units, relation: str = "") -> Figure:
    """A worked-out value in the steps of `show`."""
    unit = units.of(show.unit)
    if cell.state is not State.KNOWN:
        return Figure("", _symbol(unit), relation, state=_STATES[cell.state])
    assert isinstance(cell.value, (float, tuple))
    return _computed(cell.value, show, show.step.as_tuple().exponent, unit, units.also, relation)


@lru_cache(maxsize=8192)  # families have many figures in common
def _computed(
    value: float | tuple[float, ...], show: Show, exponent: int | str, unit: Unit, has_also: bool, relation: str
) -> Figure:
    """`exponent`: of the step; steps of 0.1 and 0.10 are equal, and print otherwise."""
    if isinstance(value, tuple):
        texts = [shown(v, show_in(show, unit)) for v in value]
        return Figure(", ".join(texts), _symbol(unit), relation)
    towards = _INWARD.get(relation, "even")
    also = _also(value, show, unit, towards) if has_also else ""
    return Figure(shown(value, show_in(show, unit), towards), _symbol(unit), relation, also)


def written(quantity: Quantity, units: Units, relation: str = "") -> Figure:
    """A stated figure: digits as its author wrote them where the unit is the one shown."""
    return _written(quantity, units.of(quantity.unit), units.also, relation)


@lru_cache(maxsize=8192)
def _written(quantity: Quantity, unit: Unit, has_also: bool, relation: str) -> Figure:
    show, towards = show_of(quantity), _INWARD.get(relation, "even")
    if (unit.factor, unit.offset) == (quantity.unit.factor, quantity.unit.offset):  # K and °C of a difference are alike
        also = _also(quantity.value, show, unit, towards) if has_also else ""
        return Figure(as_written(quantity), _symbol(unit), relation, also)
    also = f"{as_written(quantity)} {quantity.unit.printed}"
    return Figure(shown(quantity.value, _converted(quantity, unit), towards), _symbol(unit), relation, also)


def blank(unit: Unit, relation: str = "") -> Figure:
    """A box to write in, with the unit to write."""
    return Figure("", _symbol(unit), relation, state="blank")


def in_line(figure: Figure) -> str:
    """A figure inside a sentence: no brackets; a blank to write in where it is not there."""
    text = figure.text if figure.state == "known" else "–" if figure.state == "none" else "____"
    number = f"{text}{figure.space}{figure.unit}"
    return f"{figure.relation} {number}".strip()


def between(low: Figure, high: Figure) -> Figure:
    """Two limits as one figure; a side that is not known yet is left to be filled in."""
    if low.state != "known" and high.state != "known":
        return replace(high, relation="")
    ends = [in_line(replace(low, relation="", unit="" if low.unit == high.unit else low.unit))]
    ends += [in_line(replace(high, relation="", unit=""))]
    also = f"{_unless_same(low.also, high.also)}–{high.also}" if low.also and high.also else ""
    return replace(high, text="–".join(ends), relation="", also=also, state="known")


def _unless_same(low: str, high: str) -> str:
    """The lower of two bracketed figures, without its unit where the upper one has the same."""
    number, _, unit = low.rpartition(" ")
    return number if unit == high.rpartition(" ")[2] else low


def _converted(quantity: Quantity, unit: Unit) -> Show:
    """The steps for a stated figure in another unit: fine enough that rounding changes it by a fifteenth at most, since
    a small limit must not lose its last digit, but for lengths no finer than is ever measured; and no finer than that,
    since 1 mm does not say 0.0394 in. Nothing, and a position on a scale, have no digits to keep.
    """
    show = show_in(show_of(quantity), unit)
    return show if quantity.dimension.point else _finer(show, quantity.value, 15)


def _finer(show: Show, value: float, steps: int) -> Show:
    """So fine that the value has at least so many steps, but for lengths no finer than is measured."""
    if equal(value, 0.0, show.unit.dimension):
        return show
    while abs(show.unit.from_base(value)) < steps * show.step and not _finest(show):
        show = Show(show.step / 10, show.unit)
    return show


def _finest(show: Show) -> bool:
    return show.unit.dimension == LENGTH and show.step * Decimal(float(show.unit.factor)) <= Decimal("0.0026")


def _also(value: float, show: Show, unit: Unit, towards: str) -> str:
    other = counterpart(unit)
    if other is None:
        return ""
    converted = show_in(show, other)
    if not other.dimension.point:  # a small limit that goes inward must not lose half of itself, nor any figure all
        converted = _finer(converted, value, 1 if towards == "even" else 5)
    return f"{shown(value, converted, towards)} {other.printed}"


def _symbol(unit: Unit) -> str:
    return "" if unit is CLOCK_FACE else unit.printed
