"""Verdicts that say the same, told once for all their members: what needs somebody, then the rest in order of work."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from procgen.compose.packet.lines import lines_of
from procgen.compose.packet.members import called
from procgen.compose.readings import Readings
from procgen.model.packet import Finding
from procgen.model.verdict import CLEAR, CLOSE, OPEN, PERSON, WANTING, Verdict

_RANK: Mapping[str, int] = {CLOSE: 0, WANTING: 1, OPEN: 2, CLEAR: 3, PERSON: 3}


def findings(
    verdicts: Sequence[Verdict], titles: Mapping[str, tuple[int, str]], readings: Readings
) -> tuple[Finding, ...]:
    """`titles`: of each card its stage and hail name."""
    groups: dict[tuple[object, ...], list[Verdict]] = {}
    for verdict in verdicts:
        groups.setdefault(_alike(verdict), []).append(verdict)
    found = [_finding(group, *titles[group[0].card], readings) for group in groups.values()]
    return tuple(sorted(found, key=_pressing))


def actions(verdict: Verdict) -> str:
    return " or ".join(dict.fromkeys(action for _, action in verdict.outcomes))


def _alike(verdict: Verdict) -> tuple[object, ...]:
    settles = (verdict.settles, verdict.member) if verdict.state == CLOSE else ""
    return (
        verdict.card, verdict.decision, verdict.state, verdict.outcomes, verdict.waits_for, settles,
        verdict.by, verdict.reason, verdict.against,
    )  # fmt: skip


def _finding(group: Sequence[Verdict], stage: int, title: str, readings: Readings) -> Finding:
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
        detail=_detail(group),
        lines=lines_of(group, first.each, readings),
        waits_for=first.waits_for,
        settles=first.settles,
        by=first.by,
        reason=first.reason,
        against=first.against,
        whole=not first.each,
    )


def _detail(group: Sequence[Verdict]) -> str:
    """What all details share, then what differs, by member."""
    sentences = [re.split(r"(?<=[.?!]) ", verdict.detail) for verdict in group]
    if len({len(said) for said in sentences}) != 1 or len(group) == 1:
        return group[0].detail
    same = [said[0] for said in zip(*sentences, strict=True) if len(set(said)) == 1]
    for said in zip(*sentences, strict=True):
        if len(set(said)) > 1:
            same += [f"{verdict.member}: {one}" for verdict, one in zip(group, said, strict=True)]
    return " ".join(same)


def _pressing(finding: Finding) -> tuple[int, int]:
    return _RANK[finding.state], finding.stage
