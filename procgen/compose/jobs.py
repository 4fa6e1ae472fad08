"""One engine on the stand: its bench, and every verdict of the deck in the order of work."""

from __future__ import annotations

from procgen.compose.bench import Bench, variant_of
from procgen.compose.card import speaker_for
from procgen.compose.readings import Readings
from procgen.compose.verdicts import verdicts
from procgen.model.job import Job
from procgen.model.verdict import Judged
from procgen.model.workshop import Workshop


def job_bench(workshop: Workshop, job: Job) -> Bench:
    """The engine as it was found, with its readings, and what is known of how it goes back together."""
    family = workshop.families[job.family]
    readings = Readings(job, workshop.procedures, workshop.guard)
    built = variant_of(family, job.built)
    facts = {**({} if built is None else built.facts), **job.changes}
    return Bench(workshop, family, variant_of(family, job.found), readings, facts)


def judge(workshop: Workshop, job: Job) -> Judged:
    bench = job_bench(workshop, job)
    cards = (card for card, _ in workshop.deck if card in workshop.procedures)
    return Judged(job, tuple(verdict for card in cards for verdict in verdicts(speaker_for(card, {"": bench}))))
