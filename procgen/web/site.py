"""The whole site, part by part: what pages share, the pages and their data, and the worker that lists them all."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import replace
from pathlib import Path

from procgen.compose.characters import characters
from procgen.draw.fonts import Fonts
from procgen.files.home import resources
from procgen.ledger.standing import by_card
from procgen.model.card import Card, Deck, Shop
from procgen.model.ledger import Ledger
from procgen.model.packet import Packet
from procgen.values import dataclass
from procgen.web import assets, data
from procgen.web.fonts import ALWAYS
from procgen.web.lines import Line, line, stand, waiting
from procgen.web.offline import worker
from procgen.web.part import Files, Making, Part, Seals, as_is, seal
from procgen.web.tools import Tools, page

_NOTHING = Ledger()


@dataclass(frozen=True, slots=True)
class Site:
    """All that a site tells.

    `printed`: paths below it of the PDFs that are there, so that no link leads nowhere. `guide`: (code, title, text) of
    each thing that a check can find wrong. `ledger`: what was printed, for whoever comes with an old card's code.
    `functions`: (call, what it says, whose rule, example) of each that formulas may call, at the foot of the guide.
    `folders`: below a family's prints, each with the name of its stock; "" for glance cards. `written`: the characters
    of the decks, where somebody knows them.
    """

    shop: Shop
    decks: Sequence[Deck]
    printed: Collection[str] = ()
    guide: tuple[tuple[str, str, str], ...] = ()
    ledger: Ledger = _NOTHING
    packets: Sequence[Packet] = ()
    folders: tuple[tuple[str, str], ...] = ()
    functions: tuple[tuple[str, str, str, str], ...] = ()
    written: frozenset[str] | None = None


def build(site: Site, fonts: Fonts, make: Making) -> None:
    """Have every file of the site made. What is handed on to a page is no more than it shows, so that it is made anew
    only where that changes."""
    wanted = characters(site.shop, site.guide, tuple(site.packets), site.ledger, site.folders, site.functions)
    wanted |= ALWAYS | (characters(*site.decks) if site.written is None else site.written)
    files: dict[str, str] = {}

    def noted(parts: Sequence[Part]) -> Sequence[Seals]:
        seals = make(parts)
        for each in seals:
            files.update(each)
        return seals

    shared = assets.build(fonts, wanted, len(site.decks), noted)
    noted(list(_Pages(site, shared, by_card(site.ledger)).parts()))
    make([Part(worker, (files,))])


def pages(
    shop: Shop,
    decks: Sequence[Deck],
    printed: Collection[str],
    *,
    fonts: Fonts,
    templates: Sequence[Path] = (),
    guide: tuple[tuple[str, str, str], ...] = (),
    ledger: Ledger = _NOTHING,
    packets: Sequence[Packet] = (),
) -> Iterator[tuple[str, bytes]]:
    """Each file of a Site as (path below it, content), made here and now. The same input gives the same bytes.

    `templates`: folders that go before the package's own.
    """
    tools = Tools(fonts, (*templates, resources("templates")))
    there: dict[str, bytes] = {}

    def make(parts: Sequence[Part]) -> Sequence[Seals]:
        made: list[Files] = [part.made(tools) for part in parts]
        for files in made:
            there.update(files)
        return [{path: seal(content) for path, content in files.items()} for files in made]

    build(Site(shop, decks, printed, guide, ledger, packets), fonts, make)
    yield from there.items()


@dataclass(frozen=True, slots=True)
class _Pages:
    """The parts that are pages and their data. `noted`: what the ledger has of each card, by address."""

    site: Site
    shared: assets.Assets
    noted: Mapping[str, Ledger]

    def parts(self) -> Iterator[Part]:
        site = self.site
        lines = tuple(map(line, site.decks))
        outlines = {deck.family.id: deck.family.outline for deck in site.decks if deck.family.outline is not None}
        yield self._page("index.html", lines=lines, outlines=outlines, stands=tuple(map(stand, site.packets)))
        for deck, one in zip(site.decks, lines, strict=True):
            yield from self._family(deck, one)
        yield Part(as_is, ("data/search.js", data.search(site.decks)))
        yield self._page("compare.html")
        for packet in site.packets:
            pdf = self._pdf(f"{packet.address}/packet.pdf")
            yield self._page(f"{packet.address}/index.html", "job.html", packet=packet, told=packet.told, pdf=pdf)
        if site.guide:
            yield self._page("guide.html", guide=site.guide, functions=site.functions)

    def _family(self, deck: Deck, one: Line) -> Iterator[Part]:
        yield self._page(
            f"{one.family}/index.html",
            "family.html",
            family=replace(deck.family, outline=None),  # which it does not show
            stops=one.stops,
            waiting=waiting(deck, one),
            pdf=self._pdf(f"print/{one.family}/deck.pdf"),
            sheets=self._pdf(f"print/{one.family}/sheets.pdf"),
            further=self._further(one.family, "deck"),
        )
        for card in deck.cards:
            yield from self._card(card, one)
        yield Part(data.live, (one.family, deck.family.variants, _live(deck)))

    def _card(self, card: Card, one: Line) -> Iterator[Part]:
        shown = replace(card, live=None)
        yield self._page(
            f"{card.address}.html",
            "card.html",
            card=shown,
            is_live=card.live is not None,
            stops=one.stops,
            pdf=self._pdf(f"print/{card.address}.pdf"),
            further=self._further(one.family, card.id),
        )
        yield Part(data.said, (replace(shown, origins={}), self.noted.get(card.address, _NOTHING)))

    def _page(self, path: str, template: str = "", **names: object) -> Part:
        """`template`: where it is not called as the page is."""
        every = {"shop": self.site.shop, "assets": self.shared, "has_guide": bool(self.site.guide)}
        return Part(page, (path, template or path, every | names))

    def _pdf(self, path: str) -> str:
        """An empty text where it was not printed."""
        return path if path in self.site.printed else ""

    def _further(self, family: str, name: str) -> tuple[tuple[str, str], ...]:
        """The same on other stocks and as glance cards: (stock's name or "", path)."""
        folders = self.site.folders
        paths = ((called, self._pdf(f"print/{family}/{folder}/{name}.pdf")) for folder, called in folders)
        return tuple((called, path) for called, path in paths if path)


def _live(deck: Deck) -> Mapping[str, str]:
    """By card, without those that read and decide nothing."""
    return {card.id: card.live for card in deck.cards if card.live is not None}
