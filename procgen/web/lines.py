"""Decks and jobs as other pages name them: no more than those show, so that no page changes with what it leaves out."""

from __future__ import annotations

from collections.abc import Mapping

from procgen.model.card import Deck
from procgen.model.packet import CoverRow, Packet
from procgen.values import dataclass


@dataclass(frozen=True, slots=True)
class Stop:
    """A card in the order of work."""

    id: str
    address: str
    number: int  # of its stage
    title: str
    holds: bool


@dataclass(frozen=True, slots=True)
class Line:
    """A family, and its deck in order of work."""

    family: str
    name: str
    describe: str
    stops: tuple[Stop, ...]


@dataclass(frozen=True, slots=True)
class Stand:
    """A job on the first page. `row`: the first of its cover; `stage`: the one that is not done, None where all are."""

    address: str
    title: str
    family_name: str
    sentence: str
    row: CoverRow | None
    stage: int | None


def line(deck: Deck) -> Line:
    stops = (Stop(card.id, card.address, card.stage.number, card.title, bool(card.hold)) for card in deck.cards)
    return Line(deck.family.id, deck.family.name, deck.family.describe, tuple(stops))


def stand(packet: Packet) -> Stand:
    row = packet.cover[0] if packet.cover else None
    stage = packet.now.stage.number if packet.now else None
    return Stand(packet.address, packet.title, packet.family_name, packet.sentence, row, stage)


def waiting(deck: Deck, of: Line) -> Mapping[str, tuple[Stop, ...]]:
    """What the family does not state yet, each with the cards that need it."""
    found: dict[str, list[Stop]] = {what: [] for what in deck.family.missing}
    for card, stop in zip(deck.cards, of.stops, strict=True):
        for what in card.missing:
            found.setdefault(what, []).append(stop)
    return {what: tuple(stops) for what, stops in found.items()}
