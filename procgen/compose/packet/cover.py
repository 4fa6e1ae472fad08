"""The rows of a packet's cover: what needs somebody, what lies outside, what is done about it, what lies inside."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from procgen.model.packet import WAITING, CoverRow, Finding, Progress, Purchase
from procgen.model.verdict import CLEAR, CLOSE, INSIDE, OPEN, OUTSIDE, PERSON, TOO_CLOSE, WANTING

MOST, LEAST, LATEST = 14, 7, 4
"""Rows that a cover takes: at most, parts to order among them; at least for verdicts; of actions that follow from rules
alone and buy nothing.
"""


def cover(found: Sequence[Finding], stages: Sequence[Progress], buy: Sequence[Purchase]) -> Iterator[CoverRow]:
    """As many rows as a cover takes, the most pressing first."""
    begun = {one.card for one in stages if one.state != WAITING}
    rows = [
        *_lines((f for f in found if f.state == CLOSE), TOO_CLOSE),
        *(_wanting(f) for f in found if f.state in (WANTING, OPEN) and f.card in begun),
        *_lines((f for f in found if f.state == CLEAR), OUTSIDE),
        *(_action(f) for f in _acts(found, buy)),
        *_lines((f for f in reversed(found) if f.state == CLEAR), INSIDE),
    ]
    parts = len(list(order(buy)))
    yield from rows[: max(MOST - parts - (2 if parts else 0), LEAST)]


def order(buy: Sequence[Purchase]) -> Iterator[tuple[int, str]]:
    """One row for each kind of part, with its sizes; those that the shelf has are not ordered."""
    kinds: dict[str, list[Purchase]] = {}
    for part in buy:
        if part.count:
            kinds.setdefault(part.item, []).append(part)
    for item, parts in kinds.items():
        sizes = [f"{part.count if len(parts) > 1 and part.count > 1 else ''} {part.size}".strip() for part in parts]
        said = ", ".join(size for size in sizes if size)
        shelf = sum(part.on_shelf for part in parts)
        yield sum(part.count for part in parts), f"{item} {said}".strip() + (f"; {shelf} on the shelf" if shelf else "")


def _acts(found: Sequence[Finding], buy: Sequence[Purchase]) -> Iterator[Finding]:
    """What a person decided, what is bought for, and what else was decided of the whole engine, the latest first."""
    reasons = {part.why for part in buy}
    decided = [f for f in found if f.state in (CLEAR, PERSON)]
    first = [f for f in decided if f.state == PERSON or f"{f.card_title}: {f.action}" in reasons]
    yield from sorted(first, key=lambda f: (f.state != PERSON, -f.stage))
    others = sorted((f for f in decided if f.whole and f not in first), key=lambda f: -f.stage)
    yield from others[:LATEST]


def _lines(found: Iterator[Finding], side: str) -> Iterator[CoverRow]:
    """The worst of each value; counted things, which have no gauge, aside."""
    seen = set()
    for finding in found:
        for line in finding.lines:
            key = (finding.card, line.title)
            if line.side == side and key not in seen and line.is_measured:
                seen.add(key)
                whose = line.whose or finding.card_title
                yield CoverRow(line.title[:1].upper() + line.title[1:], side, line, f"{whose}: {line.of}")


def _wanting(finding: Finding) -> CoverRow:
    whose = f"{finding.whose}: " if finding.whose else ""
    wanted = "; ".join(what.split(",")[0] for what in finding.waits_for[:3])
    more = ", and more" if len(finding.waits_for) > 3 else ""
    return CoverRow(finding.card_title, finding.state.upper(), None, f"{whose}{wanted}{more}")


def _action(finding: Finding) -> CoverRow:
    why = f"{finding.by}: {finding.reason}" if finding.by else finding.detail
    where = ". ".join(part for part in (finding.whose, why) if part)
    return CoverRow(finding.card_title, finding.action.upper(), None, where)
