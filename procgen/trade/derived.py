"""Figures that nobody types because the layout says them: the length of a passage, the brush that cleans it.

They are names in formulas and tables beside the family's own figures.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from procgen.model.family import Family
from procgen.trade.cleaning import Entry, PassagePlan, cleaning_plan
from procgen.trade.noses import nose
from procgen.trade.passages import length
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


PORTS = {"filter_in": "filter inlet", "filter_out": "filter outlet", "pump": "pump port", "pickup": "pick-up port"}
PRACTICE = "common practice, no source"


def entry_words(entry: Entry) -> str:
    """Where a brush goes in, as people call it: "MG-F", "main saddle 1", "KS1, through KO1"."""
    kind, _, of = entry.opening.partition(" ")
    place = f"main saddle {of}" if kind == "main" else of or PORTS.get(kind, kind)
    passed = [step.removeprefix("passage ") for step in entry.through if step.startswith("passage ")]
    return ", through ".join((place, *passed))


def _enter_by(plan: PassagePlan) -> str:
    return " and ".join(entry_words(entry) for entry in plan.entries) or "no straight way: flush and hook"


def _first_out(plan: PassagePlan) -> str:
    return ", ".join(thing.removeprefix("plug ") for thing in plan.out) or "nothing"


def _each_plan(tell: Callable[[PassagePlan], float | str]) -> Callable[[Family], Mapping[str, float | str]]:
    return lambda family: {plan.passage: tell(plan) for plan in cleaning_plan(family)}


def _passage_lengths(family: Family) -> Mapping[str, float | str]:
    return {id: length(passage) for id, passage in family.passages.items()}


def _nose_rooms(family: Family) -> Mapping[str, float | str]:
    found = {id: nose(family, plug) for id, plug in family.plugs.items()}
    return {id: each.room for id, each in found.items() if each is not None}


_LISTED = (
    Derived("passage.length", "length", "passage", LENGTH, "1 mm", _passage_lengths, "geometry"),
    Derived("cleaning.order", "order", "passage", NUMBER, "1", _each_plan(lambda p: float(p.order)), "geometry"),
    Derived("cleaning.enter_by", "enter by", "passage", None, "", _each_plan(_enter_by), "geometry"),
    Derived("cleaning.first_out", "first out", "passage", None, "", _each_plan(_first_out), "geometry"),
    Derived("cleaning.both_ends", "from", "passage", None, "",
            _each_plan(lambda p: "both ends" if p.from_both_ends else "one end"), PRACTICE),
    Derived("cleaning.brush", "brush", "passage", LENGTH, "0.5 mm", _each_plan(lambda p: sum(p.brush) / 2), PRACTICE),
    Derived("cleaning.rod", "rod", "passage", LENGTH, "0.1 mm", _each_plan(lambda p: p.rod), PRACTICE),
    Derived("plug.nose_room", "nose at most", "plug", LENGTH, "0.1 mm", _nose_rooms, "geometry"),
)  # fmt: skip

DERIVED: Mapping[str, Derived] = MappingProxyType({derived.name: derived for derived in _LISTED})
