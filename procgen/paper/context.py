"""What the card's template is handed: the card, and the few things that depend on the stock and the type size."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any, TypeVar

from markupsafe import Markup

from procgen.draw.fonts import HEAD, TEXT
from procgen.draw.svg import NoRoom
from procgen.draw.typeset import NBSP
from procgen.model.card import Card, Panel, Shop
from procgen.paper.arms import arms
from procgen.paper.fit import Fit
from procgen.paper.qr import qr
from procgen.paper.sizes import POINT
from procgen.paper.stage_mark import scale
from procgen.paper.tables import tables
from procgen.paper.theme import Theme
from procgen.paper.words import typed

T = TypeVar("T")

_TITLE_ENDS = re.compile(r"\.?</title>\s*<desc>")
Draw = Callable[[object, float, float, str], str]
"""scene, width that there is (mm), type size (pt), theme's name -> SVG; NoRoom where it cannot be drawn so"""

Sign = Callable[[str, float, str], str]
"""number, side (mm), theme's name -> SVG, "" for a sign that is not drawn"""


def context(
    card: Card, shop: Shop, fit: Fit, theme: Theme, least_title: float, draw: Draw, sign: Sign
) -> dict[str, Any]:
    """Names for `cards/card.html`. `least_title`: the title's floor, pt; `undrawn`: drawings that had no room."""
    title_size = fit.title(card.title, fit.sizes.title, least_title)
    address, code, side = address_of(card, shop, theme)
    drawings, undrawn = drawn(card, fit.text, fit, theme, draw)
    return {
        "card": card,
        "shop": shop,
        "title_size": round(title_size, 2),
        "title_wraps": fit.width(card.title, HEAD, title_size) > fit.page.across,
        "scale": Markup(scale(card.stage, fit.page.across, fit.fonts, fit.sizes, theme)),
        "qr": Markup(code),
        "address": typed(address),
        **foot_widths(side, shop, fit),
        "drawings": drawings,
        "undrawn": undrawn,
        "value_table": _once(fit.value_table),
        "tables_of": _once(lambda grid, key: tables(grid, fit, key)),
        "arms_of": _once(lambda path: arms(path, fit)),
        "signs_of": lambda panel: _signs(panel, fit, theme, sign),
        "sign_pitch": round(_sign_side(fit) + 0.6, 2),
        "hold_beside": fit.hold_beside,
        "reading_count": fit.reading_count,
        "boxes_at_most": fit.boxes_at_most,
        "box_beside": _once(fit.box_beside),
    }


def _once(make: Callable[..., T]) -> Callable[..., T]:
    """Made once for each part of a card, though the template asks whenever the card is rendered."""
    known: dict[tuple[Any, ...], T] = {}

    def made(part: object, *more: str) -> T:
        key = (id(part), *more)  # the card is there as long as the names that it is rendered by
        if key not in known:
            known[key] = make(part, *more)
        return known[key]

    return made


def drawn(card: Card, width: float, fit: Fit, theme: Theme, draw: Draw) -> tuple[dict[str, Markup], dict[str, str]]:
    """SVGs by key, of a width in mm, and why there is none for the rest."""
    drawings, undrawn = {}, {}
    for key in (key for step in card.steps for key in step.drawings):
        try:
            svg = draw(card.scenes[key], width, fit.sizes.step, theme.name)
        except KeyError:
            undrawn[key] = "it is not there"
        except NoRoom as tight:
            undrawn[key] = str(tight)
        else:
            drawings[key] = Markup(_described(svg.replace("\u202f", NBSP)))  # no face has the narrow space
    return drawings, undrawn


def _sign_side(fit: Fit) -> float:
    """As high as the strip that the signal word stands on, mm."""
    return 1.08 * fit.sizes.value * POINT


def _signs(panel: Panel, fit: Fit, theme: Theme, sign: Sign) -> list[Markup]:
    """As many of a caution's signs as there is room for beside its word."""
    side = _sign_side(fit)
    taken = fit.width(panel.level, HEAD, fit.sizes.value) + side + 8.0  # the alert symbol, and what keeps them apart
    drawn = [svg for number in panel.symbols if (svg := sign(number, side, theme.name))]
    return [Markup(svg) for svg in drawn[: max(int((fit.page.across - taken) / (side + 0.6)), 0)]]


def _described(svg: str) -> str:
    """Title and description in one: of the two only the title becomes a PDF's alternative for the drawing."""
    return _TITLE_ENDS.sub(". ", svg, count=1).replace("</desc>", "</title>", 1) if "<desc>" in svg else svg


def address_of(card: Card, shop: Shop, theme: Theme) -> tuple[str, str, float]:
    """The page's address, its QR code and the code's side, mm.

    The code carries the revision too, so that the page can tell an old card from a current one.
    """
    site = shop.site.rstrip("/")
    if not site:
        return f"{card.address}.html", "", 0.0
    address = f"{site}/{card.address}.html"
    return address, *qr(f"{address}#r={card.revision}", theme.ink)


def foot_widths(side: float, shop: Shop, fit: Fit) -> dict[str, Any]:
    """Of the foot's columns, mm: a code of that side with what keeps words off it, who stands behind the card, and
    the address, on the first face and on later ones."""
    lines = (shop.name, f"issued {shop.approved_on}, {shop.approved_by}", "not yet approved")
    widest = max(fit.width(text, TEXT, fit.sizes.hand) for text in lines) + 1
    who = round(min(widest, fit.page.across * 0.38), 3)
    code = side + 2.0 if side else 0.0
    rest = {on: round(fit.page.across - who - taken, 3) for on, taken in (("first", code), ("later", 0.0))}
    return {"qr_width": code, "who_width": who, "address_widths": rest}
