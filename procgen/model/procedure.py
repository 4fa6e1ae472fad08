"""A procedure as its author wrote it: nothing settled for any family yet."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field

from procgen.files.problems import Place
from procgen.files.text import Text
from procgen.model.formula import Formula
from procgen.units.quantity import Quantity, Show
from procgen.values import dataclass


@dataclass(frozen=True, slots=True)
class CautionRef:
    """A caution that is named, by its id in the shop's cautions, and where."""

    id: str
    place: Place


@dataclass(frozen=True, slots=True)
class Limits:
    """What a value must lie within: formulas (mostly one name), either side optional; closed."""

    min: Formula | None
    max: Formula | None


@dataclass(frozen=True, slots=True)
class ValueSpec:
    """A named quantity: a `formula`, or `fixed` (`is:`) with a `source`."""

    name: str
    title: str
    each: tuple[str, ...]
    place: Place
    formula: Formula | None = None
    fixed: Quantity | None = None
    source: str = ""
    show: Show | None = None
    limits: Limits | None = None
    when: Formula | None = None
    because: str = ""  # for an estimate: what it leaves out
    show_place: Place | None = None


@dataclass(frozen=True, slots=True)
class Expect:
    """Readings outside near-below .. near+above are asked about, never dropped."""

    near: Formula
    below: Quantity
    above: Quantity


@dataclass(frozen=True, slots=True)
class Reading:
    """What a person measures (`dimension`, `gauge`) or sees (`choices`: name -> the words for it)."""

    name: str
    title: str
    each: tuple[str, ...]
    place: Place
    choices: Mapping[str, str] = field(default_factory=dict)
    dimension: str = ""  # a name of units.dimension.NAMES
    gauge: str = ""
    where: str = ""
    how: str = ""
    axis: Mapping[str, str] = field(default_factory=dict)  # member of the axis `axis` -> words
    at: Formula | None = None  # the members of the axis `depth`
    expect: Expect | None = None
    least: Mapping[str, int] = field(default_factory=dict)  # truth value's name -> how many readings it needs
    when: Formula | None = None


@dataclass(frozen=True, slots=True)
class Buy:
    """A part that follows from a branch. `item`: one of it, in words; `size`: the name of what size it must have."""

    item: str
    count: Formula
    size: str
    place: Place


@dataclass(frozen=True, slots=True)
class Branch:
    """`then` begins with the action (its first sentence); the rest is detail. The last may have no `when`."""

    id: str
    when: Formula | None  # None: otherwise
    then: Text
    place: Place
    buy: tuple[Buy, ...] = ()


@dataclass(frozen=True, slots=True)
class Decision:
    """An ordered table of branches; the first whose condition holds is taken."""

    name: str
    title: str
    each: tuple[str, ...]
    branches: tuple[Branch, ...]
    place: Place
    when: Formula | None = None
    impossible: tuple[tuple[Formula, str], ...] = ()  # what cannot be, with the reason


@dataclass(frozen=True, slots=True)
class TableSpec:
    """A table with a row for each member of `each`."""

    each: str
    show: tuple[tuple[str, Place], ...]  # names of values and facts


@dataclass(frozen=True, slots=True)
class DrawingSpec:
    """A drawing that a step asks for: a `view` of `trade/scenes`, one for each member of `each` unless that is ""."""

    view: str
    each: str
    place: Place


@dataclass(frozen=True, slots=True)
class Step:
    """One action."""

    id: str
    do: Text
    place: Place
    right: Text | None = None
    because: Text | None = None
    when: Formula | None = None
    cautions: tuple[CautionRef, ...] = ()
    show: tuple[tuple[str, Place], ...] = ()  # values printed as large figures under the step
    table: TableSpec | None = None
    read: tuple[tuple[str, Place], ...] = ()
    decide: tuple[tuple[str, Place], ...] = ()
    drawing: DrawingSpec | None = None


@dataclass(frozen=True, slots=True)
class HoldPoint:
    """Where work stops; `signers` 2 where a second person must have looked too."""

    text: Text
    signers: int
    when: Formula | None = None


@dataclass(frozen=True, slots=True)
class Procedure:
    """A procedure as it is written, for all families. What is named by id is kept in the file's order."""

    id: str
    title: str  # the hail name: two or three words
    question: str  # the subtitle
    stage: str  # short name of the stage on the scale ("Measure"); its number is its place in the deck
    reason: Text
    place: Place
    hold: HoldPoint | None
    record: tuple[str, ...]
    cautions: tuple[CautionRef, ...]
    tools: tuple[tuple[str, Place], ...]
    traits: tuple[tuple[str, Place], ...]
    values: Mapping[str, ValueSpec]
    readings: Mapping[str, Reading]
    decisions: Mapping[str, Decision]
    steps: tuple[Step, ...]
