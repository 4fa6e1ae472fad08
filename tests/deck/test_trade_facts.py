"""The cards decide as the trade does.

Source of every rule here, unless a test says otherwise: common practice, no source. They are put to the decisions as
readings, so that a card that merely mentions a rule does not pass.
"""

from __future__ import annotations

import itertools

import pytest

from procgen.compose.bench import Bench
from procgen.compose.proofs import Proofs, Proven
from tests.deck.stand import Stand, Taken, workshop

OPENINGS = ("receive", "plug-map", "strip", "water-plugs", "cam-bearings", "galleys", "cam-in", "re-plug",
            "galley-test", "prime", "preserve")  # fmt: skip
KEPT: dict[str, Taken] = {
    "shell_face": "clean",
    "shell_seat": "tight",
    "cam_bore": 48.560,
    "cam_journal": 48.500,
}
EASY_LIFE: dict[str, Taken] = {"oil_state": "clean", "stopped_by": "worn", "service": "light"}
DRY: dict[str, Taken] = {"jacket": "clean", "next_wash": "mild", "core_look": "sound", "drain_flow": "runs"}
OPEN: dict[str, Taken] = {"brushed": "clean", "rod": "through", "light": "round", "paper": "clean"}


def cam(family: str, came: dict[str, Taken] = EASY_LIFE, water: dict[str, Taken] = DRY, **other: Taken) -> Stand:
    """The cam bearings of an engine that came in like that."""
    received = Stand(family, "water-plugs", water, beside=Stand(family, "receive", EASY_LIFE | came))
    journals = {id: f["journal"].value.value for id, f in workshop().families[family].members["cam_bearing"].items()}  # type: ignore[union-attr]
    running = {id: journal + 0.05 for id, journal in journals.items()}
    readings = KEPT | {"cam_journal": journals, "cam_bore": running} | other
    return Stand(family, "cam-bearings", readings, beside=received)


def cam_in(family: str, **other: Taken) -> Stand:
    """New shells going in, because the old ones were torn."""
    return Stand(family, "cam-in", other, beside=cam(family, shell_face="torn", cam_journal=48.5, cam_bore=48.6))


def proofs() -> list[tuple[str, Proven]]:
    return [
        (family.id, proven)
        for family in workshop().families.values()
        for variant in family.variants or (None,)
        for card in OPENINGS
        for proven in Proofs(Bench(workshop(), family, variant)).of_card(card)
    ]


def test_every_decision_finds_a_branch_whatever_is_read() -> None:
    found = proofs()
    assert len(found) > 500
    unproved = {(id, p.card, p.decision.name, p.proof.status) for id, p in found if p.proof.status != "proved"}
    assert {status for _, _, _, status in unproved} <= {"open"}
    assert {id for id, *_ in unproved} <= {"grebe"}  # of which next to nothing is known yet
    assert all(branch.when is not None for _, p in found for branch in p.decision.branches)


def test_every_branch_is_taken_in_some_engine() -> None:
    taken: dict[tuple[str, str], set[str]] = {}
    asked: dict[tuple[str, str], set[str]] = {}
    for id, p in proofs():
        if id != "grebe":
            taken.setdefault((p.card, p.decision.name), set()).update(p.proof.taken)
            asked[p.card, p.decision.name] = {branch.id for branch in p.decision.branches}
    assert taken == asked


# Cam bearings


@pytest.mark.parametrize("id", ["bittern", "curlew", "dunlin"])
def test_a_shell_without_wear_marks_may_stay(id: str) -> None:
    stand = cam(id)
    assert stand.outcome("keep_or_replace") == "keep"
    assert stand.outcome("whole_set") == "stay"


def test_a_shell_with_the_oil_route_behind_it_comes_out_however_good_it_looks() -> None:
    stand = cam("avocet")
    assert stand.outcome("keep_or_replace") == "replace_to_clean"
    assert stand.outcome("whole_set") == "replace_all"


@pytest.mark.parametrize(
    ("reading", "seen"), [("shell_face", "copper"), ("shell_face", "torn"), ("shell_seat", "moved")]
)
def test_a_damaged_shell_is_replaced_and_its_neighbours_with_it(reading: str, seen: str) -> None:
    found: Taken = dict.fromkeys("1245", str(KEPT[reading])) | {"3": seen}
    stand = cam("bittern", {}, DRY, **{reading: found})
    assert (stand.outcome("keep_or_replace", "3"), stand.outcome("keep_or_replace", "1")) == ("replace", "keep")
    assert stand.outcome("whole_set") == "replace_all"


@pytest.mark.parametrize(("id", "taken"), [("dunlin", "replace_bottom"), ("bittern", "keep")])
def test_a_bright_bottom_matters_where_no_oil_hole_feeds_it(id: str, taken: str) -> None:
    assert cam(id, shell_face="polished_bottom").outcome("keep_or_replace") == taken


def test_dirty_oil_brings_the_shells_out() -> None:
    for oil in ("sludge", "milky", "metal"):
        assert cam("curlew", {"oil_state": oil}).outcome("keep_or_replace") == "replace_dirt"
    assert cam("curlew", {"stopped_by": "water_in"}).outcome("keep_or_replace") == "replace_dirt"


@pytest.mark.parametrize(
    ("clearance", "taken"), [(0.02, "tight"), (0.05, "keep"), (0.10, "ask"), (0.14, "replace_clearance")]
)
def test_clearance_decides_where_the_look_does_not(clearance: float, taken: str) -> None:
    assert cam("bittern", cam_journal=48.5, cam_bore=48.5 + clearance).outcome("keep_or_replace") == taken


@pytest.mark.parametrize(("face", "taken"), [("smooth", "run"), ("scored", "sleeve")])
def test_without_shells_a_scored_cam_bore_is_line_bored_and_sleeved(face: str, taken: str) -> None:
    stand = cam("plover", bore_face=face)
    assert stand.outcome("bore_condition") == taken
    assert stand.outcome("keep_or_replace") == "State.NONE"


@pytest.mark.parametrize(("od", "taken"), [(54.03, "loose"), (54.06, "press"), (54.10, "tight")])
def test_a_shell_is_pressed_only_where_its_grip_is_right(od: float, taken: str) -> None:
    assert cam_in("bittern", tunnel_bore=54.00, shell_od=od).outcome("shell_fits") == taken


@pytest.mark.parametrize(("look", "taken"), [("open", "stays"), ("part", "covered"), ("curl", "curl")])
def test_a_shell_whose_hole_is_part_covered_is_scrap(look: str, taken: str) -> None:
    assert cam_in("bittern", fitted_bore=48.55, hole_look=look).outcome("shell_in") == taken


# Core plugs


def test_steel_core_plugs_are_replaced_and_sound_brass_stays() -> None:
    assert Stand("bittern", "water-plugs", DRY | {"core_look": "steel"}).outcome("core_keep") == "out_steel"
    assert Stand("bittern", "water-plugs", DRY).outcome("core_keep") == "stays"


@pytest.mark.parametrize("seen", ["pink", "leaked"])
def test_brass_that_has_leaked_or_lost_its_zinc_goes(seen: str) -> None:
    assert Stand("curlew", "water-plugs", DRY | {"core_look": seen}).outcome("core_keep") == "out_bad"


@pytest.mark.parametrize(("reading", "seen"), [("jacket", "mud"), ("jacket", "stop_leak"), ("next_wash", "tank")])
def test_a_jacket_that_must_be_washed_brings_all_plugs_out(reading: str, seen: str) -> None:
    assert Stand("dunlin", "water-plugs", DRY | {reading: seen}).outcome("core_keep") == "out_jacket"


@pytest.mark.parametrize(
    ("plug", "hole", "od", "taken"),
    [
        ("CC", 47.00, 47.15, "press"),
        ("CC", 47.12, 47.15, "loose_cup"),
        ("CC", 47.00, 47.35, "tight_cup"),
        ("CP1", 38.10, 38.05, "press"),  # a disc slides in
        ("CP1", 38.10, 38.15, "wrong_disc"),
        ("CP1", 38.20, 38.05, "wrong_disc"),
    ],
)
def test_a_cup_grips_its_hole_and_a_disc_slides_into_it(plug: str, hole: float, od: float, taken: str) -> None:
    readings: dict[str, Taken] = {"core_hole": "clean", "hole": {plug: hole}, "plug_od": {plug: od}}
    assert Stand("plover", "water-plugs", readings).outcome("hole_fit", plug) == taken


# Galleys


@pytest.mark.parametrize(
    ("reading", "seen", "taken"),
    [
        ("rod", "blocked", "blocked"),
        ("light", "dark", "blocked"),
        ("paper", "metal", "metal"),
        ("brushed", "dirty", "dirty"),
        ("light", "half_moon", "edge"),
        ("light", "no_view", "unseen"),
        ("light", "round", "clean"),
    ],
)
def test_a_passage_is_ticked_only_when_brush_rod_light_and_paper_agree(reading: str, seen: str, taken: str) -> None:
    assert Stand("curlew", "galleys", OPEN | {reading: seen}).outcome("passage_state") == taken


def test_only_one_set_of_findings_ticks_a_passage() -> None:
    choices = workshop().procedures["galleys"].readings
    ticked = [
        seen
        for seen in itertools.product(*(choices[name].choices for name in OPEN))
        if Stand("plover", "galleys", dict(zip(OPEN, seen, strict=True))).outcome("passage_state", "MG") == "clean"
    ]
    assert ticked == [tuple(OPEN.values())]


@pytest.mark.parametrize(
    ("id", "plugs"), [("curlew", 13), ("plover", 10), ("bittern", 13), ("dunlin", 12), ("avocet", 12)]
)
def test_every_plug_is_counted_out_and_in(id: str, plugs: int) -> None:
    for counted, taken in ((plugs - 1, "missing"), (plugs, "agree"), (plugs + 1, "extra")):
        stripped = Stand(id, "strip", {"left_in": 0.0})
        assert Stand(id, "galleys", {"tray_count": float(counted)}, beside=stripped).outcome("count_out") == taken
        drains = float(len(workshop().families[id].drain_plugs))
        readings = {"in_count": float(counted), "drain_count": drains}
        assert Stand(id, "re-plug", readings).outcome("count_in") == taken
        if taken == "agree":  # a drain left out is water in the pan
            assert Stand(id, "re-plug", {**readings, "drain_count": drains - 1}).outcome("count_in") == "missing"
            assert Stand(id, "re-plug", {**readings, "drain_count": drains + 1}).outcome("count_in") == "extra"


@pytest.mark.parametrize(("id", "taken"), [("curlew", "heat"), ("avocet", "warm")])
def test_a_stuck_plug_is_heated_in_iron_only(id: str, taken: str) -> None:
    assert Stand(id, "strip", {"plug_state": "stuck", "boss": "sound"}).outcome("plug_out") == taken
