"""New rings and used ones, and the light past them: the cards decide as the trade does.

Source of every rule here, unless a test says otherwise: common practice, no source.
"""

from __future__ import annotations

from math import pi

import pytest

from tests.deck.stand import Stand, Taken, workshop

INCH = 25.4  # mm
RINGS: dict[str, Taken] = {
    "ring_kind": "used", "ring_look": "clean", "ring_metal": "cast", "gap_top": 0.60,
    "gap_second": 0.62, "free_gap": 11.0, "back": "under", "side": 0.06, "piston": 98.40, "skirt_bore": 98.45,
}  # fmt: skip


def rings(**other: Taken) -> Stand:
    return Stand("bittern", "rings", RINGS | other)


def lit(light: Taken, beside: Stand | None = None, **other: Taken) -> Stand:
    readings: dict[str, Taken] = {"light": light, "light_turns": "none", "light_arc": 0.0}
    return Stand("bittern", "ring-light", readings | other, beside=beside or rings())


@pytest.mark.parametrize(
    ("id", "least"), [("curlew", 0.350), ("plover", 0.283), ("bittern", 0.394), ("dunlin", 0.371), ("avocet", 0.469)]
)
def test_the_least_ring_gap_is_rounded_up(id: str, least: float) -> None:
    """Worked by hand: 0.0040, 0.0035, 0.0040, 0.0040 and 0.0045 of the bore, up to the next hundredth of a tenth."""
    gap = Stand(id, "rings", {}).whole("gap_min").one.number
    assert least - 0.001 < gap <= least


@pytest.mark.parametrize(
    ("found", "taken"),
    [
        ({}, "tag"),
        ({"gap_top": 0.39}, "file"),
        ({"gap_second": 0.39}, "file"),
        ({"gap_top": 0.394}, "tag"),
        ({"gap_top": 0.40 + pi * 0.50}, "wrong_set"),  # a standard ring in a bore 0.50 over opens by pi of that
        ({"back": "proud"}, "proud"),
        ({"side": 0.02}, "groove"),
        ({"side": 0.13}, "groove"),
    ],
)
def test_a_new_ring_is_filed_changed_or_tagged(found: dict[str, Taken], taken: str) -> None:
    assert rings(ring_kind="new", **found).outcome("new_ring") == taken
    assert rings(ring_kind="new", **found).outcome("used_ring") == "State.NONE"


@pytest.mark.parametrize(
    ("found", "taken"),
    [
        ({}, "light"),
        ({"ring_look": "other"}, "worn"),
        ({"ring_look": "worn"}, "worn"),
        ({"gap_top": 0.30}, "odd"),
        ({"gap_top": 0.99}, "wide"),
        ({"ring_metal": "steel"}, "steel"),
        ({"free_gap": 9.8}, "slack"),
        ({"free_gap": 9.84}, "light"),
    ],
)
def test_a_used_ring_must_have_kept_place_face_gap_and_tension(found: dict[str, Taken], taken: str) -> None:
    assert rings(**found).outcome("used_ring") == taken


def test_a_used_ring_that_kept_tension_and_gap_and_shows_no_light_may_go_back() -> None:
    assert lit("none").outcome("light_verdict") == "back"
    assert lit("none", rings(free_gap=9.0)).outcome("light_verdict") == "used"
    assert lit("none", rings(ring_look="worn")).outcome("light_verdict") == "used"


def test_past_a_used_ring_no_light_is_allowed_and_past_a_new_one_a_little() -> None:
    new = rings(ring_kind="new")
    for arc, taken in ((30.0, "beds"), (31.0, "wide")):
        assert lit("hair", light_arc=arc, light_turns="wall").outcome("light_verdict") == "used"
        assert lit("hair", rings(ring_kind="new"), light_arc=arc).outcome("light_verdict") == taken
    assert lit("none", new).outcome("light_verdict") == "fits"


def test_light_that_turns_with_the_ring_is_the_rings_fault_and_a_crescent_that_stays_is_the_walls() -> None:
    for turns, taken in (("ring", "ring"), ("wall", "wall")):
        assert lit("crescent", light_turns=turns).outcome("light_verdict") == taken


@pytest.mark.parametrize(
    ("id", "variant", "depths"),
    [
        ("plover", "plover-15", "6.3 31.7 57.1 82.5 95.75"),
        ("plover", "plover-13", "6.3 31.7 57.1 82.5 87.15"),
        ("bittern", "bittern-51", "6.15 31.55 56.95 82.35 107.05"),
        ("bittern", "bittern-55", "6.15 31.55 56.95 82.35 107.75 113.05"),
        ("dunlin", "dunlin-32", "5.8 31.2 56.6 82.0 99.3"),
        ("dunlin", "dunlin-29", "5.8 31.2 56.6 82.0 91.3"),
        ("avocet", "avocet-62", "6.8 32.2 57.6 83.0 108.4 116.6"),
        ("avocet", "avocet-57", "6.8 32.2 57.6 83.0 108.2"),
    ],
)
def test_a_ring_is_lit_at_the_ridge_then_every_inch_to_the_bottom_of_travel(id: str, variant: str, depths: str) -> None:
    """Source: geometry. First its upper edge at the top of travel, last its lower edge at the end."""
    stand = Stand(id, "ring-light", {})
    stand.bench.variant = next(v for v in workshop().families[id].variants if v.id == variant)
    found = [depth for depth in stand.stations.values() if depth is not None]
    assert found == pytest.approx([float(depth) for depth in depths.split()])


@pytest.mark.parametrize(
    ("variant", "inches"),
    [("curlew-long", "0.301 1.301 2.301 3.301 4.301 4.868"), ("curlew-short", "0.301 1.301 2.301 3.301 4.301 4.468")],
)
def test_an_engine_drawn_in_inches_is_lit_at_whole_inches_under_the_ridge(variant: str, inches: str) -> None:
    """Source: geometry. 0.016 + 0.285 in; the last is 0.016 + 3.850 or 3.450 + 1.080 - 0.078 in."""
    stand = Stand("curlew", "ring-light", {})
    stand.bench.variant = next(v for v in workshop().families["curlew"].variants if v.id == variant)
    found = [depth / INCH for depth in stand.stations.values() if depth is not None]
    assert found == pytest.approx([float(depth) for depth in inches.split()])


def test_a_family_that_states_no_piston_clearance_gets_no_verdict_on_it() -> None:
    names = ("limits.piston_clearance_min", "limits.piston_clearance_max")
    assert rings().unstated(*names).outcome("piston_fit") == "State.UNKNOWN"
