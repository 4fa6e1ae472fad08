"""What a card says, as plain text in reading order, and the short code of it.

The one dump serves the revision, the golden tests, compare and the search. Not in it: stock, theme, type size,
approval, dates, the site's address, library versions.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator

from procgen.compose.scenes import dump_scene
from procgen.model.card import Arm, Box, Card, Conclusion, Figure, Grid, Panel, Path, Row, StepItem, plain

ALPHABET = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ"
"""32 signs without 0, O, 1 and I: a code is read aloud and written with a marker."""

LENGTH = 5  # 33 million codes: enough for one wall, short enough to compare by eye


def revision(card: Card) -> str:
    """The code of what the card says: the same on every machine."""
    return code_of(said(card))


def said(card: Card) -> str:
    """The whole dump as one text."""
    return "\n".join(dump(card))


def code_of(text: str) -> str:
    number = int.from_bytes(hashlib.blake2b(text.encode(), digest_size=8).digest(), "big")
    code = ""
    for _ in range(LENGTH):
        number, sign = divmod(number, len(ALPHABET))
        code += ALPHABET[sign]
    return code


def dump(card: Card) -> Iterator[str]:
    """The card's lines in reading order. Figures stand as shown; what is to be filled in stands as `[ ]`."""
    yield f"{card.family_name}, {card.family_describe}"
    yield f"{card.title}: {card.question}"
    yield f"stage {card.stage.number} of {card.stage.total} {card.stage.name}"
    yield f"reason: {plain(card.reason)}"
    if card.bring:
        yield "bring: " + ", ".join(card.bring)
    for panel in card.panels:
        yield from _panel(panel)
    for step in card.steps:
        yield from _step(step)
        for drawing in step.drawings:
            yield from dump_scene(card.scenes[drawing])
    if card.hold is not None:
        yield f"HOLD {plain(card.hold.text)} [{', '.join(card.hold.signers)}]"
    if card.record:
        yield "record: " + ", ".join(card.record)
    for what in card.missing:
        yield f"not yet known: {what}"


def _panel(panel: Panel) -> Iterator[str]:
    says = (panel.hazard, panel.consequence, panel.avoid, f"({panel.defers_to})")
    yield f"{panel.level} {' '.join(panel.symbols)}: {' '.join(says)}"


def _step(step: StepItem) -> Iterator[str]:
    for panel in step.panels:
        yield from _panel(panel)
    lead = f"{plain(step.only_if)} " if step.only_if else ""
    yield f"{step.number} {lead}{plain(step.action)} {plain(step.detail)}".rstrip()
    if step.right:
        yield f"  right: {plain(step.right)}"
    if step.because:
        yield f"  because: {plain(step.because)}"
    for row in step.rows:
        yield from _row(row)
    for grid in step.grids:
        yield from _grid(grid)
    for box in step.boxes:
        yield from _box(box)
    for decision in step.decisions:
        yield from _path(decision) if isinstance(decision, Path) else _conclusion(decision)


def figure_text(figure: Figure) -> str:
    """One figure in a line of text, as the revision, search and screen readers have it."""
    if figure.state in ("blank", "wanting"):
        said = f"[ ] {figure.unit}".rstrip()
    else:
        size = f"{figure.text}{' ' if figure.space else ''}{figure.unit}"
        said = " ".join(part for part in (figure.relation, size) if part)
    extras = [e for e in (f"({figure.also})" if figure.also else "", figure.note) if e]
    return " ".join([f"{figure.variant}:" if figure.variant else "", said, *extras]).strip()


def _row(row: Row) -> Iterator[str]:
    yield f"  {row.label}: " + "; ".join(map(figure_text, row.figures))


def _grid(grid: Grid) -> Iterator[str]:
    yield "  | " + " | ".join(grid.head)
    for name, figures in grid.rows:
        yield f"  | {name} | " + " | ".join(map(figure_text, figures))


def _box(box: Box) -> Iterator[str]:
    yield f"  read {box.title} [{box.unit or ' / '.join(words for _, words in box.choices)}]"
    whose = f"each {box.member_word}: {', '.join(box.members)}".rstrip(": ") if box.member_word else ""
    for part in (box.gauge, box.where, box.how, box.expect, whose):
        if part:
            yield f"    {part}"
    if box.stations:
        yield f"    at {', '.join(box.stations)} {box.stations_unit}"
    for _, words in box.axes:
        yield f"    {words}"


def _path(path: Path) -> Iterator[str]:
    yield f"  decide {path.title} {path.each}".rstrip()
    for arm in path.arms:
        yield f"    {_conditions(arm)} -> {arm.action} {plain(arm.detail)}".rstrip()
    for what in path.waits_for:
        yield f"    waits for {what}"


def _conditions(arm: Arm) -> str:
    together = (" and ".join(plain(clause) for clause in alternative) for alternative in arm.conditions)
    return " or ".join(together) or "otherwise"


def _conclusion(conclusion: Conclusion) -> Iterator[str]:
    yield f"  concluded {conclusion.title}: {conclusion.action} {plain(conclusion.detail)} ({conclusion.because})"
