"""What compose settles and paper and web print. Every number is already text here: nobody below works anything out.

A card is a list of items in reading order, the order in which they meet the line of work.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from typing import TYPE_CHECKING

from procgen.values import dataclass

if TYPE_CHECKING:
    from procgen.model.scene import Scene


@dataclass(frozen=True, slots=True)
class Run:
    """A stretch of text in one setting. `figure` marks a number with its unit, which never part."""

    text: str
    strong: bool = False
    emphasis: bool = False
    figure: bool = False


Prose = tuple[Run, ...]


def plain(prose: Prose) -> str:
    return "".join(run.text for run in prose)


@dataclass(frozen=True, slots=True)
class Figure:
    """One quantity as a reader sees it.

    `state`: known; blank (not yet known: a box to write in); wanting (comes from readings at the stand: a box too);
    none (does not apply: a dash). `relation` is "", "≤" or "≥"; `also` the bracketed other unit; `variant` names the
    variant where several differ.
    """

    text: str
    unit: str = ""
    relation: str = ""
    also: str = ""
    state: str = "known"
    variant: str = ""
    note: str = ""  # "shop practice", "estimate"

    @property
    def space(self) -> str:
        """Between number and unit: none before degrees (ISO 80000-1)."""
        return "\u202f" if self.unit and self.unit != "°" else ""


@dataclass(frozen=True, slots=True)
class Row:
    """A value: label left, figures right. More than one figure only where variants differ."""

    name: str  # the value's name, for "where from?"
    label: str
    figures: tuple[Figure, ...]


@dataclass(frozen=True, slots=True)
class Grid:
    """A table with a row for each member of something: cam bearings, plugs, cylinders."""

    head: tuple[str, ...]  # first is the name of the members' column
    rows: tuple[tuple[str, tuple[Figure, ...]], ...]
    title: str = ""


@dataclass(frozen=True, slots=True)
class Panel:
    """A signal panel. Stands across the line before the step it guards (`step` "" for the whole card)."""

    id: str
    level: str
    symbols: tuple[str, ...]
    hazard: str
    consequence: str
    avoid: str
    defers_to: str
    step: str = ""


@dataclass(frozen=True, slots=True)
class Box:
    """A reading to take: measured (`unit`, `gauge`) or chosen (`choices`), for each of `members`."""

    name: str
    title: str
    members: tuple[str, ...] = ()
    member_word: str = ""  # "cylinder"
    choices: tuple[tuple[str, str], ...] = ()
    unit: str = ""
    gauge: str = ""
    where: str = ""
    how: str = ""
    stations: tuple[str, ...] = ()  # depths to measure at, as printed
    stations_unit: str = ""
    axes: tuple[tuple[str, str], ...] = ()
    expect: str = ""
    depths: int = 1  # how many it is read at; 0 where they are not known or the variants have not as many


@dataclass(frozen=True, slots=True)
class Arm:
    """One branch. `conditions`: alternatives, each a list of things that hold together; () for otherwise."""

    id: str
    conditions: tuple[tuple[Prose, ...], ...]
    action: str
    detail: Prose
    taken: bool | None = None  # None without a job


@dataclass(frozen=True, slots=True)
class Path:
    """A decision drawn as a path of arms; the first whose condition holds is left by."""

    name: str
    title: str
    each: str  # "each cylinder", or ""
    arms: tuple[Arm, ...]
    waits_for: tuple[str, ...] = ()  # what the family does not state yet, in words


@dataclass(frozen=True, slots=True)
class Conclusion:
    """A decision that this family's layout settles by itself."""

    name: str
    title: str
    action: str
    detail: Prose
    because: str


@dataclass(frozen=True, slots=True)
class StepItem:
    """A step with all that hangs on it. Its panels are in `panels` and stand before it, on its face."""

    id: str
    number: int
    action: Prose  # the first sentence
    detail: Prose  # what follows it
    only_if: Prose = ()  # for a step that waits on a decision: "If “replace all 5”:"
    right: Prose = ()
    because: Prose = ()
    panels: tuple[Panel, ...] = ()
    rows: tuple[Row, ...] = ()
    grids: tuple[Grid, ...] = ()
    boxes: tuple[Box, ...] = ()
    decisions: tuple[Path | Conclusion, ...] = ()
    drawings: tuple[str, ...] = ()  # keys of Card.scenes


@dataclass(frozen=True, slots=True)
class Hold:
    """Where work stops until somebody has made sure, and who signs."""

    text: Prose
    signers: tuple[str, ...]  # ("fitter",) or ("fitter", "second")


@dataclass(frozen=True, slots=True)
class Stage:
    """A card's place in the order of work."""

    number: int
    name: str
    total: int
    before: str  # name of the stage before, "" for the first
    after: str


@dataclass(frozen=True, slots=True)
class Origin:
    """Where a value comes from: for "where from?" on the page and `procgen trace`."""

    name: str
    title: str
    figure: Figure
    formula: str
    source: str
    place: str  # path:line:column
    inputs: tuple[Origin, ...] = ()


@dataclass(frozen=True, slots=True)
class Card:
    """One procedure for one family, with every number, branch and amendment settled: all that paper and web see."""

    id: str
    family: str
    family_name: str
    family_describe: str
    title: str
    question: str
    stage: Stage
    reason: Prose
    bring: tuple[str, ...]
    panels: tuple[Panel, ...]  # for the whole card
    steps: tuple[StepItem, ...]
    hold: Hold | None
    record: tuple[str, ...]
    revision: str
    address: str  # "bittern/cylinder-survey"; the page is site/<address>.html
    origins: Mapping[str, Origin] = field(default_factory=dict)
    missing: tuple[str, ...] = ()  # what this family does not state yet and this card needs, in words
    scenes: Mapping[str, Scene] = field(default_factory=dict)  # by id, those that its steps show
    live: str | None = None  # JSON that its page judges readings by; None for a card that reads and decides nothing


@dataclass(frozen=True, slots=True)
class FamilySheet:
    """What a family's page and a deck's cover show: sizes, traits, variants."""

    id: str
    name: str
    describe: str
    variants: tuple[tuple[str, str], ...]
    sizes: tuple[Row, ...]
    traits: tuple[tuple[str, str, str], ...]  # title, value in words, "typed" or how it was concluded
    missing: tuple[str, ...]
    outline: Scene | None = None  # the block from the front, where its sizes are known


@dataclass(frozen=True, slots=True)
class Deck:
    """All cards of a family, in the order of work."""

    family: FamilySheet
    cards: tuple[Card, ...]


@dataclass(frozen=True, slots=True)
class Shop:
    """What every card and page says of the shop."""

    name: str
    site: str
    approved_by: str
    approved_on: str
