"""Drawings set narrower where that saves a face: a large drawing is good, a card with fewer faces is better."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from procgen.model.card import Card
from procgen.paper.pack import Part, Plan, Room, pack

SHARES = (0.85, 0.7)
"""Of the width there is. Narrower still and lettering crowds what it names."""

_HEIGHT = re.compile(r'\bheight="([\d.]+)mm"')

Drawings = Mapping[str, str]


def narrowed(
    card: Card, parts: Sequence[Part], room: Room, plan: Plan, drawings: Drawings, draw: Callable[[float], Drawings]
) -> tuple[tuple[Part, ...], Plan, Drawings] | None:
    """The card's parts with narrower drawings, where those take fewer faces than `plan`; None where they do not.

    `draw`: all of them for a share of the width; what has no room so is left out. Nothing is drawn unless it may help.
    """
    keys = {
        f"{step.id}/drawing{number}": key
        for step in card.steps
        for number, key in enumerate((one for one in step.drawings if one in drawings), start=1)
    }
    if not keys or pack(_less(parts, dict.fromkeys(keys, SHARES[-1])), room).faces >= plan.faces:
        return None
    for share in SHARES:
        new = draw(share)
        if new.keys() != drawings.keys():
            continue
        less = {key: _height(new[drawing]) - _height(drawings[drawing]) for key, drawing in keys.items()}
        found = _packed(parts, less, room)
        if found[1].faces >= plan.faces or len(found[1].tall) > len(plan.tall):
            continue
        for key in keys:  # whatever need not be narrower is as it was
            fewer = {other: by for other, by in less.items() if other != key}
            again = _packed(parts, fewer, room)
            if again[1].faces == found[1].faces:
                less, found = fewer, again
        return *found, {key: new[key] if at in less else drawings[key] for at, key in keys.items()}
    return None


def _packed(parts: Sequence[Part], less: Mapping[str, float], room: Room) -> tuple[tuple[Part, ...], Plan]:
    smaller = tuple(replace(part, height=part.height + less.get(part.key, 0.0)) for part in parts)
    return smaller, pack(smaller, room)


def _less(parts: Sequence[Part], shares: Mapping[str, float]) -> list[Part]:
    return [replace(part, height=part.height * shares.get(part.key, 1.0)) for part in parts]


def _height(svg: str) -> float:
    found = _HEIGHT.search(svg)
    return float(found.group(1)) if found else 0.0
