"""The whole site, page by page."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from pathlib import Path

from procgen.draw.fonts import Fonts
from procgen.draw.svg import Drawer
from procgen.files.home import resources
from procgen.model.card import Card, Deck, Shop
from procgen.web.assets import build
from procgen.web.drawings import Drawings
from procgen.web.environment import environment
from procgen.web.fonts import characters


def pages(
    shop: Shop,
    decks: Sequence[Deck],
    printed: Collection[str],
    *,
    fonts: Fonts,
    templates: Sequence[Path] = (),
    guide: Sequence[tuple[str, str, str]] = (),
) -> Iterator[tuple[str, bytes]]:
    """Each file of the site as (path below site/, content). The same input gives the same bytes.

    `printed`: paths below site/ of the PDFs that are there, so that no link leads nowhere. `templates`: folders that go
    before the package's own. `guide`: (code, title, text) of each thing that a check can find wrong.
    """
    folders = (*templates, resources("templates"))
    found, drawings = environment(folders), Drawings(Drawer(fonts, folders))
    assets = build(found, fonts, characters(shop, tuple(decks), tuple(guide)), len(decks))
    yield from assets.files.items()

    def page(path: str, template: str, **names: object) -> tuple[str, bytes]:
        shared = {"shop": shop, "decks": decks, "printed": printed, "guide": guide}
        shared |= {"assets": assets, "drawings": drawings}
        text = found.get_template(f"site/{template}").render(root="../" * path.count("/"), **shared, **names)
        return path, text.encode()

    yield page("index.html", "index.html")
    for deck in decks:
        family = deck.family.id
        yield page(f"{family}/index.html", "family.html", deck=deck, waiting=waiting(deck))
        for card in deck.cards:
            yield page(f"{card.address}.html", "card.html", deck=deck, card=card)
    if guide:
        yield page("guide.html", "guide.html")


def waiting(deck: Deck) -> Mapping[str, tuple[Card, ...]]:
    """What the family does not state yet, each with the cards that need it."""
    found: dict[str, list[Card]] = {what: [] for what in deck.family.missing}
    for card in deck.cards:
        for what in card.missing:
            found.setdefault(what, []).append(card)
    return {what: tuple(cards) for what, cards in found.items()}
