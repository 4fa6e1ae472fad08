"""The whole site, page by page."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping, Sequence
from pathlib import Path

from procgen.draw.fonts import Fonts
from procgen.draw.svg import Drawer
from procgen.files.home import resources
from procgen.model.card import Card, Deck, Shop
from procgen.model.ledger import Ledger
from procgen.model.packet import Packet
from procgen.web import data
from procgen.web.assets import build
from procgen.web.drawings import Drawings
from procgen.web.environment import environment
from procgen.web.fonts import characters
from procgen.web.jobs import bar, job_names
from procgen.web.offline import worker

_NOTHING = Ledger()


def pages(
    shop: Shop,
    decks: Sequence[Deck],
    printed: Collection[str],
    *,
    fonts: Fonts,
    templates: Sequence[Path] = (),
    guide: Sequence[tuple[str, str, str]] = (),
    ledger: Ledger = _NOTHING,
    packets: Sequence[Packet] = (),
) -> Iterator[tuple[str, bytes]]:
    """Each file of the site as (path below site/, content). The same input gives the same bytes.

    `printed`: paths below site/ of the PDFs that are there, so that no link leads nowhere. `templates`: folders that go
    before the package's own. `guide`: (code, title, text) of each thing that a check can find wrong. `ledger`: what was
    printed, for whoever comes with an old card's code.
    """
    kept = {}
    for path, content in _pages(shop, decks, printed, fonts, templates, guide, ledger, packets):
        kept[path] = content
        yield path, content
    yield "sw.js", worker(environment((*templates, resources("templates"))), kept)


def _pages(
    shop: Shop,
    decks: Sequence[Deck],
    printed: Collection[str],
    fonts: Fonts,
    templates: Sequence[Path],
    guide: Sequence[tuple[str, str, str]],
    ledger: Ledger,
    packets: Sequence[Packet],
) -> Iterator[tuple[str, bytes]]:
    folders = (*templates, resources("templates"))
    found, drawings = environment(folders), Drawings(Drawer(fonts, folders))
    assets = build(found, fonts, characters(shop, tuple(decks), tuple(guide), tuple(packets), ledger), len(decks))
    yield from assets.files.items()

    def page(path: str, template: str, **names: object) -> tuple[str, bytes]:
        shared = {"shop": shop, "decks": decks, "printed": printed, "guide": guide, "packets": packets}
        shared |= {"assets": assets, "drawings": drawings}
        text = found.get_template(f"site/{template}").render(root="../" * path.count("/"), **shared, **names)
        return path, re.sub(r"\n{2,}", "\n", text).encode()  # what templates leave between their parts

    yield page("index.html", "index.html", bar=bar)
    for deck in decks:
        family = deck.family.id
        yield page(f"{family}/index.html", "family.html", deck=deck, waiting=waiting(deck))
        for card in deck.cards:
            yield page(f"{card.address}.html", "card.html", deck=deck, card=card)
            yield f"data/{card.address}.said.js", data.said(card, ledger)
        yield from ((f"data/{address}.js", content) for address, content in data.live(deck))
    yield "data/search.js", data.search(decks)
    yield page("compare.html", "compare.html")
    for packet in packets:
        yield page(f"{packet.address}/index.html", "job.html", packet=packet, **job_names(packet))
    if guide:
        yield page("guide.html", "guide.html")


def waiting(deck: Deck) -> Mapping[str, tuple[Card, ...]]:
    """What the family does not state yet, each with the cards that need it."""
    found: dict[str, list[Card]] = {what: [] for what in deck.family.missing}
    for card in deck.cards:
        for what in card.missing:
            found.setdefault(what, []).append(card)
    return {what: tuple(cards) for what, cards in found.items()}
