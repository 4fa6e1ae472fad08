"""Figures that nobody types because the layout says them: the length of a passage, the brush that cleans it.

They are names in formulas and tables beside the family's own figures.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from procgen.model.family import Family
from procgen.trade.cleaning import PassagePlan, cleaning_plan
from procgen.units.dimension import LENGTH, NUMBER, Dimension


@dataclass(frozen=True, slots=True)
class Derived:
    """One figure for each of something. `dimension` None: words. `work_out` leaves out members it can't tell."""

    name: str
    title: str
    each: str
    dimension: Dimension | None
    show: str  # step and unit to print in, "" for words
    work_out: Callable[[Family], Mapping[str, float | str]]
    source: str


def _passage_lengths(family: Family) -> Mapping[str, float]:
    return {id: math.dist(passage.start, passage.end) for id, passage in family.passages.items()}


def _of_plan(tell: Callable[[PassagePlan], float | str]) -> Callable[[Family], Mapping[str, float | str]]:
    """A figure of each passage's cleaning plan."""
    return lambda family: {plan.passage: tell(plan) for plan in cleaning_plan(family)}


def _ways_in(plan: PassagePlan) -> str:
    return " and ".join(entry.opening for entry in plan.entries) or "flush only"


def _cleaning(
    name: str, title: str, dimension: Dimension | None, show: str, tell: Callable[[PassagePlan], float | str]
) -> Derived:
    source = "the layout; brush and rod sizes are common practice, no source"
    return Derived(f"cleaning.{name}", title, "passage", dimension, show, _of_plan(tell), source)


_LISTED = (
    Derived("passage.length", "length", "passage", LENGTH, "1 mm", _passage_lengths, "geometry"),
    _cleaning("order", "turn", NUMBER, "1", lambda plan: float(plan.order)),
    _cleaning("enter_by", "brush in at", None, "", _ways_in),
    _cleaning("first_out", "first out", None, "", lambda plan: ", ".join(plan.out) or "nothing"),
    _cleaning("brush", "brush", LENGTH, "0.5 mm", lambda plan: plan.brush[0]),
    _cleaning("brush_length", "brush length", LENGTH, "1 mm", lambda plan: plan.brush_length),
    _cleaning("both_ends", "from", None, "", lambda plan: "both ends" if plan.from_both_ends else "one end"),
    _cleaning("rod", "rod", LENGTH, "0.1 mm", lambda plan: plan.rod),
)

DERIVED: Mapping[str, Derived] = MappingProxyType({derived.name: derived for derived in _LISTED})
