"""A job's verdicts: for each decision and member the branch taken, what had a say in it, or what is wanting."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.compose.margins import blunt, margins, settles
from procgen.compose.paths import action_and_detail
from procgen.compose.readings import Readings, in_words
from procgen.compose.scope import CardScope
from procgen.compose.spoken import Bound, Speaker, axis_word
from procgen.formula import Cell, State
from procgen.model.card import plain
from procgen.model.job import Override
from procgen.model.procedure import Decision, Reading
from procgen.model.verdict import CLEAR, CLOSE, OPEN, PERSON, WANTING, Verdict
from procgen.units.lists import listed


def verdicts(speaker: Speaker) -> Iterator[Verdict]:
    """Of every decision of the card that applies to this engine, in the order of the card."""
    scope = speaker.first
    for decision in scope.procedure.decisions.values():
        for bound in scope.indices(decision.each):
            there = scope.applies(decision.when, bound)
            if there.state is not State.NONE and there.value is not False:
                yield _verdict(decision, bound, there, speaker)


def _verdict(decision: Decision, bound: Bound, there: Cell, speaker: Speaker) -> Verdict:
    scope = speaker.first
    possible, waits = scope.possible(decision, bound)
    if there.state is not State.KNOWN:
        waits = (there, *waits)
    said = {b.id: action_and_detail(b, speaker, bound) for b in decision.branches}
    found = blunt(tuple(margins(decision, bound, possible[-1] if possible else "", speaker)))
    settled = len(possible) == 1 and there.state is State.KNOWN
    override = _override(scope, decision, bound)
    branches = (override.branch,) if override is not None else possible
    state = PERSON if override is not None else CLEAR if settled else _worst(waits)
    rule = " or ".join(said[id][0] for id in possible)
    return Verdict(
        card=scope.procedure.id,
        decision=decision.name,
        title=decision.title,
        each=axis_word(decision.each[0]) if decision.each else "",
        member=" ".join(bound.values()),
        state=state,
        outcomes=tuple((id, said[id][0]) for id in branches),
        detail=plain(said[branches[0]][1]) if state in (CLEAR, PERSON) else "",
        margins=found,
        waits_for=() if state in (CLEAR, PERSON, CLOSE) else tuple(_wanted(waits, speaker)),
        settles=(settles(found, _readings(scope)) or _follows(waits)) if state == CLOSE else "",
        by=override.by if override is not None else "",
        reason=override.reason if override is not None else "",
        against=rule if override is not None and possible != (override.branch,) else "",
    )


def _worst(waits: tuple[Cell, ...]) -> str:
    """What has to be mended first: a figure of the family, then a reading, then a closer look."""
    states = {cell.state for cell in waits}
    return OPEN if State.UNKNOWN in states else WANTING if State.WANTING in states else CLOSE


def _wanted(waits: tuple[Cell, ...], speaker: Speaker) -> Iterator[str]:
    """What to measure, where and with what; what the family has to state; each once.

    Not what was read already, too close to its limit: that is looked at again when all is there.
    """
    said: dict[str, None] = {}
    for cell in waits:
        if cell.state in (State.UNKNOWN, State.WANTING):
            said.update(dict.fromkeys(ask(name, speaker) for name in sorted(cell.because) if "/" not in name))
    yield from said


def ask(name: str, speaker: Speaker) -> str:
    """What is asked for where a verdict wants this name: a reading, its place and gauge; or a figure of the family."""
    meaning = speaker.first.lexicon.meanings.get(name)
    if meaning is None:
        return name
    if not isinstance(meaning.spec, Reading):
        return f"{next(iter(speaker.unstated([name])), meaning.title)}: not yet known of this family"
    reading = meaning.spec
    tools = speaker.first.bench.workshop.tools
    gauge = tools[reading.gauge.replace("_", "-")].name if reading.gauge.replace("_", "-") in tools else reading.gauge
    owner = speaker.first if meaning.card is None else speaker.first.bench.card(meaning.card.id)
    where = (reading.where, _depths(reading, owner), f"with {gauge}" if gauge else "")
    return ", ".join(part for part in (reading.title, *where) if part)


def _depths(reading: Reading, scope: CardScope) -> str:
    """The depths to measure at, as they stand in a job's file."""
    cell = None if reading.at is None else scope.cell(reading.at, {})
    if cell is None or cell.state is not State.KNOWN or not isinstance(cell.value, tuple):
        return ""
    depths = [f"{depth:g}" for depth in cell.value]
    return f"at {listed(depths)} mm below the deck" if depths else ""


def _follows(waits: tuple[Cell, ...]) -> str:
    """Where another verdict is too close: the readings that settle both."""
    names = sorted({in_words(name) for cell in waits for name in cell.because if cell.state is State.CLOSE})
    return f"follows from {', '.join(names)}, which must be measured again" if names else ""


def _override(scope: CardScope, decision: Decision, bound: Bound) -> Override | None:
    of = (scope.procedure.id, decision.name, dict(bound))
    made = [o for o in _readings(scope).job.overrides if (o.card, o.decision, dict(o.member)) == of]
    return made[-1] if made else None


def _readings(scope: CardScope) -> Readings:
    assert scope.bench.readings is not None
    return scope.bench.readings
