"""Figures that nobody types because the layout says them: the length of a passage, the brush that cleans it.

They are names in formulas and tables beside the family's own figures.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from contextlib import suppress
from types import MappingProxyType

from procgen.model.family import Family, Plug
from procgen.trade.cleaning import Entry, PassagePlan, cleaning_plan
from procgen.trade.fewest import all_out_because, fewest_out
from procgen.trade.forgotten import if_forgotten
from procgen.trade.noses import reach, turns_most
from procgen.trade.passages import length
from procgen.trade.plug_order import plug_numbers
from procgen.trade.routes import fed_by
from procgen.trade.shells import shell_fits
from procgen.trade.threads import ThreadError
from procgen.units.dimension import LENGTH, NUMBER, Dimension
from procgen.values import dataclass

Worked = Mapping[str, float | str | None]
"""By member; None where there is no such thing for that member. Members that can't be told yet are left out."""


@dataclass(frozen=True, slots=True)
class Derived:
    """One figure for each of something; for the family as a whole, `each` "", under the member "". `dimension` None:
    words. `side`: "≤" or "≥" for a limit, which rounds inward.
    """

    name: str
    title: str
    each: str
    dimension: Dimension | None
    show: str  # step and unit to print in, "" for words
    work_out: Callable[[Family], Worked]
    source: str
    side: str = ""

    @property
    def axes(self) -> tuple[str, ...]:
        return (self.each,) if self.each else ()


PORTS = {"filter_in": "filter inlet", "filter_out": "filter outlet", "pump": "pump port", "pickup": "pick-up port"}
BORES = {"main": "main saddle", "cam": "cam bore", "groove": "cam bore"}
PRACTICE = "common practice, no source"


def entry_words(entry: Entry) -> str:
    """Where a brush goes in, as people call it: "MG-F", "main saddle 1", "KS1, through KO1"."""
    kind, _, of = entry.opening.partition(" ")
    place = f"{BORES[kind]} {of}" if kind in BORES else of or PORTS.get(kind, kind)
    passed = [step.removeprefix("passage ") for step in entry.through if step.startswith("passage ")]
    return ", through ".join((place, *passed))


def _enter_by(plan: PassagePlan) -> str:
    if not plan.entries:
        return f"no brush: flush {_flush(plan)}, hook"
    return " and ".join(entry_words(entry) for entry in plan.entries)


def _flush(plan: PassagePlan) -> str:
    start, end = (entry_words(Entry(opening)) for opening in plan.flush)
    return f"{start} to {end}" if start != end else f"at {start}"


def _first_out(plan: PassagePlan) -> str:
    return ", ".join(thing.removeprefix("plug ") for thing in plan.out) or "nothing"


def _each_plan(tell: Callable[[PassagePlan], float | str | None]) -> Callable[[Family], Worked]:
    return lambda family: {plan.passage: tell(plan) for plan in cleaning_plan(family)}


def _passage_lengths(family: Family) -> Worked:
    return {id: length(passage) for id, passage in family.passages.items()}


def _each_plug(tell: Callable[[Family, Plug], float | None]) -> Callable[[Family], Worked]:
    def work_out(family: Family) -> Worked:
        found: dict[str, float | None] = {}
        for id, plug in family.plugs.items():
            with suppress(ThreadError):
                found[id] = tell(family, plug)
        return found

    return work_out


def _fewest(family: Family) -> Worked:
    return {"": float(len(fewest_out(family).out))} if family.passages and family.plugs else {}


def _all_out_because(family: Family) -> Worked:
    return {"": why} if (why := all_out_because(family)) else {}


def _fed_by(each: str, kind: str) -> Callable[[Family], Worked]:
    def work_out(family: Family) -> Worked:
        found = {id: fed_by(family, f"{kind} {id}") for id in family.members.get(each, {})}
        return {id: way for id, way in found.items() if way is not None}

    return work_out


_LISTED = (
    Derived("passage.length", "length", "passage", LENGTH, "1 mm", _passage_lengths, "geometry"),
    Derived("cleaning.order", "order", "passage", NUMBER, "1", _each_plan(lambda p: float(p.order)), "geometry"),
    Derived("cleaning.enter_by", "enter by", "passage", None, "", _each_plan(_enter_by), "geometry"),
    Derived("cleaning.first_out", "first out", "passage", None, "", _each_plan(_first_out), "geometry"),
    Derived("cleaning.both_ends", "from", "passage", None, "",
            _each_plan(lambda p: "both ends" if p.from_both_ends else "one end"), PRACTICE),
    Derived("cleaning.brush", "brush", "passage", LENGTH, "0.5 mm", _each_plan(lambda p: sum(p.brush) / 2), PRACTICE),
    Derived("cleaning.brush_length", "brush reaches", "passage", LENGTH, "10 mm",
            _each_plan(lambda p: p.brush_length), PRACTICE),
    Derived("cleaning.overlap", "strokes overlap", "passage", LENGTH, "10 mm",
            _each_plan(lambda p: p.overlap if p.from_both_ends else None), PRACTICE),
    Derived("cleaning.rod", "rod", "passage", LENGTH, "0.1 mm", _each_plan(lambda p: p.rod), PRACTICE),
    Derived("cleaning.flush", "flush", "passage", None, "", _each_plan(_flush), "geometry"),
    Derived("cleaning.dead_end", "flow", "passage", None, "",
            _each_plan(lambda p: "dead end" if p.dead_end else "flows"), "geometry"),
    Derived("plug.number", "number", "plug", NUMBER, "1", lambda f: {k: float(n) for k, n in plug_numbers(f).items()},
            "order of cleaning"),
    Derived("plug.nose_room", "nose at most", "plug", LENGTH, "0.1 mm", _each_plug(reach),
            f"geometry; {PRACTICE}", "≤"),
    Derived("plug.turns_most", "turns at most", "plug", NUMBER, "0.5", _each_plug(turns_most),
            f"thread and geometry; {PRACTICE}", "≤"),
    Derived("plug.if_forgotten", "if forgotten", "plug", None, "", if_forgotten, "routes of the oil, an estimate"),
    Derived("galley.fewest_out", "fewest plugs that let a brush in everywhere", "", NUMBER, "1", _fewest, "geometry"),
    Derived("galley.all_out_because", "why all come out", "", None, "", _all_out_because, PRACTICE),
    Derived("main.fed_by", "fed by", "main", None, "", _fed_by("main", "main"), "routes of the oil"),
    Derived("cam_bearing.fed_by", "fed by", "cam_bearing", None, "", _fed_by("cam_bearing", "cam"),
            "routes of the oil"),
    Derived("cam_bearing.shell_fits", "shell fits", "cam_bearing", None, "", shell_fits, "geometry"),
)  # fmt: skip

DERIVED: Mapping[str, Derived] = MappingProxyType({derived.name: derived for derived in _LISTED})
