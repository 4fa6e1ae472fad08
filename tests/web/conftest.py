"""The made-up shop's site, and the demo workshop's."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from made_up import DECKS, GUIDE, PRINTED, SHOP

from procgen.compose import compose_deck, shop
from procgen.draw.fonts import Fonts, prepare
from procgen.load.workshop import load_workshop
from procgen.model.card import Deck
from procgen.web import pages

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="session")
def fonts(tmp_path_factory: pytest.TempPathFactory) -> Fonts:
    return prepare(tmp_path_factory.mktemp("fonts"))


@pytest.fixture(scope="session")
def site(fonts: Fonts) -> Mapping[str, bytes]:
    return dict(pages(SHOP, DECKS, PRINTED, fonts=fonts, guide=GUIDE))


@pytest.fixture(scope="session")
def demo_decks() -> tuple[Deck, ...]:
    workshop = load_workshop(ROOT, lambda path: Path(path).read_bytes()).workshop
    assert workshop is not None
    return tuple(compose_deck(workshop, family) for family in workshop.families.values())


@pytest.fixture(scope="session")
def demo(fonts: Fonts, demo_decks: tuple[Deck, ...]) -> Mapping[str, bytes]:
    workshop = load_workshop(ROOT, lambda path: Path(path).read_bytes()).workshop
    assert workshop is not None
    return dict(pages(shop(workshop), demo_decks, (), fonts=fonts))


@pytest.fixture(params=["site", "demo"])
def any_site(request: pytest.FixtureRequest) -> Mapping[str, bytes]:
    found: Mapping[str, bytes] = request.getfixturevalue(request.param)
    return found
