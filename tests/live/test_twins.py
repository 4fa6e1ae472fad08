"""A function that a page has to work out is one that the page has."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from procgen.compose import benches
from procgen.compose.live import live, opened
from tests.demo import workshop

ON_THE_PAGE = {
    "only", "abs", "sqrt", "next_up", "max", "min", "mean", "span", "sum", "count", "any", "all",
}  # fmt: skip


def calls(part: Any) -> Iterator[str]:
    if isinstance(part, dict):
        part = list(part.values())
    if isinstance(part, list):
        if part[:1] == ["call"]:
            yield part[1]
        for one in part:
            yield from calls(one)


def test_every_function_on_a_page_has_its_twin() -> None:
    found = set()
    for family in ("bittern", "curlew"):
        made = opened(benches(workshop(), workshop().families[family]))
        for id in workshop().procedures:
            if (one := live(id, made)) is not None:
                found |= set(calls(json.loads(one)))
    assert found >= {"max", "span"}
    assert found <= ON_THE_PAGE
