"""The invented families hold together: worked out here from the files alone, with fractions and numpy.

All of it is geometry. The program has its own checks of a layout; these do not use them.
"""

from __future__ import annotations

import math
from fractions import Fraction
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import yaml

FAMILIES = Path(__file__).parents[2] / "procedures" / "families"
WHOLE = ("avocet", "bittern", "curlew", "dunlin", "plover")
TAP_DRILL = {"1/8": 8.6, "1/4": 11.1, "3/8": 14.6}  # mm, the smaller of NPT and R
INCH = Fraction("25.4")
Vector = np.ndarray[Any, np.dtype[np.float64]]


def read(id: str) -> dict[str, Any]:
    data = yaml.load((FAMILIES / f"{id}.yaml").read_text(encoding="utf-8"), yaml.CBaseLoader)
    assert isinstance(data, dict)
    for part in ("passages", "plugs", "core_plugs", "drain_plugs"):
        every = (data.get(part) or {}).pop("every", {})
        for name in data.get(part) or {}:
            data[part][name] = every | data[part][name]
    return data


class Block:
    """A family's file with its figures in exact millimetres."""

    def __init__(self, id: str) -> None:
        self.data = read(id)
        self.unit = INCH if self.data["units"]["length"] == "in" else Fraction(1)
        cam = self.data["cam"]
        self.cam = np.array([0.0, self.mm(cam["centre"]["y"]), self.mm(cam["centre"]["z"])])
        every = cam["bearings"]["every"]
        self.bearings = {id: every | own for id, own in cam["bearings"].items() if id != "every"}
        self.passages = {
            id: (self.point(p["from"]), self.point(p["to"]), float(self.mm(p["diameter"])))
            for id, p in self.data["passages"].items()
        }

    def mm(self, text: str) -> Fraction:
        if text.endswith(" in"):
            return sum((Fraction(part) for part in text.removesuffix(" in").split()), Fraction(0)) * INCH
        return Fraction(text) * self.unit

    def point(self, texts: list[str]) -> Vector:
        return np.array([float(self.mm(text)) for text in texts])

    def ends(self) -> list[tuple[str, Vector, str, str]]:
        """Each end of each passage: passage, point, kind and name of what it opens to."""
        return [
            (id, end, *opening.partition(" ")[::2])
            for id, passage in self.data["passages"].items()
            for end, opening in zip(self.passages[id][:2], passage["opens"], strict=True)
        ]


@pytest.fixture(params=WHOLE)
def block(request: pytest.FixtureRequest) -> Block:
    return Block(request.param)


def apart(p: Vector, q: Vector, r: Vector, s: Vector) -> float:
    """Least distance between the lines p-q and r-s."""
    across = np.cross(q - p, s - r)
    if np.linalg.norm(across) < 1e-6:
        return float(np.linalg.norm(np.cross(r - p, q - p)) / np.linalg.norm(q - p))
    return float(abs(np.dot(r - p, across)) / np.linalg.norm(across))


def test_the_stack_is_exact_and_the_oil_ring_stays_in_the_bore(block: Block) -> None:
    """Crank to deck is half the stroke, the rod, the piston and what the crown stops below; to the last digit."""
    mm, geometry = block.mm, block.data["geometry"]
    assert len(block.data["variants"]) == 2
    for variant in block.data["variants"].values():
        own = {name: mm(text) for name, text in variant["geometry"].items()}
        stack = own["stroke"] / 2 + own["rod_length"] + own["compression_height"] + mm(geometry["deck_clearance"])
        assert stack == mm(geometry["block_height"])
        lowest = mm(geometry["deck_clearance"]) + own["stroke"] + mm(block.data["ring_pack"]["crown_to_oil_ring_lower"])
        assert lowest < mm(geometry["bore_bottom"])


def test_bearings_run_within_their_own_limits(block: Block) -> None:
    mm, mains, rods, cam = block.mm, block.data["mains"], block.data["rods"], block.data["cam"]
    for of, shell in ((mains, mains["bearings"]["every"]), (rods, rods)):
        clearance = mm(shell["housing_bore"]) - 2 * mm(shell["shell_wall"]) - mm(shell["journal"])
        assert mm(of["clearance_min"]) <= clearance <= mm(of["clearance_max"]) < mm(of["clearance_service_max"])
    for bearing in block.bearings.values():
        clearance = mm(bearing["bore_installed"]) - mm(bearing["journal"])
        assert mm(cam["clearance_min"]) <= clearance <= mm(cam["clearance_max"])
        assert mm(bearing["block_bore"]) - 2 * mm(bearing.get("shell_wall", "0")) == mm(bearing["bore_installed"])


def test_plugs_sit_on_the_ends_that_they_close(block: Block) -> None:
    plugs = block.data["plugs"]
    found = {name: (passage, end) for passage, end, kind, name in block.ends() if kind == "plug"}
    assert set(found) == set(plugs)
    for name, plug in plugs.items():
        passage, end = found[name]
        assert plug["closes"] == passage
        assert np.allclose(block.point(plug["at"]), end)
        drill = next((TAP_DRILL[size] for size in TAP_DRILL if size in plug["thread"]), None)
        if drill is None:  # M18x1.5: size less pitch
            size, pitch = plug["thread"][1:].split("x")
            drill = float(size) - float(pitch)
        assert block.passages[passage][2] <= drill, name


def test_passages_meet_where_they_say(block: Block) -> None:
    """Every axis that is said to meet another passes within 0.01 mm of it."""
    met = 0
    for id, passage in block.data["passages"].items():
        for other in passage.get("crosses", []):
            met += 1
            assert apart(*block.passages[id][:2], *block.passages[other][:2]) < 0.01, (id, other)
    for id, end, kind, other in block.ends():
        if kind == "passage":
            met += 1
            start, stop, _ = block.passages[other]
            along = np.dot(end - start, stop - start) / np.dot(stop - start, stop - start)
            assert 0 <= along <= 1
            assert np.linalg.norm(start + along * (stop - start) - end) < 0.01, (id, other)
    assert met > 5


def test_passages_end_on_mains_cam_and_deck(block: Block) -> None:
    mm, mains = block.mm, block.data["mains"]["bearings"]
    for id, end, kind, name in block.ends():
        x, y, z = end
        if kind == "main":
            assert math.hypot(y, z) == pytest.approx(mm(mains["every"]["housing_bore"]) / 2, abs=0.01), id
            assert abs(x - mm(mains[name]["x"])) <= mm(mains["every"]["width"]) / 2
            assert z > 0, "in the block's half of the bore"
        elif kind in ("cam", "groove"):
            bearing = block.bearings[name]
            assert np.linalg.norm((end - block.cam)[1:]) == pytest.approx(mm(bearing["block_bore"]) / 2, abs=0.01), id
            assert abs(x - mm(bearing["x"])) <= mm(bearing["width"]) / 2
        elif kind == "deck":
            assert z == pytest.approx(mm(block.data["geometry"]["block_height"]), abs=1e-6)


def test_clock_positions_are_where_the_drillings_are(block: Block) -> None:
    """A hole at angle a seen from the front is at y - R sin a, z + R cos a; this is what proves the handedness."""
    stated = {
        (number, name)
        for number, bearing in block.bearings.items()
        for name in ("block_hole", "second_hole", "blind_stub")
        if name in bearing
    }
    reached = set()
    for _, end, kind, number in block.ends():
        if kind not in ("cam", "groove"):
            continue
        bearing = block.bearings[number]
        radius = float(block.mm(bearing["block_bore"]) / 2)
        for name in ("block_hole", "second_hole", "blind_stub"):
            if name in bearing:
                hour, minute = bearing[name]["clock"].split(":")
                angle = math.radians(30 * int(hour) + int(minute) / 2)
                hole = block.cam + np.array([end[0], -radius * math.sin(angle), radius * math.cos(angle)])
                if np.linalg.norm(hole - end) < 0.3:
                    reached.add((number, name))
    assert reached == stated


def test_bank_a_is_on_the_right_seen_from_the_front() -> None:
    """Seen from the front, right is -y: the galley that feeds bank A's lifters, and Curlew's right side wall."""
    for id in ("avocet", "bittern", "dunlin"):
        block = Block(id)
        assert block.passages["LGA"][0][1] < 0 < block.passages["LGB"][0][1]
    curlew = Block("curlew")
    walls = [plug for plug in curlew.data["plugs"].values() if plug["where"] == "side wall, right"]
    assert len(walls) == 4
    low, high = curlew.data["block"]["side_walls"]
    assert {plug["at"][1] for plug in walls} == {low}
    assert float(low) < 0 < float(high)


def test_no_plug_nose_reaches_a_crossing(block: Block) -> None:
    """A taper plug three turns past hand-tight (ASME B1.20.1 and ISO 7-1 lengths) stops short of the next drilling."""
    reach = {"1/8-27": 6.93, "1/4-18": 10.02, "3/8-18": 10.33, "R 1/8": 4.0 + 3 * 0.9071}
    judged = 0
    for name, plug in block.data["plugs"].items():
        nose = next((mm for thread, mm in reach.items() if thread in plug["thread"]), None)
        own = plug["closes"]
        start, stop, _ = block.passages[own]
        at = block.point(plug["at"])
        inward = (stop - start if np.allclose(at, start) else start - stop) / np.linalg.norm(stop - start)
        for other, (a, b, diameter) in block.passages.items():
            meets = own in block.data["passages"][other].get("crosses", []) or any(
                kind == "passage" and {id, to} == {own, other} for id, _, kind, to in block.ends()
            )
            if nose and (meets or other in block.data["passages"][own].get("crosses", [])):
                judged += 1
                line = (b - a) / np.linalg.norm(b - a)
                sine = np.linalg.norm(np.cross(inward, line))
                depth = np.linalg.norm(np.cross(at - a, line)) / sine  # the axes meet, so this is along the plug
                assert depth - diameter / 2 / sine > nose, (name, other)
    assert judged > 4


def test_cup_plugs_press_in(block: Block) -> None:
    """0.05 to 0.30 mm larger than their holes; shop practice."""
    for name, plug in block.data["core_plugs"].items():
        tight = [block.mm(od) - block.mm(plug["bore"]) for od in plug["plug_od"]]
        if plug["kind"] == "cup":
            assert Fraction("0.05") <= min(tight) <= max(tight) <= Fraction("0.30"), name
        else:
            assert Fraction("-0.10") <= min(tight) <= max(tight) <= 0, name


@pytest.mark.parametrize(
    ("id", "passages", "plugs", "core", "drain"),
    [("curlew", 20, 13, 5, 1), ("plover", 13, 10, 4, 1), ("bittern", 18, 13, 7, 2), ("dunlin", 16, 12, 5, 2),
     ("avocet", 17, 12, 7, 2)],
)  # fmt: skip
def test_counts(id: str, passages: int, plugs: int, core: int, drain: int) -> None:
    """As counted on the drawings."""
    data = read(id)
    assert [len(data[part]) for part in ("passages", "plugs", "core_plugs", "drain_plugs")] == [
        passages, plugs, core, drain,
    ]  # fmt: skip


def test_the_grebe_stays_a_scrap() -> None:
    grebe = read("grebe")
    assert len(grebe["cylinders"]) == 3
    assert not grebe["geometry"]["rod_length"]
    assert not {"passages", "plugs", "cam", "limits"} & set(grebe)
