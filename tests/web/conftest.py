"""The made-up shop's site, and the demo workshop's."""

from __future__ import annotations

from collections.abc import Mapping

import pytest
from made_up import DECKS, GUIDE, PRINTED, SHOP

from procgen.compose import shop
from procgen.draw.fonts import Fonts, prepare
from procgen.model.card import Deck
from procgen.web import pages
from tests.demo import decks, workshop


@pytest.fixture(scope="session")
def fonts(tmp_path_factory: pytest.TempPathFactory) -> Fonts:
    return prepare(tmp_path_factory.mktemp("fonts"))


@pytest.fixture(scope="session")
def site(fonts: Fonts) -> Mapping[str, bytes]:
    return dict(pages(SHOP, DECKS, PRINTED, fonts=fonts, guide=GUIDE))


@pytest.fixture(scope="session")
def demo_decks() -> tuple[Deck, ...]:
    return tuple(decks().values())


@pytest.fixture(scope="session")
def demo(fonts: Fonts, demo_decks: tuple[Deck, ...]) -> Mapping[str, bytes]:
    return dict(pages(shop(workshop()), demo_decks, (), fonts=fonts))


@pytest.fixture(params=["site", "demo"])
def any_site(request: pytest.FixtureRequest) -> Mapping[str, bytes]:
    found: Mapping[str, bytes] = request.getfixturevalue(request.param)
    return found
