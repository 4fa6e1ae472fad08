"""Faces put together from laid-out pieces, held against the pages that the layout engine breaks by itself."""

from __future__ import annotations

import io
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pdfplumber
import pikepdf
import pytest
from samples import CAM, CARDS, READ_FROM, SHOP, STOCKS
from whole import whole

from procgen.model.card import Card, Shop
from procgen.paper.engine import listening
from procgen.paper.press import Press, Printed

Printer = Callable[..., Printed]


def _by_itself(press: Press, card: Card, stock: str, shop: Shop = SHOP) -> bytes:
    html, css = whole(press, card, shop, STOCKS[stock], READ_FROM)
    with listening():
        return press._engine.pdf(press._engine.layout(html, press._engine.sheet(css)))


def _ink(pdf: bytes) -> list[list[Any]]:
    """Of each page: its letters, and the boxes of its strokes and fills, with their places in points."""
    with pdfplumber.open(io.BytesIO(pdf)) as opened:
        return [
            sorted(
                [(one["text"], one["x0"], one["top"], one["size"]) for one in page.chars]
                + [("", one["x0"], one["top"], one["height"]) for one in _strokes(page)]
            )
            for page in opened.pages
        ]


def _strokes(page: Any) -> list[Any]:
    """But for the white of the paper, which only the engine paints."""
    white = [one for one in page.rects if one["non_stroking_color"] == (1, 1, 1) and one["height"] > page.height / 2]
    return [one for one in (*page.rects, *page.curves, *page.lines) if one not in white]


def _is_same(mine: list[Any], its: list[Any]) -> bool:
    """Points. The engine rounds a glyph's width to a thousandth of the size where it is first set, we don't: along a
    line that comes to a tenth of a point."""
    return mine[0] == its[0] and mine[1:] == pytest.approx(its[1:], abs=0.15)


@pytest.mark.parametrize("stock", ["a5", "letter"])
@pytest.mark.parametrize("card", CARDS, ids=lambda card: card.id)
def test_everything_stands_where_the_engine_puts_it(press: Press, printed: Printer, card: Card, stock: str) -> None:
    _stand_alike(printed(card, stock).pdf, _by_itself(press, card, stock))


@pytest.mark.parametrize("folders", [3, 6, 14])
def test_an_address_of_many_lines_grows_upwards(press: Press, folders: int) -> None:
    shop = replace(SHOP, site=f"https://saltings.example{'/rebuilding' * folders}")
    ours = press.card(CAM, shop, STOCKS["a5"], READ_FROM)
    assert {problem.code for problem in ours.problems} <= {"cut-by-a-face"}
    _stand_alike(ours.pdf, _by_itself(press, CAM, "a5", shop))


def _stand_alike(mine: bytes, its: bytes) -> None:
    ours, theirs = _ink(mine), _ink(its)
    assert len(ours) == len(theirs)
    for face, page in zip(ours, theirs, strict=True):
        assert [one[0] for one in face] == [one[0] for one in page]
        left = page[:]
        for one in face:
            left.remove(next(other for other in left if _is_same(one, other)))


def _told(node: Any) -> Any:
    """A tag's kind and what is in it; what is drawn is counted only."""
    if isinstance(node, pikepdf.Dictionary) and pikepdf.Name.S in node:
        kids = node.get(pikepdf.Name.K, [])
        kids = list(kids) if isinstance(kids, pikepdf.Array) else [kids]
        return str(node.S), str(node.get(pikepdf.Name.Alt, "")), [_told(kid) for kid in kids]
    return "ink"


@pytest.mark.parametrize("card", CARDS, ids=lambda card: card.id)
def test_tags_are_those_of_the_engine(press: Press, printed: Printer, card: Card) -> None:
    ours, theirs = (pikepdf.open(io.BytesIO(pdf)) for pdf in (printed(card).pdf, _by_itself(press, card, "a5")))
    mine, its = (_told(pdf.Root.StructTreeRoot.K[0]) for pdf in (ours, theirs))
    assert mine == its
