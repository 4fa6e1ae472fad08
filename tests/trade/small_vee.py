"""One sound V twin, by hand: a main galley, feeds to a main and on to the cam, a lifter galley. Tests break one thing.

Bank A leans 45° to -y. Main 1 at x 30; housing 60, so its saddle hole is 30 from the crank. Cam 100 above the crank in
a bore of 50: feed C runs from (0, 30) up to (0, 75), which is 6:00. The lifter galley lies 45° out on bank A, 60 from
the cam: y -42.426, z 142.426.
"""

from __future__ import annotations

from math import sqrt
from typing import Any

from hand_built import core, family, passage, plug

from procgen.model.family import Family, Passage, Plug

SIDE = 60 / sqrt(2)

STATED: dict[str, Any] = {
    "geometry.bore": 80, "geometry.block_height": 200, "geometry.deck_clearance": 0.5, "geometry.bore_bottom": 110,
    "ring_pack.crown_to_oil_ring_lower": 20, "oversizes": (0.5, 1.0), "block.length": 140,
    "mains.clearance_min": 0.03, "mains.clearance_max": 0.07,
    "rods.housing_bore": 50, "rods.shell_wall": 1.475, "rods.journal": 47, "rods.width": 20,
    "rods.clearance_min": 0.03, "rods.clearance_max": 0.07,
    "cam.centre.y": 0, "cam.centre.z": 100, "cam.clearance_min": 0.03, "cam.clearance_max": 0.08,
    "lifters.bore": 20, "lifters.angle": 45,
}  # fmt: skip

MEMBERS: dict[str, dict[str, dict[str, Any]]] = {
    "cylinder": {"A1": {"bank": "A", "x": 70}, "B1": {"bank": "B", "x": 90}},
    "main": {
        "1": {"x": 30, "housing_bore": 60, "shell_wall": 1.975, "journal": 56, "width": 22, "saddle_groove": "cut"},
    },
    "cam_bearing": {
        "1": {"x": 30, "block_bore": 50, "shell_wall": 2.475, "bore_installed": 45.05, "journal": 45, "width": 18,
              "block_hole_clock": "6:00", "shell_hole_clock": "6:00"},
    },
    "bank": {"A": {"galley": "LG", "x": (80,)}},
}  # fmt: skip

VARIANTS = {"long": {"geometry.stroke": 80, "geometry.rod_length": 125, "geometry.compression_height": 34.5}}


def passages() -> dict[str, Passage]:
    return {
        each.id: each
        for each in (
            passage("MG", (0, -95, 20), (140, -95, 20), 10, ("plug MG-F", "plug MG-R")),
            passage("M1", (30, -110, 23.158), (30, -29.357, 6.181), 7, ("plug MS1", "main 1"), "MG"),
            passage("C1", (30, 0, 30), (30, 0, 75), 6, ("main 1", "cam 1")),
            passage("FO", (100, -110, 20), (100, -95, 20), 8, ("filter_out", "passage MG")),
            passage("RB", (15, -95, 20), (15, -SIDE, 100 + SIDE), 7, ("passage MG", "passage LG")),
            passage("LG", (0, -SIDE, 100 + SIDE), (140, -SIDE, 100 + SIDE), 9, ("plug LG-F", "plug LG-R")),
        )
    }


def plugs() -> dict[str, Plug]:
    return {
        each.id: each
        for each in (
            plug("MG-F", "1/4-18 NPT", (0, -95, 20), "MG"),
            plug("MG-R", "1/4-18 NPT", (140, -95, 20), "MG"),
            plug("MS1", "R 1/8", (30, -110, 23.158), "M1"),
            plug("LG-F", "1/4-18 NPT", (0, -SIDE, 100 + SIDE), "LG"),
            plug("LG-R", "1/4-18 NPT", (140, -SIDE, 100 + SIDE), "LG"),
        )
    }


def build(
    *,
    stated: dict[str, Any] | None = None,
    member: tuple[str, str, dict[str, Any]] | None = None,
    variant: dict[str, Any] | None = None,
    changed: tuple[Passage, ...] = (),
    replugged: tuple[Plug, ...] = (),
    without: str = "",
    shells: str = "fitted",
    cup: tuple[float, float] = (40.1, 40.2),
    disc: tuple[float, float] = (29.95, 30.0),
) -> Family:
    """The sound engine with what is given put in place of its own."""
    members = {each: {id: dict(own) for id, own in all.items()} for each, all in MEMBERS.items()}
    if member is not None:
        each, id, own = member
        members[each].setdefault(id, {}).update(own)
    all_passages = passages() | {each.id: each for each in changed}
    all_plugs = plugs() | {each.id: each for each in replugged}
    return family(
        kind="vee",
        bank_angle=90,
        stated=STATED | (stated or {}),
        members=members,
        variants={id: {**own, **(variant or {})} for id, own in VARIANTS.items()},
        passages=tuple(each for each in all_passages.values() if each.id != without),
        plugs=tuple(each for each in all_plugs.values() if each.id != without),
        cores=(core("CP1", "cup", 40, *cup), core("CP2", "disc", 30, *disc)),
        shells=shells,
    )
