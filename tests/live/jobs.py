"""Jobs as the page keeps and writes them, filled at random; and as the command line reads them."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from random import Random
from typing import Any

from procgen.compose import judge
from procgen.files.checking import schema_problems
from procgen.files.quantities import bare_units
from procgen.files.reading import read
from procgen.formula import names
from procgen.load.job import RESERVED, load_job
from procgen.load.names import schemas
from procgen.load.reader import Reader
from procgen.model.family import Family
from procgen.model.job import Job
from procgen.model.procedure import Procedure, Reading
from procgen.model.verdict import Judged
from procgen.model.workshop import Workshop

Content = dict[str, Any]
UNITS = {
    "length": "mm",
    "angle": "°",
    "pressure": "kPa",
    "temperature": "°C",
    "temperature_difference": "K",
    "number": "",
}
SPREAD = {
    "length": 40.0,
    "angle": 90.0,
    "pressure": 120.0,
    "temperature": 30.0,
    "temperature_difference": 4.0,
    "number": 12.0,
}
WITHIN = ("depth", "axis")


def random_job(random: Random, workshop: Workshop, family: Family, cards: list[str], full: float) -> Content:
    """A job with a session for each card; a reading is taken with the chance `full`."""
    variant = random.choice(family.variants).id if family.variants else None
    sessions = [session(random, workshop, family, workshop.procedures[card], full) for card in cards]
    return {
        "id": "made-up",
        "family": family.id,
        "variant": variant,
        "build": random.choice(family.variants).id if family.variants else None,
        "gauges": {},
        "sessions": sessions,
        "overrides": list(_overrides(random, workshop, family)),
    }


def _overrides(random: Random, workshop: Workshop, family: Family) -> Iterator[Content]:
    """Now and then a person decides."""
    for card in workshop.procedures.values():
        for decision in card.decisions.values():
            if random.random() < 0.1 and all(family.members.get(axis) for axis in decision.each):
                member = {axis: random.choice(list(family.members[axis])) for axis in decision.each}
                head = {
                    "decision": f"{card.id}/{decision.name}",
                    **member,
                    "branch": random.choice(decision.branches).id,
                }
                yield {**head, "by": "M. Widgeon", "reason": "Shells are on the shelf."}


def session(random: Random, workshop: Workshop, family: Family, card: Procedure, full: float) -> Content:
    readings: Content = {}
    gauges = {}
    for reading in card.readings.values():
        fitting = [gauge.id for gauge in workshop.gauges.values() if reading.gauge and gauge.kind == reading.gauge]
        if fitting and random.random() < 0.7:
            gauges[reading.name] = random.choice(fitting)
        above = [axis for axis in reading.each if axis not in WITHIN]
        for member in family.members.get(above[0], {}) if above else (None,):
            within = [axis for axis in reading.each if axis in WITHIN]
            leaf = _leaf(random, reading, within, full, _near(reading, family, member))
            if leaf is None:
                continue
            if member is None:
                readings[reading.name] = leaf
            else:
                readings.setdefault(above[0], {}).setdefault(member, {})[reading.name] = leaf
    return {"id": f"{card.id}-1", "card": card.id, "gauge": gauges, "readings": readings}


def _near(reading: Reading, family: Family, member: str | None) -> float | None:
    """What the reading is expected near, where the family states it; about that where it is worked out."""
    if reading.expect is None:
        return None
    name = next(iter(names(reading.expect.near.tree)))
    axis, _, key = name.partition(".")
    fact = family.members.get(axis, {}).get(member or "", {}).get(key) or family.fact(name)
    return None if fact is None or fact.value is None else float(getattr(fact.value, "value", 0.0))


def _leaf(random: Random, reading: Reading, axes: list[str], full: float, near: float | None) -> Any:
    if axes:
        members = ["3", "6.5", "20", "45", "80", "110", "131"] if axes[0] == "depth" else list(reading.axis)
        found = {member: _leaf(random, reading, axes[1:], full, near) for member in members}
        return {member: leaf for member, leaf in found.items() if leaf is not None} or None
    if random.random() > full:
        return None
    if reading.choices:
        return random.choice(list(reading.choices)[:: random.choice((1, -1))][: random.choice((1, 1, 9))])
    value = _value(random, reading, near)
    leaf = f"{value} {UNITS[reading.dimension]}".strip()
    return {"is": leaf, "because": "read twice"} if random.random() < 0.05 else leaf


def _value(random: Random, reading: Reading, near: float | None) -> str:
    if reading.dimension == "number":
        return str(random.randint(0, 14))
    if near is not None and random.random() < 0.95:
        return f"{near + random.choice((0.0, 0.01, 0.05, 0.4)) * random.random():.3f}"
    return (
        f"{random.choice((1.0, 0.01, 0.1)) * SPREAD[reading.dimension] * random.random():.{random.choice((1, 2, 3))}f}"
    )


def from_file(text: str) -> Content:
    """A job's file as the page keeps it: every figure with its unit, readings apart from the rest of a session."""
    document, _ = read("procedures/jobs/job.yaml", text.encode())
    assert document is not None
    found = _plain(document.data)
    sessions = []
    for session in found.get("sessions", []):
        own = {key: value for key, value in session.items() if key in RESERVED}
        sessions.append({**own, "readings": {key: value for key, value in session.items() if key not in RESERVED}})
    kept = {key: value for key, value in found.items() if key not in ("format", "units")}
    return {"gauges": {}, "overrides": [], **kept, "sessions": sessions}


def _plain(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _plain(part) for key, part in value.items()}
    if isinstance(value, list):
        return [_plain(part) for part in value]
    return getattr(value, "text", value)


def as_file(job: Content) -> str:
    """The job in its file's form, as JSON, which is YAML too."""
    sessions = [
        {key: value for key, value in one.items() if key != "readings"} | one["readings"] for one in job["sessions"]
    ]
    return json.dumps({"format": "job/1", **job, "sessions": sessions}, ensure_ascii=False)


def loaded(text: str, workshop: Workshop) -> Job:
    document, problems = read("procedures/jobs/made-up.yaml", text.encode())
    assert document is not None, problems
    problems = (*problems, *schema_problems(document, schemas()))
    assert not problems, [(problem.message, problem.place) for problem in problems]
    at = document.root()
    reader = Reader(bare_units(document, schemas()))
    job = load_job(at, reader, workshop)
    assert job is not None
    assert not reader.problems, reader.problems
    return job


def judged(job: Job, workshop: Workshop) -> Judged:
    return judge(replace(workshop, jobs={job.id: job}), job)
