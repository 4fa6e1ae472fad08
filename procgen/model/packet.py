"""A job as people see it: on the terminal, on paper, on its page. Every number is text already, or a share of a bar."""

from __future__ import annotations

from typing import TYPE_CHECKING

from procgen.model.verdict import CLEAR, CLOSE, PERSON
from procgen.values import dataclass

if TYPE_CHECKING:
    from procgen.model.card import Stage
    from procgen.model.scene import Scene

DONE, BEGUN, WAITING, UNCALLED = "done", "begun", "not begun", "not called for"


@dataclass(frozen=True, slots=True)
class Bar:
    """A value against its limits, as shares of the bar's length: the dot, its whisker, a tick for each limit.

    `beyond`: the value lies outside what the bar shows, and the dot stands at its end. `from_nought`: the bar's left
    end is nought; else only the stretch round the limits is shown.
    """

    dot: float
    low: float
    high: float
    least: float | None
    most: float | None
    beyond: bool
    from_nought: bool


@dataclass(frozen=True, slots=True)
class Line:
    """One value against one limit or two. `whose`: the members it holds for, the worst of them where several.

    `readings`: those that have a share in it, in words and with what was read. `is_measured`: else it is counted.
    """

    title: str
    whose: str
    value: str
    limit: str  # "≤ 0.080 mm", "0.025–0.065 mm"
    margin: str
    uncertainty: str
    side: str  # INSIDE, OUTSIDE, TOO CLOSE
    readings: tuple[str, ...]
    bar: Bar
    blunt: bool = False
    is_measured: bool = True

    @property
    def of(self) -> str:
        """ "0.077 of ≤ 0.080 mm"; of what is counted and should not be there, "none" or how many."""
        if self.limit == "≤ 0" and not self.is_measured:
            return "none" if self.value == "0" else self.value
        return f"{self.value} of {self.limit}"

    @property
    def sure(self) -> str:
        """ "0.077 of ≤ 0.080 mm, U 0.004 mm"; of what is counted without U."""
        return f"{self.of}, U\u00a0{self.uncertainty}" if self.is_measured else self.of


@dataclass(frozen=True, slots=True)
class Finding:
    """One decision's outcome, for all members whose outcome is the same.

    `action`: what is done; for what is not settled the actions still possible. `lines`: the comparisons that had a say.
    """

    card: str
    card_title: str
    stage: int
    decision: str
    title: str
    whose: str
    state: str
    action: str
    detail: str
    lines: tuple[Line, ...]
    waits_for: tuple[str, ...]
    settles: str
    by: str
    reason: str
    against: str
    whole: bool  # of the engine as a whole


@dataclass(frozen=True, slots=True)
class Purchase:
    """A part to order: how many, what is on the shelf already, and what it is for."""

    count: int
    item: str
    size: str
    on_shelf: int
    whose: str
    why: str


@dataclass(frozen=True, slots=True)
class Progress:
    """One stage of the deck; `revision` of the card as it is now.

    `state`: DONE, BEGUN, WAITING, or UNCALLED, where what was decided before leaves its card nothing to decide.
    """

    stage: Stage
    card: str
    title: str
    state: str
    open: int  # decisions not settled
    revision: str
    hold: str  # what must be true where work stops, "" for none
    signers: tuple[str, ...]

    @property
    def is_left(self) -> bool:
        """Whether it is still to be done."""
        return self.state in (BEGUN, WAITING)


@dataclass(frozen=True, slots=True)
class SheetTable:
    """Boxes to write in. `rows`: a label, and a cell a column: the reading as taken, or None for a box to fill."""

    head: tuple[str, ...]
    wide: tuple[bool, ...]  # of each column: a figure, not a letter
    rows: tuple[tuple[str, tuple[str | None, ...]], ...]
    corner: str = ""  # what the rows' labels are, where nobody could tell


@dataclass(frozen=True, slots=True)
class Sheet:
    """A blank reading sheet for what is wanting of one card. `notes`: for each reading where, how, and its letters."""

    card: str
    title: str
    gauge: str
    notes: tuple[tuple[str, str], ...]
    tables: tuple[tuple[str, SheetTable], ...]  # each with its heading


@dataclass(frozen=True, slots=True)
class BoreMap:
    """One cylinder as it was measured: the drawing, its sizes in words, its verdicts."""

    cylinder: str
    scene: Scene
    sizes: tuple[tuple[str, str], ...]  # "largest", "98.498 mm"
    lines: tuple[Line, ...]
    verdict: str
    engine: str = ""  # what was decided of the whole engine


@dataclass(frozen=True, slots=True)
class Change:
    """A figure before and after, and the difference."""

    title: str
    whose: str
    before: str
    after: str
    removed: str


@dataclass(frozen=True, slots=True)
class PlugCount:
    """One plug, to be ticked out and in."""

    number: str
    id: str
    thread: str
    where: str


@dataclass(frozen=True, slots=True)
class Before:
    """Two measurings of one card side by side."""

    card_title: str
    earlier: str  # session and day
    later: str
    changes: tuple[Change, ...]


@dataclass(frozen=True, slots=True)
class CoverRow:
    """One row of the cover: a name, a word, a bar for what was measured, and where or why."""

    name: str
    word: str
    line: Line | None
    where: str


@dataclass(frozen=True, slots=True)
class Packet:
    """A job's state and verdicts, and what follows from them."""

    id: str
    title: str
    family: str
    family_name: str
    variant: str
    marks: tuple[tuple[str, str], ...]
    address: str  # "jobs/marsh-hen"
    is_settled: bool
    sentence: str
    progress: tuple[Progress, ...]
    cover: tuple[CoverRow, ...]
    order: tuple[tuple[int, str], ...]  # the purchases for the cover: how many, and what in which sizes
    findings: tuple[Finding, ...]  # what needs somebody first
    queries: tuple[str, ...]  # readings that look like a slip
    shells_out: tuple[str, ...]
    purchases: tuple[Purchase, ...]
    plugs: tuple[PlugCount, ...]
    water_plugs: tuple[PlugCount, ...]
    maps: tuple[BoreMap, ...]
    sheets: tuple[Sheet, ...]
    befores: tuple[Before, ...]
    rule: str
    measured_on: str  # the day of the last session
    problems: tuple[str, ...] = ()

    @property
    def now(self) -> Progress | None:
        """The first stage that is still to be done."""
        return next((one for one in self.progress if one.is_left), None)

    @property
    def begun(self) -> tuple[Progress, ...]:
        """The stages that were begun, those that are done among them."""
        return tuple(one for one in self.progress if one.state in (BEGUN, DONE))

    @property
    def told(self) -> tuple[Finding, ...]:
        """The findings of cards that were begun, and whatever else is settled."""
        begun = {one.card for one in self.begun}
        return tuple(one for one in self.findings if one.card in begun or one.state in (CLEAR, CLOSE, PERSON))
