"""`procgen compare CARD A B`: how a card differs between two families, or two variants."""

from __future__ import annotations

import sys
from argparse import Namespace
from collections.abc import Iterator, Sequence

from procgen.cli import PROBLEMS, SOUND, USAGE
from procgen.cli.ways import sound_workshop
from procgen.cli.wrapping import wrapped
from procgen.compose.compare import engines, text_of
from procgen.ledger.change import AS_PRINTED, Change
from procgen.ledger.changes import changes
from procgen.make.order import UnknownName, require


def run(words: Namespace) -> int:
    checked = sound_workshop(words.workshop)
    if checked is None:
        return PROBLEMS
    assert checked.context is not None
    known = engines(checked.context.benches)
    try:
        require("card", words.card, checked.workshop.procedures)
        for name in (words.a, words.b):
            require("family or variant", name, known)
    except UnknownName as unknown:
        print(f"procgen compare: {unknown}", file=sys.stderr)
        return USAGE
    found = changes(*(text_of(words.card, known[name]) for name in (words.a, words.b)))
    for line in lines(found, words.a, words.b):
        print(line)
    if not found:
        print(f"{words.card} says the same of both", file=sys.stderr)
    return SOUND


def lines(found: Sequence[Change], a: str, b: str) -> Iterator[str]:
    """What differs, and below it what the card says of the one and of the other; what differs alike stands together."""
    alike: dict[tuple[str, str], list[str]] = {}
    for change in found:
        alike.setdefault((change.was, change.now), []).append(change.what)
    width = max(len(a), len(b)) + 1
    for said, whats in alike.items():
        if said[0] == AS_PRINTED:
            yield from wrapped(f"{'; '.join(whats)}: not the same")
            continue
        there = [(name, text) for name, text in zip((a, b), said, strict=True) if text]
        only = f", {there[0][0]} only" if len(there) == 1 else ""
        yield from wrapped("; ".join(dict.fromkeys(whats)) + only)
        for name, text in there:
            yield from wrapped(f"  {f'{name}:':{width}} {text}", further=width + 3)
