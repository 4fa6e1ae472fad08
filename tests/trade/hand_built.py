"""Small families for tests, written the way their figures are read: numbers are mm or degrees, clocks are h:mm."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from procgen.files.problems import Place
from procgen.model.family import Fact, Family, Layout, Opening, Passage, Plug, Variant, WaterPlug
from procgen.units.dimension import CLOCK, LENGTH
from procgen.units.quantity import Quantity, parse_quantity
from procgen.units.table import UNITS

HERE = Place("hand-built")
MM = UNITS["mm"]


def fact(name: str, value: Any) -> Fact:
    if isinstance(value, str) and name.endswith("clock"):
        return Fact(parse_quantity(value, CLOCK), HERE)
    if isinstance(value, int | float):
        return Fact(Quantity(float(value), LENGTH, MM, str(value)), HERE)
    if isinstance(value, tuple):
        return Fact(tuple(Quantity(float(each), LENGTH, MM, str(each)) for each in value), HERE)
    return Fact(value, HERE)


def facts(stated: Mapping[str, Any]) -> dict[str, Fact]:
    return {name: fact(name, value) for name, value in stated.items()}


def opening(text: str) -> Opening:
    kind, _, of = text.partition(" ")
    return Opening(kind, of, HERE)


def passage(id: str, start: Any, end: Any, diameter: float, opens: tuple[str, str], crosses: str = "") -> Passage:
    ends = (opening(opens[0]), opening(opens[1]))
    return Passage(id, start, end, diameter, ends, tuple(crosses.split()), HERE)


def plug(id: str, thread: str, at: Any, closes: str, kind: str = "plug", length: float | None = None) -> Plug:
    return Plug(id, thread, at, tuple(closes.split()), "", kind, HERE, length)


def core(id: str, kind: str, bore: float, least: float, most: float) -> WaterPlug:
    return WaterPlug(id, kind, "", HERE, bore=bore, od_min=least, od_max=most)


def family(
    *,
    kind: str | None = "inline",
    bank_angle: float | None = None,
    stated: Mapping[str, Any] | None = None,
    members: Mapping[str, Mapping[str, Mapping[str, Any]]] | None = None,
    variants: Mapping[str, Mapping[str, Any]] | None = None,
    passages: tuple[Passage, ...] = (),
    plugs: tuple[Plug, ...] = (),
    cores: tuple[WaterPlug, ...] = (),
    shells: str | None = "fitted",
) -> Family:
    """A family of what is given; all else is not yet known."""
    named = {each: {id: facts(own) for id, own in all.items()} for each, all in (members or {}).items()}
    named.setdefault("passage", {each.id: {} for each in passages})
    named.setdefault("plug", {each.id: {} for each in plugs})
    return Family(
        id="test",
        name="Test",
        place=HERE,
        layout=Layout(kind, None, bank_angle, None, HERE),
        traits={} if shells is None else {"cam.shells": (shells, HERE)},
        facts=facts(stated or {}),
        members=named,
        variants=tuple(Variant(id, id, facts(own), HERE) for id, own in (variants or {}).items()),
        passages={each.id: each for each in passages},
        plugs={each.id: each for each in plugs},
        core_plugs={each.id: each for each in cores},
    )
