"""The demo workshop, and the data of its cards' pages."""

from __future__ import annotations

import json
from typing import Any

import pytest

from procgen.compose import benches
from procgen.compose.live import live, opened
from procgen.model.workshop import Workshop
from procgen.web.slices import of_page
from tests import demo


@pytest.fixture(scope="session")
def workshop() -> Workshop:
    return demo.workshop()


@pytest.fixture(scope="session")
def data(workshop: Workshop) -> dict[str, dict[str, Any]]:
    """By family and card what its page fetches."""
    found: dict[str, dict[str, Any]] = {}
    for family in workshop.families.values():
        made = opened(benches(workshop, family))
        lives = {id: live(id, made) for id in workshop.procedures}
        cards = {id: json.loads(one) for id, one in lives.items() if one is not None}
        found[family.id] = {id: of_page(id, cards) for id in cards}
    return found
