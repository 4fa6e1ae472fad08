"""`procgen printed`: note which cards were printed, with what each says."""

from __future__ import annotations

import re
import sys
from argparse import Namespace
from collections.abc import Iterator
from datetime import date
from pathlib import Path

from procgen.cli import PROBLEMS, SOUND, USAGE
from procgen.cli.ways import read, sound_workshop, tell
from procgen.compose import compose_deck
from procgen.ledger.adding import added
from procgen.ledger.keeping import Busy, keep
from procgen.ledger.noting import prints, texts
from procgen.load.folder import PRINTED
from procgen.make.checking import Checked
from procgen.make.order import Order, UnknownName, refuse_unknown
from procgen.model.card import Card

_MADE = re.compile(rb' data-revision="([^"]*)"')


def run(words: Namespace) -> int:
    today = date.today()
    if words.date is not None and words.date > today:
        print(f"procgen printed: {words.date} is still to come; today is {today}", file=sys.stderr)
        return USAGE
    path = words.workshop / PRINTED
    was = _content(path)  # before the check reads it, so that no change slips between
    checked = sound_workshop(words.workshop, read)
    if checked is None:
        print("nothing was noted", file=sys.stderr)
        return PROBLEMS
    stock = words.stock or checked.workshop.stock
    order = Order(words.workshop, words.out, Path(), tuple(words.card), tuple(words.family), stocks=(stock,))
    try:
        refuse_unknown(order, checked.workshop)
    except UnknownName as unknown:
        print(f"procgen printed: {unknown}", file=sys.stderr)
        return USAGE
    cards = list(_cards(checked, order))
    if other := list(_made_otherwise(cards, words.out or words.workshop / "site")):
        for page, made, card in other:
            print(f"{page} was made in revision {made}; the card now says {card.revision}", file=sys.stderr)
        print("nothing was noted: procgen make, print what it makes, then note it", file=sys.stderr)
        return PROBLEMS
    ledger = checked.workshop.ledger
    new = list(prints(cards, stock, (words.date or today).isoformat(), ledger))
    text, problems = added((was or b"").decode("utf-8"), new, list(texts(cards, ledger)))
    if problems:
        tell(problems, checked.sources)
        print("nothing was noted", file=sys.stderr)
        return PROBLEMS
    if new:
        try:
            keep(path, was, text.encode())
        except (Busy, OSError) as fault:
            print(f"procgen printed: {fault}; nothing was noted", file=sys.stderr)
            return PROBLEMS
    print(f"{path}: {_counted(len(new), len(cards))}", file=sys.stderr)
    return SOUND


def _content(path: Path) -> bytes | None:
    """None where there is none; what can't be read is told by the check."""
    try:
        return read(path) if path.is_file() else None
    except OSError:
        return None


def _cards(checked: Checked, order: Order) -> Iterator[Card]:
    assert checked.context is not None
    for id, family in checked.workshop.families.items():
        if not order.families or id in order.families:
            deck = compose_deck(checked.workshop, family, checked.context.benches[id])
            yield from (card for card in deck.cards if order.prints(id, card.id))


def _made_otherwise(cards: list[Card], out: Path) -> Iterator[tuple[Path, str, Card]]:
    """The pages that say something else than the cards now do: what was printed with them would not be noted."""
    for card in cards:
        page = out / f"{card.address}.html"
        found = _MADE.search(read(page)) if page.is_file() else None
        if found and found[1].decode() != card.revision:
            yield page, found[1].decode(), card


def _counted(new: int, of: int) -> str:
    again = f"{of - new} {'was' if of - new == 1 else 'were'} noted already" if new < of else ""
    noted = f"{new} {'card' if new == 1 else 'cards'} noted" if new else ""
    return ", ".join(part for part in (noted, again) if part) or "no card to note"
