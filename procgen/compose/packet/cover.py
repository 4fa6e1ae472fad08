"""The rows of a packet's cover: what needs somebody, what lies outside, what is done about it, what lies inside."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from procgen.model.packet import WAITING, CoverRow, Finding, Line, Progress, Purchase
from procgen.model.verdict import CLEAR, CLOSE, INSIDE, OPEN, OUTSIDE, PERSON, TOO_CLOSE, WANTING

MOST = 12
"""Rows that a cover takes with all else that stands on it."""


def cover(found: Sequence[Finding], stages: Sequence[Progress], buy: Sequence[Purchase]) -> Iterator[CoverRow]:
    """At most MOST rows, the most pressing first."""
    begun = {one.card for one in stages if one.state != WAITING}
    rows = [
        *_lines((f for f in found if f.state == CLOSE), TOO_CLOSE),
        *(_wanting(f) for f in found if f.state in (WANTING, OPEN) and f.card in begun),
        *_lines((f for f in found if f.state == CLEAR), OUTSIDE),
        *(_action(f) for f in _acts(found, buy)),
        *_lines((f for f in reversed(found) if f.state == CLEAR), INSIDE),
    ]
    yield from rows[:MOST]


def _acts(found: Sequence[Finding], buy: Sequence[Purchase]) -> Iterator[Finding]:
    """What a person decided, what is bought for, and what else was decided of the whole engine, the latest first."""
    reasons = {part.why for part in buy}
    decided = [f for f in found if f.state in (CLEAR, PERSON)]
    first = [f for f in decided if f.state == PERSON or f"{f.card_title}: {f.action}" in reasons]
    yield from first
    yield from sorted((f for f in decided if f.whole and f not in first), key=lambda f: -f.stage)


def _lines(found: Iterator[Finding], side: str) -> Iterator[CoverRow]:
    """The worst of each value; counted things, which have no gauge, aside."""
    seen = set()
    for finding in found:
        for line in finding.lines:
            key = (finding.card, line.title)
            if line.side == side and key not in seen and _is_measured(line):
                seen.add(key)
                whose = line.whose or finding.card_title
                yield CoverRow(line.title[:1].upper() + line.title[1:], side, line, f"{whose}: {line.of}")


def _is_measured(line: Line) -> bool:
    return any(digit in "123456789" for digit in line.uncertainty)


def _wanting(finding: Finding) -> CoverRow:
    whose = f"{finding.whose}: " if finding.whose else ""
    wanted = "; ".join(what.split(",")[0] for what in finding.waits_for[:3])
    more = ", and more" if len(finding.waits_for) > 3 else ""
    return CoverRow(finding.card_title, finding.state.upper(), None, f"{whose}{wanted}{more}")


def _action(finding: Finding) -> CoverRow:
    why = f"{finding.by}: {finding.reason}" if finding.by else finding.detail
    where = ". ".join(part for part in (finding.whose, why) if part)
    return CoverRow(finding.card_title, finding.action.upper(), None, where)
