"""A card's steps for one family: those that apply, numbered, with all that hangs on them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from procgen.compose.parts import box, grid, station_rows, value_rows
from procgen.compose.paths import decision_item
from procgen.compose.prose import prose, sentence_and_rest
from procgen.compose.scenes import scenes_of
from procgen.compose.spoken import Speaker
from procgen.compose.wording import only_if_said, waits_on
from procgen.files.text import Text
from procgen.model.card import Box, Grid, Panel, Prose, Row, Run, StepItem
from procgen.model.procedure import CautionRef, Reading, Step


def step_items(speaker: Speaker) -> Iterator[StepItem]:
    """Those that apply, numbered from 1. What only holds as the step before does is said as "If so"."""
    number = 0
    before: Prose = ()
    for step in speaker.first.procedure.steps:
        waits = waits_on(step.when, speaker)
        if waits is not None:
            number += 1
            said = (Run("If so:"),) if waits == before else (Run("If "), *waits, Run(":"))
            yield replace(_item(step, number, waits, speaker), only_if=said if waits else ())
            before = waits


def panels(refs: tuple[CautionRef, ...], step: str, speaker: Speaker) -> tuple[Panel, ...]:
    known = speaker.first.bench.workshop.cautions
    found = [known[ref.id] for ref in refs if ref.id in known]
    return tuple(Panel(c.id, c.level, c.symbols, c.hazard, c.consequence, c.avoid, c.defers_to, step) for c in found)


def _item(step: Step, number: int, waits: Prose, speaker: Speaker) -> StepItem:
    """`waits`: what the whole step waits on, which nothing in it needs to say again."""
    action, detail = sentence_and_rest(prose(step.do.value, speaker.fill))
    card = speaker.first.procedure
    readings = [card.readings[name] for name, _ in step.read if name in card.readings]
    readings = [reading for reading in readings if _is_taken(reading, speaker)]
    decisions = (
        decision_item(card.decisions[name], speaker, waits) for name, _ in step.decide if name in card.decisions
    )
    rows = [row for name, _ in step.show for row in value_rows(name, speaker)]
    return StepItem(
        id=step.id,
        number=number,
        action=action,
        detail=detail,
        right=_text(step.right, speaker),
        because=_text(step.because, speaker),
        panels=panels(step.cautions, step.id, speaker),
        rows=(*rows, *_stations(readings, speaker)),
        grids=_grids(step, speaker),
        boxes=tuple(_box(reading, waits, speaker) for reading in readings),
        decisions=tuple(decision for decision in decisions if decision is not None),
        drawings=tuple(scene.id for scene in scenes_of(step.drawing, speaker)),
    )


def _is_taken(reading: Reading, speaker: Speaker) -> bool:
    """Whether this family has anything to take it of."""
    there = next(speaker.first.indices(reading.each), None)
    return there is not None and waits_on(reading.when, speaker) is not None


def _box(reading: Reading, waits: Prose, speaker: Speaker) -> Box:
    found = box(reading, speaker, speaker.first.bench.workshop.tools)
    only_if = only_if_said(reading.when, speaker, waits, reading.each)
    return replace(found, title=f"{found.title}, {only_if}") if only_if else found


def _grids(step: Step, speaker: Speaker) -> tuple[Grid, ...]:
    there = step.table is not None and speaker.first.members(step.table.each)
    return (grid(step.table, speaker),) if step.table is not None and there else ()


def _stations(readings: list[Reading], speaker: Speaker) -> Iterator[Row]:
    for reading in readings:
        yield from station_rows(reading, speaker)


def _text(text: Text | None, speaker: Speaker) -> Prose:
    return () if text is None else prose(text.value, speaker.fill)
