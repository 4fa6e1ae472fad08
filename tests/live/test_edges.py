"""Every comparison of every decision, with a reading set so that it lies on its limit, on the edges of the guard band,
and a little to either side.
"""

from __future__ import annotations

import copy
from collections.abc import Iterator
from itertools import chain
from pathlib import Path
from random import Random
from typing import Any

from jobs import Content, as_file, from_file, loaded, random_job
from test_agreement import on_the_page, plainly, same

from procgen.compose import Bench, job_bench
from procgen.compose.card import speaker_for
from procgen.compose.verdicts import verdicts
from procgen.model.job import Job
from procgen.model.procedure import Reading
from procgen.model.verdict import Judged, Margin, Verdict
from procgen.model.workshop import Workshop

HAIR = 2e-6  # base units: over the comparison's step, and under what any gauge can tell
SHIFT = 0.01
JOBS = Path(__file__).resolve().parents[2] / "procedures" / "jobs"  # what is asked once an engine is to be bored
ROUNDS, MOST = 6, 20  # jobs a family; more until each comparison and branch has come up


def test_every_decision_at_each_of_its_edges(workshop: Workshop, data: dict[str, Any]) -> None:
    """The families' decks together: each comparison of each decision once, each of its edges; each branch once."""
    random, asked = Random(3), []
    compared: set[tuple[str, ...]] = set()
    met: set[tuple[str, ...]] = set()
    taken: set[tuple[str, ...]] = set()
    order = [card for card, _ in workshop.deck]
    decisions = [(card, one) for card in order for one in workshop.procedures[card].decisions.values()]
    every = {(card, one.name, branch.id) for card, one in decisions for branch in one.branches}
    families = [*workshop.families.values()]
    jobs = (random_job(random, workshop, family, order, 1.0) for family in families * MOST)
    demo = [from_file(path.read_text()) for path in sorted(JOBS.glob("*.yaml"))]
    written = ({key: value for key, value in one.items() if key != "shelf"} for one in demo)
    for number, job in enumerate(chain(written, jobs)):
        if number >= len(demo) + ROUNDS * len(families) and compared == met and taken >= every:
            break
        for card in order:
            for verdict in _judged(job, card, workshop):
                branches = {(card, verdict.decision, branch) for branch, _ in verdict.outcomes}
                if branches - taken:
                    taken |= branches
                    asked.append((job, card))
                for margin in verdict.margins:
                    key = (card, verdict.decision, margin.title, margin.limit_is)
                    compared.add(key)
                    if key not in met and (edges := list(_edges(job, card, verdict, margin, workshop))):
                        met.add(key)
                        asked += [(edge, card) for edge in edges]
    assert compared == met, sorted(compared - met)
    assert taken >= every, sorted(every - taken)
    sides = set()
    found = on_the_page([edge for edge, _ in asked], data, [[card] for _, card in asked])
    for (edge, card), theirs in zip(asked, found, strict=True):
        ours = plainly(Judged(_set_up(edge, workshop)[0], _judged(edge, card, workshop)))
        assert len(ours) == len(theirs)
        for a, b in zip(ours, theirs, strict=True):
            same(a, b)
            sides |= {margin["side"] for margin in a["margins"]}
    assert sides == {"INSIDE", "OUTSIDE", "TOO CLOSE"}


_benches: dict[str, tuple[Job, Bench]] = {}  # by the job's text: each is asked for many cards


def _set_up(job: Content, workshop: Workshop) -> tuple[Job, Bench]:
    text = as_file(job)
    if text not in _benches:
        read = loaded(text, workshop)
        _benches[text] = read, job_bench(workshop, read)
    return _benches[text]


def _judged(job: Content, card: str, workshop: Workshop) -> tuple[Verdict, ...]:
    return tuple(verdicts(speaker_for(card, {"": _set_up(job, workshop)[1]})))


def _edges(job: Content, card: str, verdict: Verdict, margin: Margin, workshop: Workshop) -> Iterator[Content]:
    """The job with one of the margin's readings moved to each edge: the first that moves it; counts by whole steps."""
    for taken in reversed(margin.readings):
        name, *members = taken.split(" ")
        counted = _reading(name, workshop).dimension == "number"
        step = 1.0 if counted else SHIFT
        moved = _moved(job, name, members, step, workshop)
        shifted = None if moved is None else _same_margin(moved, card, verdict, margin, workshop)
        slope = 0.0 if shifted is None else (shifted.value - shifted.limit - margin.value + margin.limit) / step
        if abs(slope) > 1e-6:
            far = margin.limit - margin.value
            around = (0.0, margin.guard, -margin.guard, margin.guard + HAIR, -margin.guard - HAIR)
            for edge in (0.0, 1.0, -1.0) if counted else around:
                at = _moved(job, name, members, (far + edge) / slope, workshop)
                if at is not None:
                    yield at
            return


def _reading(name: str, workshop: Workshop) -> Reading:
    card, _, reading = name.partition("/")
    return workshop.procedures[card].readings[reading]


def _moved(job: Content, name: str, members: list[str], by: float, workshop: Workshop) -> Content | None:
    spec = _reading(name, workshop)
    found = copy.deepcopy(job)
    at = next(session for session in found["sessions"] if session["card"] == name.partition("/")[0])["readings"]
    above = [axis for axis in spec.each if axis not in ("depth", "axis")]
    path = [*(step for axis, member in zip(above, members, strict=False) for step in (axis, member)), spec.name]
    path += members[len(above) :]
    for step in path[:-1]:
        at = at[step]
    leaf = at[path[-1]]
    number, _, unit = (leaf["is"] if isinstance(leaf, dict) else leaf).partition(" ")
    value = float(number) + by
    if spec.choices or value < 0:
        return None
    moved = f"{value:.0f}" if spec.dimension == "number" else f"{value:.8f} {unit}"
    at[path[-1]] = {"is": moved, "because": "set on its edge"}
    return found


def _same_margin(job: Content, card: str, verdict: Verdict, margin: Margin, workshop: Workshop) -> Margin | None:
    for other in _judged(job, card, workshop):
        if (other.decision, other.member) == (verdict.decision, verdict.member):
            for one in other.margins:
                if (one.title, one.limit_is) == (margin.title, margin.limit_is):
                    return one
    return None
