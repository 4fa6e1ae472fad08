"""What there is to note of cards that were printed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from procgen.compose.revision import said
from procgen.files.problems import Place
from procgen.load.folder import PRINTED
from procgen.model.card import Card
from procgen.model.ledger import Ledger, Print, Said

_HERE = Place(PRINTED)


def prints(cards: Iterable[Card], stock: str, on: str, ledger: Ledger) -> Iterator[Print]:
    """One for each card, but for those that were noted with all of this before."""
    there = {(one.address, one.revision, one.stock, one.on) for one in ledger.prints}
    for card in cards:
        if (card.address, card.revision, stock, on) not in there:
            yield Print(card.family, card.id, card.revision, stock, on, "", "", _HERE)


def texts(cards: Iterable[Card], ledger: Ledger) -> Iterator[Said]:
    """What each card says, unless the ledger has it."""
    for card in cards:
        if (card.address, card.revision) not in ledger.texts:
            yield Said(card.family, card.id, card.revision, said(card), _HERE)
