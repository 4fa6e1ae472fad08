"""A card as one document that an engine breaks into pages by itself: what the printer's own placing is held against."""

from __future__ import annotations

import re

from procgen.model.card import Card, Shop
from procgen.model.workshop import ReadFrom, Stock
from procgen.paper.card_css import card_css
from procgen.paper.faces import Heights, ended, foot_of, tops, turns
from procgen.paper.fit import Fit
from procgen.paper.press import Press, _Order

_PAGES = """
.overleaf { break-after: page }
.face b::before { content: counter(page) }
.head-first { position: running(head-first) }
.head-later { position: running(head-later) }
.foot-first { position: running(foot-first) }
.foot-later { position: running(foot-later) }
@page { @top-left { content: element(head-later); width: 100%; vertical-align: bottom }
        @bottom-left { content: element(foot-later); width: 100%; vertical-align: top } }
@page :first { @top-left { content: element(head-first); width: 100%; vertical-align: top; padding-top: TOPmm }
               @bottom-left { content: element(foot-first); width: 100%; vertical-align: top } }
"""


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
        seated=True,
        faces=plan.faces,
        turns=turns(card, chosen.parts, plan),
    )
    css = card_css(press._jinja, fit, chosen.setting.theme)
    pages = _PAGES.replace("TOP", str(fit.page.top)) + _margins(fit, chosen.heights)
    return re.sub("<!--.*?-->", "", html if card.hold else ended(html)), css + pages


def _margins(fit: Fit, heights: Heights) -> str:
    """The @page rules for the margins that the measured rows need."""
    foot, (later, first) = fit.page.foot, tops(fit, heights)
    return (
        f"@page {{ margin-top: {later:.3f}mm; margin-bottom: {foot_of(heights, 'foot-later') + foot:.3f}mm }}"
        f"@page :first {{ margin-top: {first:.3f}mm; margin-bottom: {foot_of(heights, 'foot-first') + foot:.3f}mm }}"
    )
