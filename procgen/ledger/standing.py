"""What hangs on walls, held against what the cards say today."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from procgen.compose.revision import said
from procgen.ledger.change import Change
from procgen.ledger.changes import changes
from procgen.model.card import Card
from procgen.model.ledger import Ledger, Print, Said
from procgen.values import dataclass

CURRENT, SUPERSEDED, GONE = "current", "superseded", "gone"


@dataclass(frozen=True, slots=True)
class Hung:
    """One printed card that hangs somewhere. `card`: as it is today, None where the deck no longer has it (GONE).

    `changes` since it was printed: None where its text was not noted, so that nobody can say.
    """

    noted: Print
    card: Card | None
    state: str
    changes: tuple[Change, ...] | None = ()


def hanging(ledger: Ledger, cards: Mapping[str, Card]) -> Iterator[Hung]:
    """Each printed card that hangs, in the order in which they were noted. `cards`: those of today by address.

    A later print takes the place of an earlier one of the same card on the same stock, unless they say that they hang
    in two places.
    """
    last = {one.hangs_as: one for one in ledger.prints}
    for one in last.values():
        if not one.down:
            yield _hung(one, cards.get(one.address), ledger)


def since(ledger: Ledger, card: Card) -> Mapping[str, tuple[Change, ...] | None]:
    """Of every superseded revision that the ledger knows of a card, what changed since."""
    codes = [one.revision for one in ledger.prints if one.address == card.address]
    codes += [code for address, code in ledger.texts if address == card.address]
    return {code: _changes(card, code, ledger) for code in dict.fromkeys(codes) if code != card.revision}


def by_card(ledger: Ledger) -> Mapping[str, Ledger]:
    """What is noted of each card, by its address."""
    prints: dict[str, list[Print]] = {}
    for one in ledger.prints:
        prints.setdefault(one.address, []).append(one)
    texts: dict[str, dict[tuple[str, str], Said]] = {}
    for key, text in ledger.texts.items():
        texts.setdefault(key[0], {})[key] = text
    every = dict.fromkeys((*prints, *texts))
    return {address: Ledger(tuple(prints.get(address, ())), texts.get(address, {})) for address in every}


def _hung(one: Print, card: Card | None, ledger: Ledger) -> Hung:
    if card is None:
        return Hung(one, None, GONE)
    if one.revision == card.revision:
        return Hung(one, card, CURRENT)
    return Hung(one, card, SUPERSEDED, _changes(card, one.revision, ledger))


def _changes(card: Card, revision: str, ledger: Ledger) -> tuple[Change, ...] | None:
    was = ledger.texts.get((card.address, revision))
    return None if was is None else changes(was.text, said(card))
