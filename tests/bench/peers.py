"""What others take for the same pages. Run as a process: `python -m tests.bench.peers WAY FOLDER`.

FOLDER holds a ready HTML file with its style for each card, as `export` writes them.
"""

from __future__ import annotations

import sys
from pathlib import Path

DECK = 20
"""Cards of the deck for Typst."""


def export(root: Path, cache: Path, folder: Path, deck: Path) -> None:
    """Every card's HTML with its style inside, for engines that break pages; and a deck of the first for Typst."""
    from procgen.compose import compose_deck
    from procgen.draw.fonts import prepare
    from procgen.draw.svg import Drawer
    from procgen.make.build import settings_of
    from procgen.make.checking import read_and_check
    from procgen.make.order import Order
    from procgen.paper.press import Press
    from procgen.paper.sizes import FLOOR, sizes
    from tests.bench.typst_deck import write
    from tests.paper.whole import whole

    folder.mkdir(parents=True, exist_ok=True)
    checked = read_and_check(root, Path.read_bytes)
    assert checked.context is not None
    setting = settings_of(checked.workshop, Order(root, folder, cache))[0]
    fonts = prepare(setting.fonts)
    drawer = Drawer(fonts, setting.templates)
    press = Press(fonts, setting.templates, drawer)
    step = sizes(fonts, setting.read_from, FLOOR).step
    every = []
    for id_, family in checked.workshop.families.items():
        for card in compose_deck(checked.workshop, family, checked.context.benches[id_]).cards:
            html, css = whole(press, card, setting.shop, setting.stock, setting.read_from, setting.theme)
            style = f'<head><meta charset="utf-8"><style>{fonts.css()}{css}</style>'
            (folder / f"{id_}-{card.id}.html").write_text(html.replace("<head>", style, 1))
            every.append(card)
    write(every[:DECK], lambda scene: drawer(scene, setting.stock.width - 30, step, setting.theme), deck)


def naive(folder: Path) -> None:
    """One process, one write_pdf a card, nothing kept from one to the next."""
    import weasyprint
    from weasyprint.text.fonts import FontConfiguration

    for path in sorted(folder.glob("*.html")):
        html = weasyprint.HTML(string=path.read_text())
        html.write_pdf(path.with_suffix(".naive.pdf"), font_config=FontConfiguration(), pdf_variant="pdf/ua-1")


def chromium(folder: Path) -> None:
    """One warm session, one page loaded and printed for each card."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path="/usr/bin/chromium", args=["--no-sandbox"])
        tab = browser.new_page()
        for path in sorted(folder.glob("*.html")):
            tab.goto(path.resolve().as_uri())
            tab.pdf(path=str(path.with_suffix(".chromium.pdf")), tagged=True, prefer_css_page_size=True)
        browser.close()


if __name__ == "__main__":
    {"naive": naive, "chromium": chromium}[sys.argv[1]](Path(sys.argv[2]))
