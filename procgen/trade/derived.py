"""Figures that nobody types because the layout says them: the length of a passage, the brush that cleans it.

They are names in formulas and tables beside the family's own figures.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from procgen.model.family import Family
from procgen.units.dimension import LENGTH, Dimension


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


_LISTED = (Derived("passage.length", "length", "passage", LENGTH, "1 mm", _passage_lengths, "geometry"),)

DERIVED: Mapping[str, Derived] = MappingProxyType({derived.name: derived for derived in _LISTED})
