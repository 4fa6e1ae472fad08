"""What the checks look at: the workshop or a part of it, and every family's benches, each made once."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import replace

from procgen.compose import Bench, Lexicon, benches
from procgen.compose.card import formulas_of
from procgen.compose.common import Common
from procgen.formula import names
from procgen.model.family import Family
from procgen.model.procedure import Procedure
from procgen.model.workshop import Workshop


class Benches(Mapping[str, Mapping[str, Bench]]):
    """By family, by the variant's name; made when they are asked for, and once."""

    def __init__(self, workshop: Workshop, other: Benches | None = None) -> None:
        """Those of the workshop's families; `other`: of more of them, whose benches are the same."""
        self._families: Collection[str] = workshop.families
        self._workshop: Workshop = workshop if other is None else other._workshop
        self.common: Common = Common(workshop) if other is None else other.common
        self._made: dict[str, Mapping[str, Bench]] = {} if other is None else other._made

    def __getitem__(self, family: str) -> Mapping[str, Bench]:
        if family not in self._families:
            raise KeyError(family)
        if family not in self._made:
            self._made[family] = benches(self._workshop, self._workshop.families[family], self.common)
        return self._made[family]

    def __iter__(self) -> Iterator[str]:
        return iter(self._families)

    def __len__(self) -> int:
        return len(self._families)

    def forget(self, family: str) -> None:
        """Let go of those, and of all that was worked out on them."""
        self._made.pop(family, None)
        self.common.forget(family)


class Context:
    """`broken` holds the cards whose form does not hold together: nothing is worked out for those, nor for cards that
    ask them for something. `lost` holds those whose files could not even be loaded.
    """

    def __init__(
        self,
        workshop: Workshop,
        broken: frozenset[str] = frozenset(),
        lost: frozenset[str] = frozenset(),
        benches: Benches | None = None,
    ) -> None:
        self.workshop = workshop
        self.broken = broken
        self.lost = lost
        self.benches = Benches(workshop, benches)
        self.lexicons = self.benches.common.lexicons
        self.has_deck = True  # whether the cards as written are looked at, besides those that families change

    def deck(self) -> Context:
        """The cards as written, for no family."""
        return self._part(replace(self.workshop, families={}, jobs={}), has_deck=True)

    def family(self, id: str) -> Context:
        """One family, with what it changes in cards."""
        return self._part(replace(self.workshop, families={id: self.workshop.families[id]}, jobs={}), has_deck=False)

    def job(self, id: str) -> Context:
        """One job, with its family."""
        job = self.workshop.jobs[id]
        families = {job.family: self.workshop.families[job.family]}
        return self._part(replace(self.workshop, families=families, jobs={id: job}), has_deck=False)

    def without(self, files: Collection[str]) -> Context:
        """The same workshop without the families in these files, and with the cards in them, and whatever asks those
        cards for something, marked as broken.
        """
        families = {id: family for id, family in self.workshop.families.items() if family.place.path not in files}
        broken = {id for id, card in self.workshop.procedures.items() if card.place.path in files} | self.lost
        while more := {id for id in self.workshop.procedures if id not in broken and self._asks(id, broken)}:
            broken |= more
        jobs = {
            id: job for id, job in self.workshop.jobs.items() if job.place.path not in files and job.family in families
        }
        context = self._part(replace(self.workshop, families=families, jobs=jobs), self.has_deck)
        context.broken = frozenset(broken)
        return context

    def _part(self, workshop: Workshop, has_deck: bool) -> Context:
        """Names and benches are the same there, and are worked out but once."""
        context = Context(workshop, self.broken, self.lost, self.benches)
        context.has_deck = has_deck
        return context

    def _asks(self, id: str, others: Collection[str]) -> bool:
        """Whether a card's formulas and steps name anything of other cards."""
        if not others:
            return False
        card = self.workshop.procedures[id]
        used = [name for formula in formulas_of(card) for name in names(formula.tree)]
        for step in card.steps:
            used += (name for name, _ in (*step.show, *(step.table.show if step.table is not None else ())))
        return any(name.startswith(tuple(f"{other.replace('-', '_')}." for other in others)) for name in used)

    def asks_the_lost(self, name: str) -> bool:
        """Whether a name is one of a card that could not be loaded."""
        return name.partition(".")[0].replace("_", "-") in self.lost

    def cards(self) -> Iterator[tuple[Procedure, Lexicon, Family | None]]:
        """Every procedure as written, and as amended for each family that changes it, with its names."""
        for id, procedure in self.workshop.procedures.items():
            if self.has_deck:
                yield procedure, self.lexicons.card(id), None
            for family in self.workshop.families.values():
                if id in family.amendments:
                    bench = next(iter(self.benches[family.id].values()))
                    yield bench.procedures[id], bench.lexicons.card(id), family

    def whole_cards(self, bench: Bench) -> Iterator[str]:
        """The cards of the deck that can be worked out for a family."""
        return (id for id, _ in self.workshop.deck if id in bench.procedures and id not in self.broken)
