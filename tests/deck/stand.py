"""A card at the stand: readings given by hand, everything else from the workshop's own files."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from procgen.compose.bench import Bench
from procgen.compose.scope import CardScope
from procgen.formula.cells import Cell, Spread, known, wanting
from procgen.model.procedure import Reading
from procgen.units.dimension import LENGTH, NAMES, NUMBER
from tests.demo import workshop

Taken = str | float | Mapping[str, str | float]
Bores = Mapping[float, tuple[float, float]]
"""Depth below the deck, mm: size across the crank and along it, mm."""


class Table(Bench):
    """A bench that finds the readings of every stand that is put at it."""

    def __init__(self, *all_of: Any) -> None:
        super().__init__(*all_of)
        self.stands: dict[str, CardScope] = {}

    def card(self, id: str) -> CardScope:
        return self.stands.get(id) or super().card(id)


class Stand(CardScope):
    """`readings`: one word or figure (base units) for all members, or one for each; `bores` alike for all cylinders.

    `beside`: a card at the same stand, whose readings and decisions this one may look at.
    """

    def __init__(
        self,
        family: str,
        card: str,
        readings: Mapping[str, Taken],
        bores: Bores | None = None,
        beside: Stand | None = None,
    ) -> None:
        stated = workshop().families[family]
        bench = Table(workshop(), stated, stated.variants[0]) if beside is None else beside.bench
        assert isinstance(bench, Table)
        bench.stands[card] = self
        super().__init__(bench, bench.lexicons.card(card))
        self.taken: dict[str, Spread] = {}
        if bores is not None:
            self.stations = {f"{depth:g}": depth for depth in bores}
        self.taken = {name: self._reading(self.procedure.readings[name], taken) for name, taken in readings.items()}
        if bores is not None:
            self.taken["bore"] = Spread(
                ("cylinder", "depth", "axis"),
                {
                    (cylinder, f"{depth:g}", axis): known(size)
                    for cylinder in self.members("cylinder")
                    for depth, sizes in bores.items()
                    for axis, size in zip(("thrust", "axial"), sizes, strict=True)
                },
                LENGTH,
            )

    def unstated(self, *names: str) -> Stand:
        """The same engine of a family that does not state these figures yet. Asked before anything is worked out."""
        family = self.bench.family
        facts = {name: fact for name, fact in family.facts.items() if name not in names}
        self.bench.family = replace(family, facts=facts)
        return self

    def whole(self, name: str) -> Spread:
        return self.taken[name] if name in self.taken else super().whole(name)

    def outcome(self, decision: str, member: str | None = None) -> str:
        """The id of the branch that is taken; the same for all members where none is named."""
        cells = self.whole(decision).cells
        found = {
            cell.value if cell.value is not None else cell.state
            for key, cell in cells.items()
            if member in (None, *key)
        }
        assert len(found) == 1, found
        return str(found.pop())

    def spoken(self, name: str, word: str) -> Spread:
        """A decision that fell that way for all members."""
        axes = self.procedure.decisions[name].each
        return Spread(axes, {tuple(b.values()): known(word) for b in self.indices(axes)}, NUMBER)

    def measured(self, name: str, size: float) -> Spread:
        """A value of the card that has this size, mm, as if all that it needs had been entered."""
        axes = self.procedure.values[name].each
        return Spread(axes, {tuple(b.values()): known(size) for b in self.indices(axes)}, LENGTH)

    def value(self, name: str, member: str) -> float:
        return self.whole(name).cells[member,].number

    def _reading(self, reading: Reading, taken: Taken) -> Spread:
        dimension = NAMES[reading.dimension] if reading.dimension else NUMBER
        return Spread(reading.each, {tuple(b.values()): _cell(taken, b) for b in self.indices(reading.each)}, dimension)


def _cell(taken: Taken, bound: Mapping[str, str]) -> Cell:
    if not isinstance(taken, Mapping):
        return known(taken)
    found = next((taken[member] for member in bound.values() if member in taken), None)
    return wanting("not taken") if found is None else known(found)
