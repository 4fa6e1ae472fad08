"""A sound small engine passes; each mistake put into it is found, by the check that is meant to, and by no other."""

from math import asin, cos, degrees, radians, sin
from typing import Any

import pytest
from hand_built import core, family, passage, plug
from small_vee import MEMBERS, SIDE, STATED, build, passages

from procgen.model.family import Family
from procgen.trade.layout import Finding
from procgen.trade.layout import findings as found_in


def findings(built: Family) -> list[Finding]:
    return list(found_in(built))


def codes(built: Family) -> set[str]:
    return {finding.code for finding in findings(built)}


def test_a_sound_engine_passes() -> None:
    assert findings(build()) == []


CAM = ("cam_bearing", "1")
M1, C1, LG = (passages()[id] for id in ("M1", "C1", "LG"))


@pytest.mark.parametrize(
    ("change", "code"),
    [
        ({"variant": {"geometry.rod_length": 125.1}}, "stack"),
        ({"stated": {"geometry.bore_bottom": 100.4}}, "ring-leaves-bore"),
        ({"member": ("main", "1", {"journal": 55.97})}, "clearance-band"),
        ({"stated": {"rods.journal": 47.03}}, "clearance-band"),
        ({"member": (*CAM, {"journal": 44.96})}, "clearance-band"),
        ({"member": (*CAM, {"shell_wall": 2.5})}, "cam-shell-bore"),
        ({"cup": (40.04, 40.2)}, "core-plug-fit"),
        ({"cup": (40.1, 40.31)}, "core-plug-fit"),
        ({"disc": (29.95, 30.01)}, "core-plug-fit"),
        ({"disc": (29.89, 30.0)}, "core-plug-fit"),
        ({"member": ("main", "1", {"housing_bore": 60.2, "shell_wall": 2.075})}, "main-end"),
        ({"member": (*CAM, {"block_bore": 50.2, "shell_wall": 2.575})}, "cam-end"),
        ({"member": (*CAM, {"block_hole_clock": "6:02", "shell_hole_clock": "6:02"})}, "block-hole"),
        ({"member": (*CAM, {"shell_hole_clock": "6:02"})}, "shell-hole"),
        ({"member": (*CAM, {"second_hole_clock": "9:00"})}, "block-hole"),
        ({"member": (*CAM, {"x": 44})}, "end-beside-bearing"),
        ({"replugged": (plug("MS1", "R 1/8", (30, -110, 23.178), "M1"),)}, "plug-off-end"),
        ({"replugged": (plug("MS9", "R 1/8", (30, -110, 23.158), ""),)}, "idle-plug"),
        ({"replugged": (plug("MG-F", "M12x1.5", (0, -95, 20), "MG"), plug("MS1", "1/16-27 NPT", M1.start, "M1"))},
         "tap-drill"),
        ({"replugged": (plug("MG-F", "1/4-20 NPT", (0, -95, 20), "MG"),)}, "thread-unknown"),
        ({"without": "MS1"}, "open-end"),
        ({"without": "C1"}, "no-oil"),
        ({"changed": (passage("X", (0, -80, 20), (0, -80, 60), 6, ("deck", "pickup")),)}, "deck-end"),
    ],
)  # fmt: skip
def test_each_mistake_is_found_alone(change: dict[str, Any], code: str) -> None:
    assert codes(build(**change)) == {code}


def test_a_hole_that_no_passage_meets_is_told_with_the_passage_that_was_meant() -> None:
    (found,) = findings(build(member=(*CAM, {"block_hole_clock": "6:02", "shell_hole_clock": "6:02"})))
    assert found.message == "no passage ends at the block hole of cam bearing 1, 6:02"
    assert found.hint == "C1 ends at 6:00: state that, or move it"


def test_exactly_on_a_limit_is_within_it() -> None:
    assert codes(build(cup=(40.05, 40.30), disc=(29.9, 30.0))) == set()
    assert codes(build(member=("main", "1", {"journal": 55.98}))) == set()  # 60 - 3.95 - 55.98 = 0.07, the most


def test_a_crossing_that_misses() -> None:
    lifted = passage("M1", (30, -110, 23.190), (30, -29.357, 6.181), 7, ("plug MS1", "main 1"), "MG")
    found = findings(build(changed=(lifted,), replugged=(plug("MS1", "R 1/8", lifted.start, "M1"),)))
    assert [finding.code for finding in found] == ["passages-apart"]
    assert found[0].subject == (("passage", "M1"), ("passage", "MG"))


def test_an_end_off_the_axis_it_opens_to() -> None:
    short = passage("FO", (100, -110, 20), (100, -95.02, 20), 8, ("filter_out", "passage MG"))
    assert codes(build(changed=(short,))) == {"end-off-axis"}


def test_a_main_end_in_the_cap() -> None:
    low = passage("M9", (30, 110, -23.158), (30, 29.357, -6.181), 7, ("pickup", "main 1"))
    assert codes(build(changed=(low,))) == {"main-end"}


def test_a_cam_feed_that_runs_through_the_bore() -> None:
    """It enters at 12:00 and ends at 6:00, straight through the cam."""
    through = passage("C1", (30, 0, 140), (30, 0, 75), 6, ("pickup", "cam 1"))
    assert {f.message for f in findings(build(changed=(through,))) if f.code == "cam-end"} == {
        "C1 runs through the bore of cam bearing 1"
    }


def test_a_groove_end_may_lie_anywhere_in_the_groove() -> None:
    def groove_feed(z: float) -> Family:
        feed = passage("C1", (30, 0, 30), (30, 0, z), 6, ("main 1", "groove 1"))
        return build(changed=(feed,), member=(*CAM, {"groove_depth": 2, "groove_width": 6}))

    assert codes(groove_feed(75)) == codes(groove_feed(73)) == set()
    assert codes(groove_feed(72.9)) == codes(groove_feed(75.1)) == {"cam-end"}


@pytest.mark.parametrize(("far", "found"), [(14.0, set()), (11.99, {"passages-close"}), (3.0, {"passages-close"})])
def test_metal_between_passages(far: float, found: set[str]) -> None:
    """Galley 10 and a neighbour 10: axes 12 apart leave 2 mm."""
    moved = passage("FO", (60, -110, 20), (60, -95, 20), 8, ("filter_out", "passage MG"))
    level = passage("X", (100, -95 - far, 20), (130, -95 - far, 20), 10, ("pump", "pickup"))
    assert codes(build(changed=(moved, level))) == found


@pytest.mark.parametrize(("gap", "found"), [(3.01, set()), (2.99, {"cylinder-close"})])
def test_metal_to_a_cylinder_at_its_largest_oversize(gap: float, found: set[str]) -> None:
    """Alongside cylinder B1's axis (45° to +y), in its own plane x = 90: bore 81 at the largest oversize, passage 6."""
    side = 81 / 2 + gap + 3
    y, z = (150 + side) * sin(radians(45)), (150 - side) * cos(radians(45))
    line = passage("X", (85, y, z), (95, y, z), 6, ("pump", "pickup"))
    assert codes(build(changed=(line,))) == found


def test_below_the_foot_of_the_bore_there_is_no_cylinder() -> None:
    """The bore ends 90 above the crank: on its axis 6.1 mm lower leaves 3.1 mm to a passage of 6; 5.9 leaves 2.9."""

    def across(height: float) -> set[str]:
        y = z = height / 2**0.5
        return codes(build(changed=(passage("X", (89, y, z), (91, y, z), 6, ("pump", "pickup")),), stated={
            "rods.width": None}))  # fmt: skip

    assert across(90 - 6.1) == set()
    assert across(90 - 5.9) == {"cylinder-close"}


@pytest.mark.parametrize(("z", "found"), [(130.1, set()), (129.9, {"cam-tunnel-close"})])
def test_metal_to_the_cam_tunnel_between_bearings(z: float, found: set[str]) -> None:
    """Tunnel 50 about z 100, passage 6: 30 from the axis leaves 2 mm."""
    assert codes(build(changed=(passage("X", (120, 0, z), (120, 10, z), 6, ("pump", "pickup")),))) == found


@pytest.mark.parametrize(("z", "found"), [(-78.1, set()), (-77.9, {"rod-close"})])
def test_room_for_the_rods(z: float, found: set[str]) -> None:
    """Crank throw 40, housing 25, 8 mm of rod outside it, 2 of air and the passage's radius 3: 78 below the crank."""
    across = passage("X", (85, 0, z), (95, 0, z), 6, ("pump", "pickup"))
    beside = passage("X", (104, 0, -70), (110, 0, -70), 6, ("pump", "pickup"))
    assert codes(build(changed=(across,))) == found
    assert codes(build(changed=(beside,))) == set()


@pytest.mark.parametrize(("bite", "found"), [(-1.0, {"lifter-not-fed"}), (0.9, {"lifter-not-fed"}), (1.1, set())])
def test_a_galley_must_cut_into_its_lifters(bite: float, found: set[str]) -> None:
    """Bore 20 and galley 9 touch at 14.5 between axes; the galley lies 60 from the cam at 45°."""
    off = degrees(asin((14.5 - bite) / 60))
    assert codes(build(stated={"lifters.angle": 45 - off})) == found


@pytest.mark.parametrize(("x", "found"), [(64.9, set()), (65.6, {"lifter-close"})])
def test_metal_to_a_lifter_bore(x: float, found: set[str]) -> None:
    """Lifter bore 20 at x 80; a passage of 7 square beside it: 15 between axes leaves 1.5 mm."""
    half = SIDE * 0.8
    beside = passage("X", (x, -half - 10, 100 + half - 10), (x, -half + 10, 100 + half + 10), 7, ("pump", "pickup"))
    assert codes(build(changed=(beside,))) == found


# face to the near edge of the first crossing, against hand-tight and three turns: the three cases are worked by hand
@pytest.mark.parametrize(
    ("thread", "galley", "at", "crossing", "deep"),
    [("3/8-18 NPT", 13, 8.0, 6.0, (8.918, 10.329)), ("3/8-18 NPT", 12, 12.0, 8.0, (8.918, 10.329)),
     ("1/4-18 NPT", 9.5, 12.0, 8.0, (8.608, 10.019))],
)  # fmt: skip
def test_a_plug_whose_nose_shuts_the_first_crossing(
    thread: str, galley: float, at: float, crossing: float, deep: tuple[float, float]
) -> None:
    def with_crossing(x: float, length: float | None = None) -> list[Finding]:
        main = passage("G", (0, 0, 0), (300, 0, 0), galley, ("plug F", "pickup"))
        feed = passage("R", (x, 0, 50), (x, 0, 0), crossing, ("pump", "passage G"))
        return findings(family(passages=(main, feed), plugs=(plug("F", thread, (0, 0, 0), "G", length=length),)))

    (found,) = with_crossing(at)
    assert found.code == "plug-nose"
    assert found.subject == (("plug", "F"), ("passage", "R"))
    assert f"{deep[0]:.2f}" in found.message
    assert f"{deep[1]:.2f}" in found.message
    assert f"{at - crossing / 2:.2f}" in found.message
    assert with_crossing(deep[1] + crossing / 2 + 0.01) == []
    assert with_crossing(at, length=at - crossing / 2) == []  # a plug cut short clears it


def test_a_straight_plug_goes_as_deep_as_it_is_long() -> None:
    def long(length: float | None) -> set[str]:
        main = passage("G", (0, 0, 0), (300, 0, 0), 11, ("plug F", "pickup"))
        feed = passage("R", (13, 0, 50), (13, 0, 0), 7, ("pump", "passage G"))
        return codes(family(passages=(main, feed), plugs=(plug("F", "M16x1.5", (0, 0, 0), "G", length=length),)))

    assert long(None) == long(9.5) == set()
    assert long(9.6) == {"plug-nose"}


def test_nothing_is_said_of_what_is_not_yet_known() -> None:
    assert findings(family(kind=None, shells=None)) == []
    assert findings(family(stated={"geometry.bore": 76.2, "geometry.stroke": 88.9})) == []
    assert codes(family(cores=(core("C", "cup", 40, 40, 40),))) == {"core-plug-fit"}
    bare = build(stated=dict.fromkeys(("geometry.bore", "cam.centre.y", "rods.width", "lifters.angle", "block.length")))
    assert findings(bare) == []


def test_no_figure_is_needed_but_those_a_check_uses() -> None:
    """Each figure taken away in turn: less is known, and nothing is found wrong."""
    for name in STATED:
        assert findings(build(stated={name: None})) == [], name
    for each, all_of_them in MEMBERS.items():
        for id, own in all_of_them.items():
            for name in own:
                left = {f.code for f in findings(build(member=(each, id, {name: None})))}
                assert left == set(), (each, id, name)
