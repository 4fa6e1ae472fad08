"""The whole site, part by part: what pages share, the pages and their data, and the worker that lists them all."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import replace
from pathlib import Path

from procgen.compose.characters import characters
from procgen.draw.fonts import Fonts
from procgen.files.home import resources
from procgen.ledger.standing import by_card
from procgen.model.card import Deck, Shop
from procgen.model.ledger import Ledger
from procgen.model.packet import Packet
from procgen.values import dataclass
from procgen.web import assets, data
from procgen.web.fonts import ALWAYS
from procgen.web.lines import line, stand, waiting
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
    noted(list(_parts(site, shared)))
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


def _parts(site: Site, shared: assets.Assets) -> Iterator[Part]:
    lines = [line(deck) for deck in site.decks]
    every = {"shop": site.shop, "assets": shared, "has_guide": bool(site.guide)}

    def of(path: str, template: str, **names: object) -> Part:
        return Part(page, (path, template, every | names))

    def pdf(path: str) -> str:
        return path if path in site.printed else ""

    def further(family: str, name: str) -> tuple[tuple[str, str], ...]:
        """The same on other stocks and as glance cards: (stock's name or "", path)."""
        paths = ((called, pdf(f"print/{family}/{folder}/{name}.pdf")) for folder, called in site.folders)
        return tuple((called, path) for called, path in paths if path)

    outlines = {deck.family.id: deck.family.outline for deck in site.decks if deck.family.outline is not None}
    stands = tuple(map(stand, site.packets))
    yield of("index.html", "index.html", lines=tuple(lines), outlines=outlines, stands=stands)
    noted = by_card(site.ledger)
    for deck, one in zip(site.decks, lines, strict=True):
        yield of(
            f"{one.family}/index.html",
            "family.html",
            family=replace(deck.family, outline=None),  # which it does not show
            stops=one.stops,
            waiting=waiting(deck, one),
            pdf=pdf(f"print/{one.family}/deck.pdf"),
            sheets=pdf(f"print/{one.family}/sheets.pdf"),
            further=further(one.family, "deck"),
        )
        for card in deck.cards:
            shown = replace(card, live=None)
            yield of(
                f"{card.address}.html",
                "card.html",
                card=shown,
                is_live=card.live is not None,
                stops=one.stops,
                pdf=pdf(f"print/{card.address}.pdf"),
                further=further(one.family, card.id),
            )
            yield Part(data.said, (replace(shown, origins={}), noted.get(card.address, _NOTHING)))
        yield Part(data.live, (one.family, deck.family.variants, _live(deck)))
    yield Part(as_is, ("data/search.js", data.search(site.decks)))
    yield of("compare.html", "compare.html")
    for packet in site.packets:
        path = f"{packet.address}/index.html"
        yield of(path, "job.html", packet=packet, told=packet.told, pdf=pdf(f"{packet.address}/packet.pdf"))
    if site.guide:
        yield of("guide.html", "guide.html", guide=site.guide, functions=site.functions)


def _live(deck: Deck) -> Mapping[str, str]:
    """By card, without those that read and decide nothing."""
    return {card.id: card.live for card in deck.cards if card.live is not None}
