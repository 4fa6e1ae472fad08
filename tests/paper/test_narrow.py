"""Drawings that give way where that saves a face, and only there."""

from __future__ import annotations

from dataclasses import replace

from samples import PARTIAL

from procgen.model.card import Card
from procgen.paper.narrow import Drawings, narrowed
from procgen.paper.pack import Part, Room, pack

ROOM = Room(first=100.0, later=100.0, arrow=0.0)
CARD: Card = replace(
    PARTIAL,
    steps=(replace(PARTIAL.steps[0], id="a", drawings=("one",)), replace(PARTIAL.steps[0], id="b", drawings=("two",))),
)


def _drawings(*heights: float) -> Drawings:
    return {
        key: f'<svg width="80mm" height="{height:.2f}mm">' for key, height in zip(("one", "two"), heights, strict=True)
    }


def _parts(*heights: float) -> tuple[Part, ...]:
    keys = ("a/words", "a/drawing1", "b/words", "b/drawing1")
    return tuple(Part(key, height) for key, height in zip(keys, heights, strict=True))


def _try(parts: tuple[Part, ...], full: Drawings, less: Drawings) -> object:
    return narrowed(CARD, parts, ROOM, pack(parts, ROOM), full, lambda share: less)


def test_a_face_is_saved() -> None:
    found = narrowed(
        CARD,
        _parts(25, 50, 20, 25),
        ROOM,
        pack(_parts(25, 50, 20, 25), ROOM),
        _drawings(50, 25),
        lambda share: _drawings(50 * share, 25 * share),
    )
    assert found is not None
    parts, plan, drawings = found
    assert plan.faces == 1
    assert sum(part.height for part in parts) <= ROOM.first
    assert drawings.keys() == {"one", "two"}


def test_what_need_not_be_narrower_stays() -> None:
    """The first step fills a face of its own: only the second drawing lets its words in."""
    parts = _parts(40, 50, 55, 50)
    full, less = _drawings(50, 50), _drawings(35, 35)
    found = narrowed(CARD, parts, ROOM, pack(parts, ROOM), full, lambda share: less)
    assert pack(parts, ROOM).faces == 3
    assert found is not None
    assert found[1].faces == 2
    assert found[2] == {"one": full["one"], "two": less["two"]}


def test_nothing_is_drawn_where_it_cannot_help() -> None:
    def never(share: float) -> Drawings:
        raise AssertionError(share)

    parts = _parts(10, 20, 10, 20)
    assert narrowed(CARD, parts, ROOM, pack(parts, ROOM), _drawings(20, 20), never) is None
    parts = _parts(90, 90, 90, 90)
    assert narrowed(CARD, parts, ROOM, pack(parts, ROOM), _drawings(90, 90), never) is None


def test_a_drawing_that_has_no_room_so_stays_as_it_is() -> None:
    parts = _parts(25, 50, 20, 25)
    assert _try(parts, _drawings(50, 25), {"one": '<svg height="30mm">'}) is None
