"""The page that goes before a deck's sheets: how to print them, two bars to measure, which card lies where."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from markupsafe import Markup

from procgen.model.card import Shop
from procgen.model.workshop import Stock
from procgen.paper.imposing import Grid
from procgen.paper.marks import BAR

_NAMES = {"a4": "A4", "letter": "Letter"}


@dataclass(frozen=True, slots=True)
class Listed:
    """A card as the page lists it; `faces`: how many it has."""

    title: str
    revision: str
    faces: int


def lead(title: str, cards: Sequence[Listed], shop: Shop, stock: Stock, one: Grid, duplex: str) -> dict[str, Any]:
    """Names for `cards/lead.html`."""
    rows, leaf = [], 0
    for card in cards:
        rows.append((card.title, card.revision, card.faces, leaf // one.count + 1))
        leaf += -(-card.faces // 2)
    half = -(-len(rows) // 2)
    return {
        "title": title,
        "shop": shop,
        "stock": stock,
        "grid": one,
        "duplex": duplex,
        "paper": _NAMES[one.paper],
        "seal": f"{stock.seal_margin:g}",
        "level": Markup(_ruler(False)),
        "upright": Markup(_ruler(True)),
        "halves": [part for part in (rows[:half], rows[half:]) if part],
    }


def _ruler(upright: bool) -> str:
    """A bar with a tick each 10 mm, 1 mm of white at both ends; millimetres."""
    ticks = "".join(f"M{1 + 10 * i},0V{5 if i % 5 == 0 else 3}" for i in range(int(BAR) // 10 + 1))
    turn = ' transform="matrix(0 1 1 0 0 0)"' if upright else ""
    size = (6, BAR + 2) if upright else (BAR + 2, 6)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{size[0]:g}mm" height="{size[1]:g}mm" '
        f'viewBox="0 0 {size[0]:g} {size[1]:g}"><title>A bar 100 mm long</title>'
        f'<path{turn} d="M1,0.2h{BAR:g}{ticks}" fill="none" stroke="#141416" stroke-width="0.25"/></svg>'
    )
