"""How one card differs between two engines: by what it says, line by line."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from difflib import SequenceMatcher

from procgen.compose.bench import Bench
from procgen.compose.card import compose_card, stage_of
from procgen.compose.revision import dump

Benches = Mapping[str, Bench]
"""One for each variant, by the name that prints."""


def engines(benches: Mapping[str, Benches]) -> Mapping[str, Benches]:
    """What can be compared, by id: every family with all its variants, and every variant alone."""
    found = dict(benches)
    for made in benches.values():
        found |= {bench.variant.id: {name: bench} for name, bench in made.items() if bench.variant is not None}
    return found


def differences(card: str, a: Benches, b: Benches) -> Iterator[str]:
    """What only the first says ("- …"), and what only the second ("+ …"), each under the step it stands in.

    Identical cards give nothing.
    """
    ours, theirs = (_lines(card, one) for one in (a, b))
    for what, from_a, to_a, from_b, to_b in SequenceMatcher(None, ours, theirs, autojunk=False).get_opcodes():
        if what != "equal":
            step = next((line for line in reversed(ours[: from_a + 1]) if line[:1].isdigit()), "")
            if step and step not in ours[from_a:to_a]:
                yield f"at {step}"
            yield from (f"- {line.strip()}" for line in ours[from_a:to_a])
            yield from (f"+ {line.strip()}" for line in theirs[from_b:to_b])
            yield ""


def _lines(card: str, benches: Benches) -> list[str]:
    bench = next(iter(benches.values()))
    return list(dump(compose_card(card, benches, stage_of(card, bench.workshop))))
