"""What a job's readings come to."""

from __future__ import annotations

from typing import TYPE_CHECKING

from procgen.values import dataclass

if TYPE_CHECKING:
    from procgen.model.job import Job

CLEAR, CLOSE, WANTING, OPEN, PERSON = "clear", "too close to call", "wanting", "not yet known", "decided by a person"
INSIDE, OUTSIDE, TOO_CLOSE = "INSIDE", "OUTSIDE", "TOO CLOSE"


@dataclass(frozen=True, slots=True)
class Margin:
    """One comparison that had a say. Numbers in base units; texts as they print.

    `side`: INSIDE, OUTSIDE or TOO_CLOSE. `limit_is`: the limit is the "most" or the "least". `blunt`: the gauge is so
    coarse that nothing could be accepted between the limits. `settled_by`: the gauges fine enough to call it, were the
    same sizes read with them.
    """

    title: str
    value: float
    limit: float
    uncertainty: float
    guard: float
    limit_is: str
    side: str
    value_text: str
    limit_text: str
    margin_text: str
    uncertainty_text: str
    readings: tuple[str, ...]
    blunt: bool = False
    settled_by: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Verdict:
    """A decision's outcome for one member of a job. `outcomes`: (branch id, action) still possible."""

    card: str
    decision: str
    title: str
    each: str
    member: str
    state: str
    outcomes: tuple[tuple[str, str], ...]
    detail: str
    margins: tuple[Margin, ...]
    waits_for: tuple[str, ...]  # what to measure, where and with what; or what the family does not state
    settles: str = ""  # for too close: what would settle it
    by: str = ""  # of a person's decision
    reason: str = ""
    against: str = ""  # the action that the rule gave, where a person decided otherwise

    @property
    def is_settled(self) -> bool:
        return self.state in (CLEAR, PERSON)


@dataclass(frozen=True, slots=True)
class Judged:
    """A job with all its verdicts, in the order of work."""

    job: Job
    verdicts: tuple[Verdict, ...]

    @property
    def is_settled(self) -> bool:
        return all(verdict.is_settled for verdict in self.verdicts)
