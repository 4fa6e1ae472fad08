"""Verdicts that say the same, told once for all their members; what needs somebody stands first."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from procgen.compose.packet.lines import lines_of
from procgen.compose.packet.members import called
from procgen.model.packet import Finding
from procgen.model.verdict import CLEAR, CLOSE, OPEN, OUTSIDE, PERSON, WANTING, Verdict

_RANK: Mapping[str, int] = {CLOSE: 0, WANTING: 1, OPEN: 2, CLEAR: 4, PERSON: 5}


def findings(verdicts: Sequence[Verdict], titles: Mapping[str, tuple[int, str]]) -> tuple[Finding, ...]:
    """`titles`: of each card its stage and hail name."""
    groups: dict[tuple[object, ...], list[Verdict]] = {}
    for verdict in verdicts:
        groups.setdefault(_alike(verdict), []).append(verdict)
    found = [_finding(group, *titles[group[0].card]) for group in groups.values()]
    return tuple(sorted(found, key=_pressing))


def actions(verdict: Verdict) -> str:
    return " or ".join(dict.fromkeys(action for _, action in verdict.outcomes))


def _alike(verdict: Verdict) -> tuple[object, ...]:
    settles = (verdict.settles, verdict.member) if verdict.state == CLOSE else ""
    return (
        verdict.card, verdict.decision, verdict.state, verdict.outcomes, verdict.detail, verdict.waits_for, settles,
        verdict.by, verdict.reason, verdict.against,
    )  # fmt: skip


def _finding(group: Sequence[Verdict], stage: int, title: str) -> Finding:
    first = group[0]
    return Finding(
        card=first.card,
        card_title=title,
        stage=stage,
        decision=first.decision,
        title=first.title,
        whose=called(first.each, [verdict.member for verdict in group]),
        state=first.state,
        action=actions(first),
        detail=first.detail,
        lines=lines_of(group, first.each),
        waits_for=first.waits_for,
        settles=first.settles,
        by=first.by,
        reason=first.reason,
        against=first.against,
        whole=not first.each,
    )


def _pressing(finding: Finding) -> tuple[int, int]:
    rank = _RANK[finding.state]
    if finding.state == CLEAR and any(line.side == OUTSIDE for line in finding.lines):
        rank = 3
    return rank, finding.stage


def begun(found: Iterable[Finding], cards: Iterable[str]) -> tuple[Finding, ...]:
    """Those of cards that were begun, and whatever is settled without."""
    names = set(cards)
    return tuple(one for one in found if one.card in names or one.state in (CLEAR, PERSON))
