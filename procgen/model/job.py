"""One engine on the stand: what was read, with which gauge, what is on the shelf, what a person decided."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from typing import TYPE_CHECKING

from procgen.values import dataclass

if TYPE_CHECKING:
    from procgen.files.problems import Place
    from procgen.model.family import Fact
    from procgen.model.workshop import Gauge
    from procgen.units.quantity import Quantity

Index = tuple[str, ...]
"""Members in the order of the reading's axes: ("A1", "12", "thrust")."""


@dataclass(frozen=True, slots=True)
class Taken:
    """One reading as taken. A quantity, or the word of a choice; None where it is not taken yet."""

    reading: str
    index: Index
    value: Quantity | str | None
    place: Place
    because: str = ""  # a person confirms it, though it looks like a slip


@dataclass(frozen=True, slots=True)
class Session:
    """One measuring of one card on one day. `gauges`: which took which reading."""

    id: str
    card: str
    on: str
    by: str
    temperature: Quantity | None
    gauges: Mapping[str, str]
    taken: tuple[Taken, ...]
    place: Place
    continues: str = ""  # an earlier session; nothing was cut between the two


@dataclass(frozen=True, slots=True)
class Override:
    """A person decides against or beyond the rule. `member` by axis: {"cam_bearing": "2"}."""

    card: str
    decision: str
    member: Mapping[str, str]
    branch: str
    by: str
    on: str
    reason: str
    place: Place


@dataclass(frozen=True, slots=True)
class Part:
    """Something on the shelf."""

    name: str
    kind: str
    oversize: Quantity | None
    undersize: Quantity | None
    count: int | None
    measured: tuple[Quantity, ...]
    note: str
    place: Place
    size: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Job:
    """`found`: the variant as it came in; `built`: as it goes together. `changes` lie over the built variant."""

    id: str
    title: str
    family: str
    found: str
    built: str
    place: Place
    marks: Mapping[str, str] = field(default_factory=dict)
    changes: Mapping[str, Fact] = field(default_factory=dict)
    gauges: Mapping[str, Gauge] = field(default_factory=dict)
    sessions: tuple[Session, ...] = ()
    shelf: Mapping[str, Part] = field(default_factory=dict)
    overrides: tuple[Override, ...] = ()
