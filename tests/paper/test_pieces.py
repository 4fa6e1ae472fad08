"""A piece is laid out once, and is the same whatever was laid out with it or before it."""

from __future__ import annotations

from typing import Any

import pytest

from procgen.draw.fonts import Fonts
from procgen.paper.boxes import walk
from procgen.paper.engine import Engine
from procgen.paper.pieces import ENDLESS, PieceStore


class Layout:
    """The engine, with a note of what it was asked."""

    def __init__(self, fonts: Fonts) -> None:
        self._engine = Engine(fonts)
        self._sheet = self._engine.sheet(ENDLESS % 148 + "html { font-family: 'Card Text' } p { padding-top: 0.7mm }")
        self.asked = ""

    def __call__(self, html: str) -> Any:
        self.asked += html
        return self._engine.layout(html, self._sheet)


@pytest.fixture(scope="module")
def layout(fonts: Fonts) -> Layout:
    return Layout(fonts)


def document(*words: str) -> str:
    steps = "".join(f'<li id="{word}">\n<!-- piece --><p data-part="{word}">{word} {word}</p>\n</li>' for word in words)
    title, end = '<!-- piece --><p data-part="title">T</p>', "<!-- piece --><p>end</p>"
    return f"<html><body>\n{title}<ol>{steps}</ol>\n{end}</body></html>"


def _numbers(boxes: Any) -> list[Any]:
    return [
        (box.position_x, box.position_y, box.width, box.height, getattr(box, "baseline", None))
        for top in boxes
        for box in walk(top)
    ]


def test_all_come_in_reading_order_each_in_its_item(layout: Layout) -> None:
    pieces = PieceStore(layout).take(document("one", "two"))
    assert list(pieces.heights) == ["title", "one", "two"]
    assert [piece.item for piece in pieces.all] == [None, 0, 1, None]
    assert [item.element.get("id") for item in pieces.steps.children] == ["one", "two"]
    assert all(piece.height > 0 for piece in pieces.all)


def test_what_is_known_is_not_laid_out_again(layout: Layout) -> None:
    store = PieceStore(layout)
    store.take(document("one", "two"))
    layout.asked = ""
    assert list(store.take(document("two", "three", "one")).heights) == ["title", "two", "three", "one"]
    assert "three three" in layout.asked
    assert "one one" not in layout.asked
    assert "two two" not in layout.asked


def test_other_words_are_another_piece(layout: Layout) -> None:
    store = PieceStore(layout)
    store.take(document("one"))
    layout.asked = ""
    store.take(document("one").replace("one one", "another"))
    assert "another" in layout.asked


def test_what_was_laid_out_with_it_or_before_never_shows(layout: Layout) -> None:
    """To the last digit: the same card must print the same bytes in any process."""
    first, second = PieceStore(layout), PieceStore(layout)
    first.take(document(*"abcdefgh"))
    one, other = first.take(document("x", "h")), second.take(document("y", "h", "x"))
    for key in ("title", "x", "h"):
        assert _numbers(one.named(key).boxes) == _numbers(other.named(key).boxes)


def test_a_warning_is_heard_for_every_card(layout: Layout) -> None:
    store, bad = PieceStore(layout), document("one").replace("<p>end", '<p style="colour: red">end')
    assert [any("colour" in text for text in store.take(bad).heard) for _ in range(2)] == [True, True]
