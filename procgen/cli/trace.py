"""`procgen trace CARD VALUE --family F`, or `--job JOB`: where a number comes from."""

from __future__ import annotations

import sys
from argparse import Namespace
from collections.abc import Collection, Mapping, Sequence

from procgen.cli import PROBLEMS, SOUND, USAGE
from procgen.cli.ways import sound_workshop
from procgen.compose import Bench, job_bench
from procgen.compose.card import speaker_for
from procgen.compose.origins import origin, walk
from procgen.compose.revision import figure_text
from procgen.compose.spoken import Speaker
from procgen.make.checking import Checked
from procgen.make.order import UnknownName, require
from procgen.model.card import Origin
from procgen.units.nearest import nearest


def run(words: Namespace) -> int:
    if words.job and words.variant:
        print("procgen trace: --variant goes with --family; a job has its own", file=sys.stderr)
        return USAGE
    checked = sound_workshop(words.workshop)
    if checked is None:
        return PROBLEMS
    try:
        require("card", words.card, checked.workshop.procedures)
        benches = _of_job(words, checked) if words.job else _of_family(words, checked)
        told: dict[str, list[str]] = {}  # variants that are told the same stand together
        for name, bench in benches.items():
            speaker = speaker_for(words.card, {name: bench})
            require("value", words.value, _values(words.value, speaker))
            members = _members(speaker, words.value)
            root = origin(words.value, speaker, _bound(words.of, members))
            lines = (f"{'  ' * depth}{line}" for depth, one in walk(root) for line in _lines(one))
            told.setdefault("\n".join(lines), []).append(name)
    except UnknownName as unknown:
        print(f"procgen trace: {unknown}", file=sys.stderr)
        return USAGE
    whose = next(iter(benches.values())).family.name
    for text, names in told.items():
        print(f"{whose} {', '.join(names)}".rstrip())
        print(text)
    if not words.of and any(members.values()):
        each, some = next((axis, found) for axis, found in members.items() if found)
        print(f"procgen trace: one for each {each.replace('_', ' ')}; `--of {some[0]}` tells of one", file=sys.stderr)
    return SOUND


def _of_family(words: Namespace, checked: Checked) -> Mapping[str, Bench]:
    """The family's, or one variant's alone, by the variant's name."""
    assert checked.context is not None
    require("family", words.family, checked.workshop.families)
    benches = checked.context.benches[words.family]
    if not words.variant:
        return benches
    names = {bench.variant.id: name for name, bench in benches.items() if bench.variant is not None}
    require("variant", words.variant, names)
    return {names[words.variant]: benches[names[words.variant]]}


def _of_job(words: Namespace, checked: Checked) -> Mapping[str, Bench]:
    """That of the engine on the stand, by the job's title."""
    require("job", words.job, checked.workshop.jobs)
    job = checked.workshop.jobs[words.job]
    return {job.title or job.id: job_bench(checked.workshop, job)}


def _values(asked: str, speaker: Speaker) -> Collection[str]:
    """Every name that the card's formulas can have; only the card's own values where what is asked is like none."""
    names = tuple(speaker.first.lexicon.names())
    return names if asked in names or nearest(asked, names) else tuple(speaker.first.procedure.values)


def _members(speaker: Speaker, value: str) -> dict[str, Sequence[str]]:
    """Of each axis that the value has one for."""
    return {axis: speaker.first.members(axis) for axis in speaker.first.axes(speaker.meaning(value))}


def _bound(asked: list[str], axes: Mapping[str, Sequence[str]]) -> dict[str, str]:
    """Which of its axes each member is of."""
    bound: dict[str, str] = {}
    for member in asked:
        require("member", member, [one for found in axes.values() for one in found])
        bound |= {axis: member for axis, found in axes.items() if member in found and axis not in bound}
    return bound


def _lines(one: Origin) -> list[str]:
    said = figure_text(one.figure)
    how = f" = {one.formula}" if one.formula else ""
    lines = [f"{one.name}{how}", f"    {one.title}: {said}"]
    if one.source:
        lines.append(f"    {one.source}")
    return [*lines, f"    {one.place}"]
