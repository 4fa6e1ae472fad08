"""One job judged: every verdict of the deck, in the order of work."""

from __future__ import annotations

from dataclasses import dataclass

from procgen.compose.bench import Bench
from procgen.compose.card import speaker_for
from procgen.compose.readings import Readings
from procgen.compose.verdicts import verdicts
from procgen.model.family import Family, Variant
from procgen.model.job import Job
from procgen.model.verdict import Verdict
from procgen.model.workshop import Workshop


@dataclass(frozen=True, slots=True)
class Judged:
    job: Job
    verdicts: tuple[Verdict, ...]

    @property
    def is_settled(self) -> bool:
        return all(verdict.is_settled for verdict in self.verdicts)


def judge(workshop: Workshop, id: str) -> Judged:
    job = workshop.jobs[id]
    family = workshop.families[job.family]
    bench = Bench(workshop, family, variant_of(family, job.found), Readings(job, workshop.procedures, workshop.guard))
    cards = [card for card, _ in workshop.deck if card in workshop.procedures]
    found = [verdict for card in cards for verdict in verdicts(speaker_for(card, {"": bench}))]
    return Judged(job, tuple(found))


def variant_of(family: Family, id: str) -> Variant | None:
    return next((variant for variant in family.variants if variant.id == id), None)
