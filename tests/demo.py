"""The demo workshop, loaded once and composed once for all tests of a process."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path

from procgen.compose import compose_deck
from procgen.load.workshop import Loaded, load_workshop
from procgen.model.card import Card, Deck
from procgen.model.workshop import Workshop

ROOT = Path(__file__).resolve().parents[1]


@cache
def loaded() -> Loaded:
    return load_workshop(ROOT, Path.read_bytes)


@cache
def workshop() -> Workshop:
    found = loaded()
    assert found.workshop is not None, found.problems
    return found.workshop


@cache
def deck(family: str) -> Deck:
    return compose_deck(workshop(), workshop().families[family])


def decks() -> Mapping[str, Deck]:
    return {family: deck(family) for family in workshop().families}


@cache
def cards(family: str) -> Mapping[str, Card]:
    return {card.id: card for card in deck(family).cards}
