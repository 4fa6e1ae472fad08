"""What a check of a family's layout has to say."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from decimal import Decimal

from procgen.files.problems import Place
from procgen.model.family import Family
from procgen.units.dimension import LENGTH
from procgen.units.printing import show_in, shown
from procgen.units.quantity import Quantity, Show
from procgen.units.table import UNITS, Unit
from procgen.values import dataclass


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that does not fit. `subject`: what it is about, ("passage", "MG"), the first to be pointed at.

    `place`: where exactly it stands in the file, where that is known better than by its subject. `is_doubtful`: it may
    yet be right, and is only warned of.
    """

    code: str
    message: str
    subject: tuple[tuple[str, str], ...]
    hint: str = ""
    place: Place | None = None
    is_doubtful: bool = False


Check = Callable[[Family], Iterator[Finding]]
"""Skips in silence what it cannot tell because a figure is not yet known."""


def said(length: float, family: Family, digits: int = 2) -> str:
    """A length (mm) for a message, in the unit that the family is written in. `digits`: of it in mm."""
    show = show_in(Show(Decimal(1).scaleb(-digits), UNITS["mm"]), _unit_of(family))
    return f"{shown(length, show)} {show.unit.symbol}"


def _unit_of(family: Family) -> Unit:
    """That of most of its lengths."""
    members = (own for of_axis in family.members.values() for own in of_axis.values())
    values = [fact.value for facts in (family.facts, *members) for fact in facts.values()]
    units = Counter(value.unit for value in values if isinstance(value, Quantity) and value.dimension == LENGTH)
    return max(units, key=units.__getitem__, default=UNITS["mm"])
