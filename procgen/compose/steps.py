"""A card's steps for one family: those that apply, numbered, with all that hangs on them."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.compose.parts import box, grid, station_rows, value_rows
from procgen.compose.paths import decision_item
from procgen.compose.prose import prose, sentence_and_rest
from procgen.compose.scenes import scenes_of
from procgen.compose.spoken import Speaker
from procgen.compose.wording import CardWording, one_line
from procgen.files.text import Text
from procgen.formula import Cell
from procgen.formula.fold import simplified
from procgen.model.card import Grid, Panel, Prose, Row, Run, StepItem
from procgen.model.formula import Among, Expr, Formula, Name
from procgen.model.procedure import CautionRef, Decision, Reading, Step


def step_items(speaker: Speaker) -> Iterator[StepItem]:
    number = 0
    before: Prose = ()
    for step in speaker.first.procedure.steps:
        waits = waits_on(step.when, speaker)
        if waits is not None:
            number += 1
            said = (Run("If so:"),) if waits == before else (Run("If "), *waits, Run(":"))
            yield _item(step, number, said if waits else (), speaker)
            before = waits


def waits_on(when: Formula | None, speaker: Speaker) -> Prose | None:
    """None where the family's layout excludes it; else what it still depends on, () for nothing.

    What depends on a trait that is not yet known stands: leaving it out could cost the engine.
    """
    if when is None:
        return ()
    left = [simplified(when.tree, scope) for scope in speaker.scopes.values()]
    if all(isinstance(one, Cell) and not one.holds for one in left):
        return None
    waiting = next((one for one in left if not isinstance(one, Cell)), None)
    return () if waiting is None else _said(waiting, speaker)


def _said(tree: Expr, speaker: Speaker) -> Prose:
    """A condition as a step's first words: of a decision the outcome alone, which the reader has just come to."""
    if isinstance(tree, Among) and isinstance(tree.of, Name) and not tree.negated:
        name = tree.of.name
        if isinstance(speaker.meaning(name).spec, Decision):
            wording = CardWording(speaker)
            outcomes = " or ".join(f"“{wording.choice_word(name, word)}”" for word in tree.words)
            return (Run(outcomes),)
    return one_line(tree, speaker)


def panels(refs: tuple[CautionRef, ...], step: str, speaker: Speaker) -> tuple[Panel, ...]:
    known = speaker.first.bench.workshop.cautions
    found = [known[ref.id] for ref in refs if ref.id in known]
    return tuple(Panel(c.id, c.level, c.symbols, c.hazard, c.consequence, c.avoid, c.defers_to, step) for c in found)


def _item(step: Step, number: int, only_if: Prose, speaker: Speaker) -> StepItem:
    action, detail = sentence_and_rest(prose(step.do.value, speaker.fill))
    card = speaker.first.procedure
    readings = [card.readings[name] for name, _ in step.read if name in card.readings]
    readings = [reading for reading in readings if _is_taken(reading, speaker)]
    decisions = (decision_item(card.decisions[name], speaker) for name, _ in step.decide if name in card.decisions)
    rows = [row for name, _ in step.show for row in value_rows(name, speaker)]
    return StepItem(
        id=step.id,
        number=number,
        action=action,
        detail=detail,
        only_if=only_if,
        right=_text(step.right, speaker),
        because=_text(step.because, speaker),
        panels=panels(step.cautions, step.id, speaker),
        rows=(*rows, *_stations(readings, speaker)),
        grids=_grids(step, speaker),
        boxes=tuple(box(reading, speaker, speaker.first.bench.workshop.tools) for reading in readings),
        decisions=tuple(decision for decision in decisions if decision is not None),
        drawings=tuple(scene.id for scene in scenes_of(step.drawing, speaker)),
    )


def _is_taken(reading: Reading, speaker: Speaker) -> bool:
    """Whether this family has anything to take it of."""
    there = next(speaker.first.indices(reading.each), None)
    return there is not None and waits_on(reading.when, speaker) is not None


def _grids(step: Step, speaker: Speaker) -> tuple[Grid, ...]:
    there = step.table is not None and speaker.first.members(step.table.each)
    return (grid(step.table, speaker),) if step.table is not None and there else ()


def _stations(readings: list[Reading], speaker: Speaker) -> Iterator[Row]:
    for reading in readings:
        yield from station_rows(reading, speaker)


def _text(text: Text | None, speaker: Speaker) -> Prose:
    return () if text is None else prose(text.value, speaker.fill)
