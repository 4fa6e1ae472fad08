"""A card as one document that an engine breaks into pages by itself: what the printer's own placing is held against."""

from __future__ import annotations

import re

from procgen.model.card import Card, Shop
from procgen.model.workshop import ReadFrom, Stock
from procgen.paper.faces import ended, margins, turns
from procgen.paper.press import Press, _Order
from procgen.paper.style import style

_TURN = ".overleaf { break-after: page }"


def whole(
    press: Press, card: Card, shop: Shop, stock: Stock, read_from: ReadFrom, theme: str = "colour"
) -> tuple[str, str]:
    """HTML and style sheet; faces end where the printer ends them, everything else is left to the engine."""
    chosen = press._choose(card, _Order(shop, stock, read_from, theme))
    fit, plan = chosen.setting.fit, chosen.plan
    html = press._jinja.get_template("cards/card.html").render(
        **chosen.context,
        number="",
        numbered=0,
        faces=plan.faces,
        turns=turns(card, chosen.parts, plan),
    )
    css = press._jinja.get_template("cards/card.css").render(
        final=True, **style(fit, chosen.setting.theme, press._fonts)
    )
    return re.sub("<!--.*?-->", "", html if card.hold else ended(html)), css + _TURN + margins(fit, chosen.heights)
