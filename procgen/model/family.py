"""How an engine is built: what the author wrote of one family, checked and typed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field

from procgen.files.problems import Place
from procgen.files.text import Text
from procgen.model.procedure import CautionRef, Step, ValueSpec
from procgen.units.quantity import Quantity
from procgen.values import dataclass

Point = tuple[float, float, float]
"""Block coordinates, mm, right-handed: x rearward from the front face, y to the right as seen from the flywheel end,
z up from the crank centreline."""


@dataclass(frozen=True, slots=True)
class Fact:
    """One thing that the family states. `value` is None while it is not yet known.

    A quantity, a word (a thread, a clock as text is a Quantity of dimension CLOCK), or a tuple of quantities.
    """

    value: Quantity | str | tuple[Quantity, ...] | None
    place: Place
    source: str = ""  # as the author gave it; "" means the family's own drawing


@dataclass(frozen=True, slots=True)
class Variant:
    """What differs within a family; `facts` lie over the family's own."""

    id: str
    name: str
    facts: Mapping[str, Fact]
    place: Place


@dataclass(frozen=True, slots=True)
class Opening:
    """What an end of a passage opens to. `of` is a plug's or passage's id, or the number of a main or cam bearing."""

    kind: str  # plug passage main cam groove deck pump pickup filter_in filter_out open
    of: str
    place: Place

    def __str__(self) -> str:
        return f"{self.kind} {self.of}".strip()


@dataclass(frozen=True, slots=True)
class Passage:
    """One straight oil drilling."""

    id: str
    start: Point
    end: Point
    diameter: float  # mm
    opens: tuple[Opening, Opening]
    crosses: tuple[str, ...]
    place: Place
    note: str = ""


@dataclass(frozen=True, slots=True)
class Plug:
    """What closes a passage. `kind`: plug, relief_valve."""

    id: str
    thread: str
    at: Point
    closes: tuple[str, ...]
    where: str
    kind: str
    place: Place
    length: float | None = None  # mm, of the plug itself, where known
    seal: str = ""


@dataclass(frozen=True, slots=True)
class WaterPlug:
    """A core plug (`cup`, `disc`) or a drain plug (`drain`). Its position may be known only roughly."""

    id: str
    kind: str
    where: str
    place: Place
    at: Point | None = None
    bore: float | None = None  # mm
    od_min: float | None = None
    od_max: float | None = None
    deepest: float | None = None  # mm below its face, where the family says so
    thread: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Amendment:
    """What a family changes in one card, by step id."""

    card: str
    place: Place
    cautions: Mapping[str, tuple[CautionRef, ...]] = field(default_factory=dict)
    before: Mapping[str, tuple[Step, ...]] = field(default_factory=dict)
    after: Mapping[str, tuple[Step, ...]] = field(default_factory=dict)
    replace: Mapping[str, Mapping[str, object]] = field(default_factory=dict)  # step id -> field -> new content
    drop: Mapping[str, Text] = field(default_factory=dict)  # step id -> the reason
    values: Mapping[str, ValueSpec] = field(default_factory=dict)
    places: Mapping[str, Place] = field(default_factory=dict)  # of each step id as written in the amendment


@dataclass(frozen=True, slots=True)
class Layout:
    """How the cylinders stand; None for what the family does not state yet."""

    kind: str | None  # inline, vee
    cylinders: int | None
    bank_angle: float | None  # degrees
    bore_spacing: float | None  # mm
    place: Place


@dataclass(frozen=True, slots=True)
class Family:
    """`facts` and `members` hold every stated figure by the name formulas use; the rest is the layout, typed.

    facts["geometry.bore"]; members["cam_bearing"]["1"]["block_bore"] (formula name `cam_bearing.block_bore`).
    """

    id: str
    name: str
    place: Place
    layout: Layout
    traits: Mapping[str, tuple[str, Place]]  # only those typed by the author
    facts: Mapping[str, Fact]
    members: Mapping[str, Mapping[str, Mapping[str, Fact]]]
    variants: tuple[Variant, ...]
    passages: Mapping[str, Passage] = field(default_factory=dict)
    plugs: Mapping[str, Plug] = field(default_factory=dict)
    core_plugs: Mapping[str, WaterPlug] = field(default_factory=dict)
    drain_plugs: Mapping[str, WaterPlug] = field(default_factory=dict)
    amendments: Mapping[str, Amendment] = field(default_factory=dict)
    show: Mapping[str, str] = field(default_factory=dict)  # dimension name -> unit, over the workshop's
    describe: str = ""  # "V8, aluminium block"

    def fact(self, name: str, variant: Variant | None = None) -> Fact | None:
        """The stated fact of that name, a variant's before the family's; None where the file says nothing of it."""
        if variant is not None and name in variant.facts:
            return variant.facts[name]
        return self.facts.get(name)

    def millimetres(self, name: str, variant: Variant | None = None) -> float | None:
        """A stated quantity in base units, or None while it is not yet known."""
        fact = self.fact(name, variant)
        return fact.value.value if fact is not None and isinstance(fact.value, Quantity) else None

    def member(self, each: str, id: str, name: str) -> float | None:
        """A stated quantity of one member (`member("cam_bearing", "1", "block_bore")`) in base units, or None."""
        fact = self.members.get(each, {}).get(id, {}).get(name)
        return fact.value.value if fact is not None and isinstance(fact.value, Quantity) else None
