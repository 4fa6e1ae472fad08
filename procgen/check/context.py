"""What the checks look at: the workshop, and every family's benches and proofs, each made once."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import replace
from functools import cached_property

from procgen.compose import Bench, Lexicon, Lexicons, Proofs, benches
from procgen.compose.card import formulas_of
from procgen.formula import names
from procgen.model.family import Family
from procgen.model.procedure import Procedure
from procgen.model.workshop import Workshop


class Context:
    """`broken` holds the cards whose form does not hold together: nothing is worked out for those, nor for cards that
    ask them for something. `lost` holds those whose files could not even be loaded.
    """

    def __init__(
        self, workshop: Workshop, broken: frozenset[str] = frozenset(), lost: frozenset[str] = frozenset()
    ) -> None:
        self.workshop = workshop
        self.broken = broken
        self.lost = lost
        self._lexicons = Lexicons(workshop, workshop.procedures)

    @cached_property
    def benches(self) -> Mapping[str, Mapping[str, Bench]]:
        """By family, by the variant's name."""
        return {family.id: benches(self.workshop, family) for family in self.workshop.families.values()}

    @cached_property
    def proofs(self) -> Mapping[str, tuple[Proofs, ...]]:
        """By family, one for each variant."""
        return {family: tuple(map(Proofs, made.values())) for family, made in self.benches.items()}

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
        context = Context(replace(self.workshop, families=families, jobs=jobs), frozenset(broken), self.lost)
        kept = {id: made for id, made in self.__dict__.get("benches", {}).items() if id in families}
        if kept:
            context.__dict__["benches"] = kept  # already worked out
        return context

    def _asks(self, id: str, others: Collection[str]) -> bool:
        """Whether a card's formulas and steps name anything of other cards."""
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
            yield procedure, self._lexicons.card(id), None
            for family in self.workshop.families.values():
                if id in family.amendments:
                    bench = next(iter(self.benches[family.id].values()))
                    yield bench.procedures[id], bench.lexicons.card(id), family

    def whole_cards(self, bench: Bench) -> Iterator[str]:
        """The cards of the deck that can be worked out for a family."""
        return (id for id, _ in self.workshop.deck if id in bench.procedures and id not in self.broken)
