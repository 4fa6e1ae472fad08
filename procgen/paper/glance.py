"""What a glance card says: of a whole card its limits and decisions, a face each decision, to be read from afar.

It may say less than the card, never other than the card: the last branches of a decision may be folded into
"otherwise: Ask", or all of them into "Full card", since the first branch that holds is the one that is taken; none in
the middle is left out, none is shortened. Steps, cautions, reasons and holds stand on the full card, which hangs behind
it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from procgen.draw.fonts import HEAD, SUB, TEXT
from procgen.model.card import Arm, Card, Conclusion, Path, Prose, Row, Shop, plain
from procgen.paper.content import Said, row_said

ROWS = 7
"""Limits and branches on a face at most: more are not taken in at a glance."""

ASK = Arm("ask", (), "Ask", ())
FULL = Arm("full", (), "Full card", ())
"""Stands alone where not even a decision's first branch has room, so that nobody takes the card for one without it."""


@dataclass(frozen=True)
class View:
    """One face. `path`: its decision, branches without their details; `only_if`: what its step waits on."""

    key: str
    limits: tuple[Row, ...] = ()
    settled: tuple[Conclusion, ...] = ()
    path: Path | None = None
    only_if: Prose = ()

    @property
    def rows(self) -> int:
        """Beside the branches."""
        return len(self.limits) + len(self.settled)


def views(card: Card) -> tuple[View, ...]:
    """In the order of work: limits and what the layout settles stand with the decision that follows them."""
    found: list[View] = []
    limits: list[Row] = []
    settled: list[Conclusion] = []
    for step in card.steps:
        limits += [row for row in step.rows if any(one.relation and one.state == "known" for one in row.figures)]
        for number, decision in enumerate(step.decisions, start=1):
            key = f"{step.id}-{number}"
            if isinstance(decision, Conclusion):
                settled.append(decision)
                continue
            arms = tuple(replace(arm, detail=()) for arm in decision.arms)
            found += _without_path(f"{key}-before", limits, settled, ROWS - 2)
            path = replace(decision, arms=arms)
            found.append(View(key, tuple(limits), tuple(settled), path, step.only_if))
            limits, settled = [], []
    found += _without_path("rest", limits, settled, 0)
    return tuple(found)


def _without_path(key: str, limits: list[Row], settled: list[Conclusion], keep: int) -> Iterator[View]:
    """Faces of limits alone, taken from the lists until no more than `keep` rows are left."""
    number = 0
    while len(limits) + len(settled) > keep:
        number += 1
        some, limits[:ROWS] = tuple(limits[:ROWS]), []
        count = ROWS - len(some)
        others, settled[:count] = tuple(settled[:count]), []
        yield View(f"{key}{number}", some, others)


def apart(view: View) -> tuple[View, ...]:
    """Its limits on a face of their own, then its decision."""
    alone = replace(view, key=f"{view.key}-before", path=None, only_if=())
    return alone, replace(view, limits=(), settled=())


@dataclass(frozen=True)
class Shown:
    """A view as it goes on its face: so many of its branches, the rest folded where there are more."""

    view: View
    arms: int

    @property
    def folded(self) -> int:
        return len(self.view.path.arms) - self.arms if self.view.path else 0

    @property
    def rest(self) -> Arm:
        """What stands for the branches that are folded."""
        return ASK if self.arms else FULL


def fold(view: View, heights: Mapping[str, float], room: float) -> Shown:
    """As many branches from the first as the face holds, mm; where that is not all, with a row that says to ask."""
    if view.path is None:
        return Shown(view, 0)
    count, room = len(view.path.arms), room - heights[f"{view.key}/head"]
    each = [heights[f"{view.key}/{n}"] for n in range(1, count + 1)]
    if count + view.rows <= ROWS and sum(each) <= room:
        return Shown(view, count)
    room -= heights[f"{view.key}/ask"]
    arms = count - 1
    while arms and (arms + 1 + view.rows > ROWS or sum(each[:arms]) > room):
        arms -= 1
    return Shown(view, arms)


def said(card: Card, shop: Shop, shown: tuple[Shown, ...]) -> Iterator[Said]:
    """What must stand on its faces."""
    yield Said(card.title, HEAD)
    yield Said(card.family_name, SUB)
    for one in shown:
        view = one.view
        for row in view.limits:
            yield from row_said(row, view.key)
        for conclusion in view.settled:
            yield Said(conclusion.title, SUB, view.key)
            yield Said(conclusion.action, HEAD, view.key)
        if view.path is None:
            continue
        for text in (plain(view.only_if), view.path.title, view.path.each):
            yield Said(text, SUB, view.key)
        for arm in (*view.path.arms[: one.arms], *((one.rest,) if one.folded else ())):
            yield Said(arm.action, HEAD, view.key)
            for clauses in arm.conditions:
                for clause in clauses:
                    yield Said(plain(clause), TEXT, view.key)
    for text in (shop.name, card.address, card.revision):
        yield Said(text, TEXT)
