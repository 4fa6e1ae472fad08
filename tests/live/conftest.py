"""The demo workshop, and the data of its cards' pages."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from procgen.compose import benches
from procgen.compose.live import live, opened
from procgen.load.workshop import load_workshop
from procgen.model.workshop import Workshop

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="session")
def workshop() -> Workshop:
    found = load_workshop(ROOT, lambda path: Path(path).read_bytes()).workshop
    assert found is not None
    return found


@pytest.fixture(scope="session")
def data(workshop: Workshop) -> dict[str, dict[str, Any]]:
    """By family and card."""
    found: dict[str, dict[str, Any]] = {}
    for family in workshop.families.values():
        made = opened(benches(workshop, family))
        lives = {id: live(id, made) for id in workshop.procedures}
        found[family.id] = {id: json.loads(one.data) for id, one in lives.items() if one is not None}
    return found
