"""A workshop: the shop, what its procedures share, its procedures, families and jobs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from pathlib import Path
from typing import TYPE_CHECKING

from procgen.model.ledger import Ledger
from procgen.values import dataclass

if TYPE_CHECKING:  # printing needs stocks, and nothing that these hold
    from procgen.files.problems import Place
    from procgen.model.family import Family
    from procgen.model.job import Job
    from procgen.model.procedure import Procedure
    from procgen.units.quantity import Quantity


@dataclass(frozen=True, slots=True)
class Caution:
    """What may hurt or break, how, and what keeps it from that: ANSI Z535.6, ISO 3864-2."""

    id: str
    level: str  # DANGER WARNING CAUTION NOTICE
    symbols: tuple[str, ...]  # ISO 7010 numbers; drawn by us
    hazard: str
    consequence: str
    avoid: str
    defers_to: str
    source: str
    place: Place


@dataclass(frozen=True, slots=True)
class Trait:
    """A fact of a family that procedures branch on. `values`: word -> what it means, in words a reader sees.
    `clause`: how a condition says it, "the block is {}"; "" for title and value."""

    id: str  # "cam.shells"
    title: str
    values: Mapping[str, str]
    concluded_by: str  # name of the trade function that works it out; "" where the author types it
    place: Place
    clause: str = ""


@dataclass(frozen=True, slots=True)
class Tool:
    """A tool, gauge kind or consumable as named on a card's "Bring" line.

    `only`: traits that an engine must have for it to be brought, and the word of each.
    """

    id: str
    name: str
    kind: str  # tool gauge consumable
    place: Place
    only: Mapping[str, tuple[str, Place]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Table:
    """A published table: rows by id, columns typed, one source for all or one a row."""

    id: str
    title: str
    source: str
    rows: Mapping[str, Mapping[str, Quantity | str]]
    place: Place


@dataclass(frozen=True, slots=True)
class Hole:
    """Where a card is punched."""

    shape: str  # round, slot
    across: float  # mm
    centre: tuple[float, float]  # mm from the top left of the front
    keep_clear: float  # mm of paper kept clear round it
    length: float = 0.0  # of a slot, mm


@dataclass(frozen=True, slots=True)
class ReadFrom:
    """How far away people stand, mm."""

    steps: float = 700.0
    values: float = 1000.0
    title: float = 2000.0
    hand: float = 500.0
    glance: float = 2000.0  # of a glance card, all but its foot


@dataclass(frozen=True, slots=True)
class Stock:
    """A card's physical size, mm."""

    id: str
    name: str
    width: float  # mm
    height: float
    seal_margin: float
    corner_radius: float
    hole: Hole | None
    source: str
    place: Place
    read_from: ReadFrom | None = None  # None: as the workshop says


@dataclass(frozen=True, slots=True)
class Gauge:
    """An instrument, and how sure its readings are."""

    id: str
    kind: str
    step: Quantity | None
    uncertainty: Quantity | None  # expanded, k = 2
    range: tuple[Quantity, Quantity] | None
    place: Place
    difference_uncertainty: Quantity | None = None  # between readings at one setting

    def reaches(self, size: float) -> bool:
        """Whether its range takes that in, base units; a gauge that states no range takes in everything."""
        return self.range is None or self.range[0].value <= size <= self.range[1].value


@dataclass(frozen=True, slots=True)
class Rule:
    """A shop rule: `shop.NAME` in formulas."""

    name: str
    title: str
    value: Quantity
    source: str
    place: Place


@dataclass(frozen=True, slots=True)
class Sheets:
    """The paper that cards are printed on several to a sheet. `paper`: a4 or letter, "" whichever holds more.

    `duplex`: the sheet's edge that a two-sided printer turns it about, long or short; fold, for one that prints one
    side: front and back lie side by side and the card is folded between them.
    """

    paper: str = ""
    duplex: str = "long"


@dataclass(frozen=True, slots=True)
class Workshop:
    """Everything that a workshop's folder holds."""

    root: Path
    name: str
    site: str
    show: Mapping[str, str]  # dimension name -> unit symbol
    also: bool  # the other unit in brackets
    stock: str
    read_from: ReadFrom
    deck: tuple[tuple[str, Place], ...]
    approved_by: str
    approved_on: str
    guard: float
    place: Place
    gauges: Mapping[str, Gauge] = field(default_factory=dict)
    rules: Mapping[str, Rule] = field(default_factory=dict)
    cautions: Mapping[str, Caution] = field(default_factory=dict)
    traits: Mapping[str, Trait] = field(default_factory=dict)
    tools: Mapping[str, Tool] = field(default_factory=dict)
    tables: Mapping[str, Table] = field(default_factory=dict)
    stocks: Mapping[str, Stock] = field(default_factory=dict)
    procedures: Mapping[str, Procedure] = field(default_factory=dict)
    families: Mapping[str, Family] = field(default_factory=dict)
    jobs: Mapping[str, Job] = field(default_factory=dict)
    theme: str = "colour"  # or mono
    sheets: Sheets = Sheets()
    awaits: Mapping[str, tuple[tuple[str, Place], ...]] = field(default_factory=dict)  # words of traits yet to come
    ledger: Ledger = field(default_factory=Ledger)
