"""Which of a card's values can say where they come from, and beside what they say it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from procgen.model.card import Card, Origin, Row


def of_row(card: Card, row: Row) -> Origin | None:
    """The origin of what a row shows: the card's own value, or an input of one."""
    if row.name in card.origins:
        return card.origins[row.name]
    return next((o for root in card.origins.values() for o in _below(root) if o.name == row.name), None)


def others(card: Card) -> tuple[Origin, ...]:
    """The values that the card works by and shows on no row, in the card's order."""
    shown = {row.name for step in card.steps for row in step.rows}
    return tuple(origin for name, origin in card.origins.items() if name not in shown)


def is_first(card: Card, row: Row) -> bool:
    """Whether this is the first of the card's rows of that name, to which others link."""
    return next(r for step in card.steps for r in step.rows if r.name == row.name) is row


def told_once(origin: Origin, card: Card) -> Origin:
    """The same without repeats: an input that the card explains elsewhere goes no deeper, a second time is a name."""
    told: set[str] = set()

    def once(part: Origin) -> Origin:
        if part.name in told:
            return replace(part, formula="", source="", place="", inputs=())
        told.add(part.name)
        inputs = () if part is not origin and part.name in card.origins else part.inputs
        return replace(part, inputs=tuple(once(below) for below in inputs))

    return once(origin)


def _below(origin: Origin) -> Iterator[Origin]:
    for part in origin.inputs:
        yield part
        yield from _below(part)
