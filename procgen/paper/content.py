"""Every text that a card says, with the family that it is set in: what the fonts must cover and the faces must hold."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from procgen.draw.fonts import FIGURE, HEAD, SUB, TEXT
from procgen.model.card import Box, Card, Conclusion, Figure, Grid, Panel, Path, Row, Shop, plain
from procgen.model.scene import Scene


@dataclass(frozen=True)
class Said:
    """`step`: the id of the step that says it, "" where none does."""

    text: str
    family: str
    step: str = ""


def said(card: Card, shop: Shop) -> Iterator[Said]:
    """In reading order."""
    yield Said(card.title, HEAD)
    yield Said(card.question, SUB)
    yield Said(card.family_name, SUB)
    for text in (card.family_describe, plain(card.reason), *card.bring, *card.missing, *card.record):
        yield Said(text, TEXT)
    for panel in card.panels:
        yield from _panel(panel, "")
    for step in card.steps:
        for panel in step.panels:
            yield from _panel(panel, step.id)
        for prose in (step.action, step.detail, step.right, step.because):
            yield Said(plain(prose), TEXT, step.id)
        for row in step.rows:
            yield from row_said(row, step.id)
        for box in step.boxes:
            yield from _box(box, step.id)
        for grid in step.grids:
            yield from _grid(grid, step.id)
        for decision in step.decisions:
            yield from _path(decision, step.id) if isinstance(decision, Path) else _conclusion(decision, step.id)
    if card.hold:
        yield Said(plain(card.hold.text), TEXT)
        for signer in card.hold.signers:
            yield Said(signer, TEXT)
    approved = (shop.approved_by, shop.approved_on) if shop.approved_by else ()
    for text in (shop.name, *approved, card.address, card.revision):
        yield Said(text, TEXT)


def drawn(card: Card) -> Iterator[Said]:
    """What is written in the drawings: any of it may be set as a figure or as words."""
    for step in card.steps:
        for key in step.drawings:
            scene = card.scenes.get(key)
            if isinstance(scene, Scene):
                for text in scene.texts():
                    yield Said(text, TEXT, step.id)
                    yield Said(text, FIGURE, step.id)


def _panel(panel: Panel, step: str) -> Iterator[Said]:
    yield Said(panel.level, TEXT if panel.level == "NOTICE" else HEAD, step)
    for text in (panel.hazard, panel.consequence, panel.avoid, panel.defers_to.rstrip(".")):
        yield Said(text, TEXT, step)


def _figure(figure: Figure, step: str) -> Iterator[Said]:
    if figure.state == "known":
        yield Said(figure.relation, FIGURE, step)
        yield Said(figure.text, FIGURE, step)
        yield Said(figure.also, TEXT, step)
    for text in (figure.unit if figure.state != "none" else "", figure.variant):
        yield Said(text, TEXT, step)


def row_said(row: Row, step: str) -> Iterator[Said]:
    yield Said(row.label, TEXT, step)
    for figure in row.figures:
        yield Said(figure.note, TEXT, step)
        yield from _figure(figure, step)


def _grid(grid: Grid, step: str) -> Iterator[Said]:
    yield Said(grid.title, SUB, step)
    for text in grid.head:
        yield Said(text, SUB, step)
    for member, figures in grid.rows:
        yield Said(member, TEXT, step)
        for figure in figures:
            yield from _figure(figure, step)


def _box(box: Box, step: str) -> Iterator[Said]:
    words = (words for _, words in box.choices)
    for text in (box.title, box.member_word, box.unit, box.gauge, *box.stations, box.expect, *words):
        yield Said(text, TEXT, step)
    for text in (box.where, box.how, *(words for _, words in box.axes)):
        yield Said(text[1:].rstrip("."), TEXT, step)  # its first letter may become a capital


def _path(path: Path, step: str) -> Iterator[Said]:
    yield Said(path.title, SUB, step)
    yield Said(path.each, SUB, step)
    for text in path.waits_for:
        yield Said(text, TEXT, step)
    for arm in path.arms:
        for clauses in arm.conditions:
            for clause in clauses:
                yield Said(plain(clause), TEXT, step)
        yield Said(arm.action, HEAD, step)
        yield Said(plain(arm.detail), TEXT, step)


def _conclusion(conclusion: Conclusion, step: str) -> Iterator[Said]:
    yield Said(conclusion.title, SUB, step)
    yield Said(conclusion.action, HEAD, step)
    yield Said(plain(conclusion.detail), TEXT, step)
    yield Said(conclusion.because, TEXT, step)
