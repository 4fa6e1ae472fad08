"""Everything that a workshop gives: checked, composed, printed, written, and put in place at the end or not at all."""

from __future__ import annotations

import shutil
from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from procgen.check.portions import Portions
from procgen.compose import shop
from procgen.files.memory import Memory
from procgen.files.problems import Problem
from procgen.load.folder import Folder
from procgen.make import native, publish
from procgen.make.ahead import Ahead
from procgen.make.apart import Apart
from procgen.make.cache import Cache
from procgen.make.checking import Checked, read_and_check
from procgen.make.composing import Composing
from procgen.make.located import located
from procgen.make.making import Made
from procgen.make.order import Order, UnknownName, refuse_unknown, sheets_of
from procgen.make.pages import Pages
from procgen.make.pool import Workers
from procgen.make.printing import GLANCE, Asked, Piece, Ready, Setting
from procgen.make.prints import Batch, Printer, Progress, ground
from procgen.make.whole import Snapshot, take_down
from procgen.model.card import Deck
from procgen.model.workshop import Workshop

if TYPE_CHECKING:
    from procgen.model.packet import Packet


def make_anew(
    order: Order,
    snapshot: Snapshot,
    cache: Cache,
    memory: Memory,
    workers: Workers[Asked, Piece],
    stamp: tuple[int, ...],
    progress: Progress,
) -> Made:
    """Check, and where that is sound, make what the order says; see `making.make`."""
    composing = Composing(order)
    ahead = Ahead(order.workers, composing)
    edited = Folder(order.root, snapshot.read, memory).unknown("family")
    get_ready = partial(_get_ready, workers, order, edited, stamp)
    checked = read_and_check(order.root, snapshot.read, memory, ahead, get_ready)
    if not checked.is_sound:
        return Made(False, checked.problems, checked.sources)
    assert checked.context is not None
    refuse_unknown(order, checked.workshop)
    sheets_of(order, checked.workshop.sheets)
    portions = Portions(checked.context, memory)
    tree = None if order.is_shard else publish.fresh_tree(order.out)
    try:
        made, files = _make(order, checked, composing, portions, cache, tree, workers, stamp, progress)
        if made.is_sound and tree is not None:
            put = publish.add if order.alone else publish.publish
            put(tree, order.out)
            take_down(snapshot, cache, files, made.problems, made.pages, made.faces)
    finally:
        cache.trim()
        if tree is not None:
            shutil.rmtree(tree, ignore_errors=True)
    return made


def _get_ready(
    workers: Workers[Asked, Piece], order: Order, edited: Sequence[str], stamp: tuple[int, ...], workshop: Workshop
) -> None:
    """For the cards of the first family that was edited: most edits are of one."""
    with suppress(LookupError, UnknownName):  # something in the order that is not in the workshop: told later
        setting = settings_of(workshop, order)[0]
        families = (id for id, one in workshop.families.items() if one.place.path in edited)
        family = next(families, "")
        cards = tuple(card for card, _ in workshop.deck if family and order.prints(family, card))
        workers.get_ready((setting, Ready(order.prints_many, family, cards), ground(setting.templates, stamp)))


def _packets(workshop: Workshop, decks: Sequence[Deck]) -> Iterator[Packet]:
    """Of every job whose family's deck is made."""
    if not workshop.jobs:
        return
    from procgen.compose.packet import compose_packet  # what packets need takes a tenth of all imports

    by_family = {deck.family.id: deck for deck in decks}
    for job in workshop.jobs.values():
        if job.family in by_family:
            yield compose_packet(workshop, job, by_family[job.family])[0]


def _make(
    order: Order,
    checked: Checked,
    composing: Composing,
    portions: Portions,
    cache: Cache,
    tree: Path | None,
    workers: Workers[Asked, Piece],
    stamp: tuple[int, ...],
    progress: Progress,
) -> tuple[Made, dict[str, str]]:
    """With the content of the files that were written, by path."""
    workshop = checked.workshop
    if tree is not None and order.is_partial and not order.alone and order.out.is_dir():
        publish.link_tree(order.out, tree)
    settings = settings_of(workshop, order)
    printers = [Printer(setting, cache, tree, order.out, workers, order.shard, progress, stamp) for setting in settings]
    decks = tuple(_decks(order, workshop, composing, portions, printers))
    packets = () if order.is_shard or order.alone else tuple(_packets(workshop, decks))
    printers[0].add_packets([one for one in packets if order.prints_packet(one.family)])
    found: list[Problem] = list(checked.problems)
    pages = None
    if tree is not None and order.only != "cards":
        folders = {**{id: stock.name for id, stock in workshop.stocks.items()}, GLANCE: ""}
        enliven, characters = partial(composing.enlivened, portions), partial(composing.characters, portions)
        pages = Pages(order, settings, folders, decks, enliven, characters, packets, workshop.ledger, cache, tree)
    expected = pages.expected() if pages is not None else frozenset()
    write = partial(_written, pages, cache, expected)
    with Apart(write, begin=pages is not None and order.only != "site" and order.workers > 1) as apart:
        workers.finish()
        progress.end()
        known = [(printer.setting, printer.known()) for printer in printers]
        for setting, cards in known:
            told = dict.fromkeys(located(problem, workshop) for card in cards for problem in card.problems)
            found += [_on(setting, problem) for problem in told] if len(settings) > 1 else told
        is_sound = not any(problem.is_error for problem in found)
        written, added = apart.result() if is_sound else ({}, 0)
        cache.note(added)
    if is_sound and pages is not None and pages.there() != expected:
        written = pages.write(pages.there())
    files = {path: content for _, cards in known for card in cards for path, content in card.files.items()}
    faces = tuple(card.faces for _, cards in known for card in cards if card.faces)
    printed = sum(printer.printed for printer in printers)
    slow = native.NO_SUBSET if printed and not native.has_subset() else ""
    return Made(is_sound, tuple(found), checked.sources, len(written), faces, printed, slow), files | written


def _written(pages: Pages | None, cache: Cache, prints: frozenset[str]) -> tuple[dict[str, str], int]:
    """Digests of the pages' files by path, and how much was added to the cache, perhaps in a process of its own."""
    before = cache.added
    written = pages.write(prints) if pages is not None else {}
    return written, cache.added - before


def _decks(
    order: Order, workshop: Workshop, composing: Composing, portions: Portions, printers: Sequence[Printer]
) -> Iterator[Deck]:
    """Those that are wanted, as the workshop has them. Each goes to the printers as soon as it is there, new ones
    first: workers print them while the others are looked up. But shares are dealt by the workshop's order alone."""
    decks: dict[str, Deck] = {}
    wanted = [id for id in workshop.families if composing.wants(id)]
    for id in wanted if order.is_shard else sorted(wanted, key=lambda one: composing.has(portions, one)):
        deck = decks[id] = composing.deck(portions, id)
        cards = tuple(card for card in deck.cards if order.prints(id, card.id))
        for printer in printers if cards else ():
            is_whole = len(cards) == len(deck.cards) and not order.alone
            printer.add(Batch(id, cards, is_whole, composing.said(portions, deck)))
    yield from (decks[id] for id in wanted)


def _on(setting: Setting, problem: Problem) -> Problem:
    """Told with the stock, where there are several."""
    return replace(problem, message=f"on {setting.stock.id}: {problem.message}")


def settings_of(workshop: Workshop, order: Order) -> tuple[Setting, ...]:
    """What cards are printed on: the first stock in the usual place, which pages link to; each further one in a folder
    of its own, and glance cards in theirs."""
    theme, sheets = order.theme or workshop.theme, sheets_of(order, workshop.sheets)
    stocks = [workshop.stocks[id] for id in order.stocks or (workshop.stock,)]
    near = [stock.read_from or workshop.read_from for stock in stocks]
    found = [
        Setting(
            shop(workshop),
            stock,
            distances,
            theme,
            order.fonts,
            order.templates,
            sheets,
            "" if stock is stocks[0] else stock.id,
        )
        for stock, distances in zip(stocks, near, strict=True)
    ]
    if order.glance:
        stock = workshop.stocks[order.glance]
        glance = replace(found[0], stock=stock, read_from=workshop.read_from, folder=GLANCE, glance=True)
        found.append(glance)
    return tuple(found)
