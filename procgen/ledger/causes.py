"""Superseded cards by what superseded them: one change behind twelve cards is told once.

A value that is worked out from another that changed follows from it, and so does a text in which nothing changed but
the figures of a value.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from procgen.compose.origins import walk
from procgen.ledger.change import Change
from procgen.ledger.standing import Hung
from procgen.model.card import Card, Origin
from procgen.values import dataclass


@dataclass(frozen=True, slots=True)
class Cause:
    """`follows`: the changes that come of it; `hung`: the cards that either is on."""

    change: Change
    follows: tuple[Change, ...]
    hung: tuple[Hung, ...]


def causes(superseded: Iterable[Hung]) -> tuple[Cause, ...]:
    """What changed, the most cards first. A card stands under each cause that it has."""
    by_family: dict[str, list[Hung]] = {}
    for one in superseded:
        by_family.setdefault(one.noted.family, []).append(one)
    hung: dict[Change, list[Hung]] = {}
    follows: dict[Change, dict[Change, None]] = {}
    for family in by_family.values():
        roots = _roots(family)
        for one in family:
            for change in one.changes or ():
                root = roots.get(change, change)
                if one not in hung.setdefault(root, []):
                    hung[root].append(one)
                if root != change:
                    follows.setdefault(root, {})[change] = None
    found = (Cause(root, tuple(follows.get(root, ())), tuple(cards)) for root, cards in hung.items())
    return tuple(sorted(found, key=lambda cause: -len(cause.hung)))


def _roots(family: list[Hung]) -> Mapping[Change, Change]:
    """Of one family's changes, those that follow from another, with the first in the chain."""
    above = dict(_above(family))
    roots = {}
    for change in above:
        root = change
        while root in above and above[root] != change:
            root = above[root]
        roots[change] = root
    return roots


def _above(family: list[Hung]) -> Iterator[tuple[Change, Change]]:
    """Of changes, another that stands behind them."""
    values = {change: origin for one in family for change, origin in _values(one)}
    by_spec = {_spec(origin): change for change, origin in values.items() if origin is not None}
    for change, origin in values.items():
        behind = next((by_spec[spec] for spec in _behind(origin) if by_spec.get(spec, change) != change), None)
        if behind is not None:
            yield change, behind
    for change in dict.fromkeys(change for one in family for change in one.changes or ()):
        if change not in values and change.figures:
            cause = next((value for value in values if change.figures <= value.figures), None)
            if cause is not None:
                yield change, cause


def _values(one: Hung) -> Iterator[tuple[Change, Origin | None]]:
    """The changed values of a card, each with where it comes from."""
    if one.card is None:
        return
    known = {origin.name: origin for origin in _origins(one.card)}
    rows = {row.label: known.get(row.name) for step in one.card.steps for row in step.rows}
    for change in one.changes or ():
        if change.kind == "value":
            yield change, rows.get(change.what)


def _origins(card: Card) -> Iterator[Origin]:
    for root in card.origins.values():
        yield from (origin for _, origin in walk(root))


def _behind(origin: Origin | None) -> Iterator[tuple[str, str]]:
    """What a value is worked out from, the nearest first."""
    if origin is not None:
        yield from (_spec(part) for depth, part in walk(origin) if depth)


def _spec(origin: Origin) -> tuple[str, str]:
    """The same from whichever card it is looked at: what a value is called differs, where it is written does not."""
    return origin.title, origin.place
