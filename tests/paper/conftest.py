"""One press for all these tests, as a process keeps one, and every sample printed once."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest
import samples

from procgen.draw.fonts import Fonts, prepare
from procgen.files.home import resources
from procgen.model.card import Card
from procgen.paper.press import Press, Printed

Printer = Callable[..., Printed]


@pytest.fixture(scope="session")
def font_directory(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("fonts")


@pytest.fixture(scope="session")
def fonts(font_directory: Path) -> Fonts:
    return prepare(font_directory)


@pytest.fixture(scope="session")
def press(fonts: Fonts) -> Press:
    return Press(fonts, [resources("templates")])


@pytest.fixture(scope="session")
def printed(press: Press) -> Printer:
    """printed(card, stock="a5", theme="colour", near=False), each combination printed once."""
    cards = {card.id: card for card in samples.CARDS}

    @cache
    def once(id: str, stock: str, theme: str, near: bool) -> Printed:
        distances = samples.NEAR if near else samples.READ_FROM
        return press.card(cards[id], samples.SHOP, samples.STOCKS[stock], distances, theme)

    def of(card: Card, stock: str = "a5", theme: str = "colour", near: bool = False) -> Printed:
        return once(card.id, stock, theme, near)

    return of
