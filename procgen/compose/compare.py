"""One card for two engines, to be set side by side."""

from __future__ import annotations

from collections.abc import Mapping

from procgen.compose.bench import Bench
from procgen.compose.card import compose_card, stage_of
from procgen.compose.revision import said

Benches = Mapping[str, Bench]
"""One for each variant, by the name that prints."""


def engines(benches: Mapping[str, Benches]) -> Mapping[str, Benches]:
    """What can be compared, by id: every family with all its variants, and every variant alone."""
    found = dict(benches)
    for made in benches.values():
        found |= {bench.variant.id: {name: bench} for name, bench in made.items() if bench.variant is not None}
    return found


def text_of(card: str, benches: Benches) -> str:
    """What a card says of these, as its revision is made from it."""
    bench = next(iter(benches.values()))
    return said(compose_card(card, benches, stage_of(card, bench.workshop)))
