"""From the hoist to the tag: plugs, core plugs, cam shells and galleys are decided on as the trade does.

Source of every rule here, unless a test says otherwise: common practice, no source. They are put to the decisions as
readings, so that a card that merely mentions a rule does not pass.
"""

from __future__ import annotations

import re

import pytest

from tests import demo
from tests.deck.stand import Stand, Taken, workshop

OURS = ("receive", "plug-map", "strip", "water-plugs", "cam-bearings", "galleys", "cam-in", "re-plug", "galley-test",
        "prime", "preserve")  # fmt: skip
FAMILIES = ("avocet", "bittern", "curlew", "dunlin", "plover")
CLEAN: dict[str, Taken] = {"oil_state": "clean", "stopped_by": "worn", "service": "light"}
UNTOUCHED: dict[str, Taken] = {"lifter_debris": "none", "work_planned": "wash"}
ROUND: dict[str, Taken] = {"core_hole": "clean", "plug_od": 41.45}
TIGHT: dict[str, Taken] = {"drop": 0.0, "leak_at": "none", "outlets_dry": 0.0}


def hole(one_way: float, square_to_it: float, **other: Taken) -> Stand:
    """Core plug holes of a Bittern, drawn 41.30 for cups of 41.40 to 41.50."""
    return Stand("bittern", "water-plugs", ROUND | {"hole": {"first": one_way, "second": square_to_it}} | other)


def seated(below: float, square: str = "square") -> Stand:
    return Stand("bittern", "re-plug", {"core_square": square, "core_below": below})


# The engine comes in


@pytest.mark.parametrize(
    ("numbers", "caps", "taken"),
    [
        ("agree", "matched", "go"),
        ("doubtful", "matched", "measure"),
        ("agree", "mixed", "measure"),
        ("differ", "matched", "stop"),
        ("differ", "mixed", "stop"),
    ],
)
def test_marks_that_disagree_stop_a_careful_person(numbers: str, caps: str, taken: str) -> None:
    assert Stand("dunlin", "receive", {"identity": numbers, "cap_marks": caps}).outcome("go_on") == taken


@pytest.mark.parametrize(
    ("reading", "seen", "taken"),
    [
        ("stopped_by", "frozen", "crack_first"),
        ("stopped_by", "overheated", "crack_first"),
        ("oil_state", "milky", "open_all"),
        ("oil_state", "metal", "open_all"),
        ("stopped_by", "unknown", "hard_life"),
        ("service", "unknown", "hard_life"),
        ("service", "light", "usual"),
    ],
)
def test_what_is_not_known_of_an_engine_counts_as_hard(reading: str, seen: str, taken: str) -> None:
    assert Stand("plover", "receive", CLEAN | {reading: seen}).outcome("history") == taken


@pytest.mark.parametrize(("gear", "taken"), [("bad", "no"), ("low", "low"), ("good", "lift")])
def test_nothing_is_lifted_on_flat_or_unrated_legs(gear: str, taken: str) -> None:
    assert Stand("curlew", "receive", {"gear": gear}).outcome("hang") == taken


def test_what_a_sling_legs_plate_must_say() -> None:
    """Statics: m / (2 sin 60°). 78 kg / 1.7320508 = 45.033 kg on each leg."""
    assert Stand("bittern", "receive", {}).whole("leg_load").one.number == pytest.approx(45.0333, abs=1e-4)


def test_the_moment_on_the_stand() -> None:
    """Statics: 78 kg at half of 524 mm: 78 x 9.80665 x 0.262 = 200.409 N·m; base unit mN·mm."""
    assert Stand("bittern", "receive", {}).whole("stand_moment").one.number / 1e6 == pytest.approx(200.409, abs=1e-3)


# Plugs found, taken out and counted


@pytest.mark.parametrize(
    ("found", "extra", "taken"),
    [((13, 7, 2), "none", "agree"), ((12, 7, 2), "none", "recount"), ((14, 6, 2), "none", "recount"),
     ((13, 7, 2), "some", "extra")],
)  # fmt: skip
def test_a_count_that_is_right_only_in_sum_is_not_right(found: tuple[float, ...], extra: str, taken: str) -> None:
    counts: dict[str, Taken] = dict(zip(("found_plug", "found_core", "found_drain"), found, strict=True))
    assert Stand("bittern", "plug-map", counts | {"extra": extra}).outcome("map_agrees") == taken


@pytest.mark.parametrize(
    ("came", "seen", "taken"),
    [
        ({}, {}, "may_stay"),
        ({"oil_state": "dark"}, {}, "all_dirty"),
        ({"stopped_by": "water_in"}, {}, "all_dirty"),
        ({}, {"lifter_debris": "unknown"}, "all_dirty"),
        ({}, {"work_planned": "cut"}, "all_work"),
        ({"stopped_by": "unknown"}, {}, "all_work"),
    ],
)
def test_galley_plugs_stay_only_in_a_clean_engine_that_is_only_washed(
    came: dict[str, Taken], seen: dict[str, Taken], taken: str
) -> None:
    received = Stand("bittern", "receive", CLEAN | came)
    assert Stand("bittern", "strip", UNTOUCHED | seen, beside=received).outcome("galley_plugs") == taken


@pytest.mark.parametrize(
    ("state", "boss", "taken"), [("free", "sound", "tray"), ("broken", "sound", "drill"), ("stuck", "damaged", "stop")]
)
def test_a_cracked_boss_stops_the_key(state: str, boss: str, taken: str) -> None:
    assert Stand("bittern", "strip", {"plug_state": state, "boss": boss}).outcome("plug_out") == taken


def test_plugs_left_in_count_with_those_in_the_tray() -> None:
    for counted, taken in ((10.0, "missing"), (11.0, "agree"), (12.0, "extra")):
        stripped = Stand("bittern", "strip", {"left_in": 2.0})
        assert Stand("bittern", "galleys", {"tray_count": counted}, beside=stripped).outcome("count_out") == taken


@pytest.mark.parametrize(("plunger", "taken"), [("free", "keep"), ("scored", "renew"), ("stuck", "drift")])
def test_a_relief_valve_is_judged_where_there_is_one(plunger: str, taken: str) -> None:
    assert Stand("plover", "strip", {"plunger": plunger}).outcome("relief") == taken
    assert Stand("bittern", "strip", {}).outcome("relief") == "State.NONE"


# Core plugs


@pytest.mark.parametrize(
    ("second", "taken"), [(41.30, "press"), (41.35, "press"), (41.36, "seal"), (41.39, "seal"), (41.46, "machine")]
)
def test_a_hole_out_of_round_weeps(second: float, taken: str) -> None:
    assert hole(41.30, second, plug_od=41.50).outcome("hole_fit") == taken


@pytest.mark.parametrize(("size", "taken"), [(41.30, "press"), (41.38, "press"), (41.42, "loose_cup")])
def test_a_hole_stretched_by_removals_wants_an_oversize_plug(size: float, taken: str) -> None:
    assert hole(size, size).outcome("hole_fit") == taken


@pytest.mark.parametrize("seen", ["pitted", "cracked"])
def test_no_plug_is_driven_into_a_pitted_or_cracked_seat(seen: str) -> None:
    assert hole(41.30, 41.30, core_hole=seen).outcome("hole_fit") in ("machine", "crack")


def test_a_drain_that_does_not_run_brings_the_core_plugs_out() -> None:
    readings: dict[str, Taken] = {"jacket": "clean", "next_wash": "mild", "core_look": "sound"}
    for flow, taken in (("runs", "stays"), ("shut", "out_jacket")):
        assert Stand("avocet", "water-plugs", readings | {"drain_flow": flow}).outcome("core_keep") == taken


@pytest.mark.parametrize(
    ("below", "square", "taken"),
    [
        (0.0, "square", "shallow"),
        (0.4, "square", "shallow"),
        (0.5, "square", "stays"),
        (1.5, "square", "stays"),
        (2.1, "square", "out"),
        (1.0, "crooked", "out"),
    ],
)
def test_a_core_plug_sits_square_and_a_little_below_its_face(below: float, square: str, taken: str) -> None:
    assert seated(below, square).outcome("core_in") == taken


# Cam bearings


def test_shells_come_out_before_a_hot_tank() -> None:
    received = Stand("bittern", "receive", CLEAN)
    for wash, taken in (("mild", "keep"), ("tank", "replace_dirt")):
        water = Stand("bittern", "water-plugs", {"next_wash": wash}, beside=received)
        seen: dict[str, Taken] = {"shell_face": "clean", "shell_seat": "tight", "cam_bore": 48.55, "cam_journal": 48.50}
        assert Stand("bittern", "cam-bearings", seen, beside=water).outcome("keep_or_replace") == taken


@pytest.mark.parametrize(("id", "taken"), [("dunlin", "replace_bottom"), ("bittern", "keep")])
def test_a_side_fed_shell_is_not_trusted_after_a_hard_life(id: str, taken: str) -> None:
    members = workshop().families[id].members["cam_bearing"]
    journals = {name: member["journal"].value.value for name, member in members.items()}  # type: ignore[union-attr]
    seen: dict[str, Taken] = {"shell_face": "clean", "shell_seat": "tight", "cam_journal": journals,
                              "cam_bore": {name: size + 0.05 for name, size in journals.items()}}  # fmt: skip
    water = Stand(id, "water-plugs", {"next_wash": "mild"}, beside=Stand(id, "receive", CLEAN | {"service": "hard"}))
    assert Stand(id, "cam-bearings", seen, beside=water).outcome("keep_or_replace") == taken


def test_a_warm_aluminium_block_lets_its_shells_go_a_little() -> None:
    """57.0 mm, 80 K, expansions 21.5 and 11.7 µm/(m·K): 57.0 x 9.8e-6 x 80 = 0.044688 mm."""
    assert Stand("avocet", "cam-in", {}).whole("warm_loss").one.number == pytest.approx(0.044688, abs=1e-9)
    assert Stand("bittern", "cam-in", {}).whole("warm_loss").one.value is None


@pytest.mark.parametrize(("turns", "taken"), [("free", "free"), ("one_tight", "one_tight"), ("stiff", "stiff")])
def test_the_camshaft_must_turn_in_every_engine(turns: str, taken: str) -> None:
    assert {Stand(id, "cam-in", {"cam_turn": turns}).outcome("cam_turns") for id in FAMILIES} == {taken}


def test_nobody_is_told_to_scrape_or_hone_a_cam_bearing() -> None:
    said = [str(b.then) for id in ("cam-bearings", "cam-in")
            for d in workshop().procedures[id].decisions.values() for b in d.branches]  # fmt: skip
    said += [str(step.do) for id in ("cam-bearings", "cam-in") for step in workshop().procedures[id].steps]
    named = [text for text in said if re.search(r"\bscrape|\bhone", text)]
    assert len(named) > 3
    assert all(re.search(r"nothing|never", text, re.IGNORECASE) for text in named)


# Plugs back in, test, prime


@pytest.mark.parametrize(
    ("seat", "boss", "taken"),
    [
        ("right", "sound", "stays"),
        ("crossing", "sound", "crossing"),
        ("deep", "sound", "thread"),
        ("short", "sound", "thread"),
        ("right", "damaged", "stop"),
    ],
)
def test_a_plug_stays_only_at_its_own_depth_in_a_sound_boss(seat: str, boss: str, taken: str) -> None:
    assert Stand("curlew", "re-plug", {"plug_seat": seat, "boss_after": boss}).outcome("plug_in") == taken


@pytest.mark.parametrize(
    ("found", "taken"),
    [
        ({}, "sign"),
        ({"drop": 5.0}, "sign"),
        ({"drop": 6.0}, "hunt"),
        ({"outlets_dry": 1.0}, "trace"),
        ({"leak_at": "plug", "drop": 6.0}, "plug"),
        ({"leak_at": "casting"}, "casting"),
    ],
)
def test_a_block_is_signed_for_only_when_tight_and_wet_everywhere(found: dict[str, Taken], taken: str) -> None:
    assert Stand("avocet", "galley-test", TIGHT | found).outcome("tight") == taken


@pytest.mark.parametrize(
    ("oil", "crank", "taken"),
    [("all", "free", "ready"), ("some", "free", "trace"), ("none", "free", "pump"), ("all", "tight", "tight")],
)
def test_no_start_before_every_outlet_is_wet(oil: str, crank: str, taken: str) -> None:
    assert Stand("dunlin", "prime", {"oil_seen": oil, "hand_turn": crank}).outcome("primed") == taken


@pytest.mark.parametrize(
    ("points", "place", "taken"),
    [(0.0, "dry", "ready"), (0.0, "heated", "ready"), (0.0, "damp", "move"), (1.0, "dry", "open")],
)
def test_a_block_is_handed_over_dry_and_with_nothing_open(points: float, place: str, taken: str) -> None:
    assert Stand("plover", "preserve", {"open_points": points, "storage": place}).outcome("release") == taken


@pytest.mark.parametrize(("card", "tool"), [("strip", "torch for iron"), ("cracks", "magnet yoke and powder")])
def test_nobody_brings_a_flame_or_a_magnet_to_aluminium(card: str, tool: str) -> None:
    """An engine whose metal nobody has told yet may be iron."""
    assert {family for family in (*FAMILIES, "grebe") if tool in demo.cards(family)[card].bring} == {
        "bittern", "curlew", "dunlin", "plover", "grebe",
    }  # fmt: skip


# The order of work


def test_the_rough_wash_comes_before_the_work_and_the_thorough_one_after_it() -> None:
    order = [card for card, _ in workshop().deck]
    worked = ["receive", "plug-map", "strip", "water-plugs", "cam-bearings", "rough-wash", "galleys", "cylinder-survey",
              "hone", "final-wash", "cam-in", "re-plug", "galley-test", "prime", "preserve"]  # fmt: skip
    assert [card for card in order if card in worked] == worked


@pytest.mark.parametrize("id", ["plug-map", "re-plug", "cam-in"])
def test_what_people_forget_is_looked_at_by_two(id: str) -> None:
    hold = workshop().procedures[id].hold
    assert hold is not None
    assert hold.signers == 2


@pytest.mark.parametrize("id", OURS)
def test_a_card_hangs_on_a_wall_and_is_short(id: str) -> None:
    """Our own rule, no source. Steps that exclude each other stand side by side, so no engine has all eleven."""
    card = workshop().procedures[id]
    assert len(card.steps) <= 11
    assert len(str(card.reason.value).split()) <= 40
    assert len(card.cautions) <= 2
    assert all(len(step.cautions) <= 1 for step in card.steps)
    shown = [caution.id for step in card.steps for caution in step.cautions] + [caution.id for caution in card.cautions]
    assert len(shown) == len(set(shown))
