"""The cards decide as the trade does.

Source of every rule here, unless a test says otherwise: common practice, no source. They are put to the decisions as
readings, so that a card that merely mentions a rule does not pass.
"""

from __future__ import annotations

import itertools

import pytest

from procgen.compose.bench import Bench
from procgen.compose.proofs import Proofs, Proven
from tests.deck.stand import Bores, Stand, Taken, workshop

INCH = 25.4
OPENINGS = ("receive", "plug-map", "strip", "water-plugs", "cam-bearings", "galleys", "cam-in", "re-plug",
            "galley-test", "prime", "preserve")  # fmt: skip
SOUND: dict[str, Taken] = {
    "thumbnail": "passes",
    "shadow": "even",
    "wall": "sound",
    "hatch": "worn",
    "running_gear": "original",
    "wear_side": "both",
    "pistons": "none",
}
KEPT: dict[str, Taken] = {
    "shell_face": "clean",
    "shell_seat": "tight",
    "cam_bore": 48.560,
    "cam_journal": 48.500,
}
EASY_LIFE: dict[str, Taken] = {"oil_state": "clean", "stopped_by": "worn", "service": "light"}
DRY: dict[str, Taken] = {"jacket": "clean", "next_wash": "mild", "core_look": "sound", "drain_flow": "runs"}
OPEN: dict[str, Taken] = {"brushed": "clean", "rod": "through", "light": "round", "paper": "clean"}


def worn_evenly(ridge: float, size: float = 98.40) -> Bores:
    """A Bittern bore worn by `ridge` mm on diameter all the way down ring travel, so that only the ridge can tell."""
    worn, unworn = dict.fromkeys((8.0, 40.0, 75.0, 106.0), size + ridge), dict.fromkeys((3.0, 122.0), size)
    return {depth: (across, across) for depth, across in sorted((worn | unworn).items())}


def survey(bores: Bores, **other: Taken) -> Stand:
    return Stand("bittern", "cylinder-survey", SOUND | other, bores)


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
        for card in ("cylinder-survey", *OPENINGS)
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


# The survey


def test_a_ridge_that_stops_the_thumbnail_means_bore_however_good_the_rest() -> None:
    assert survey(worn_evenly(0.05)).outcome("hone_or_bore") == "hone"
    assert survey(worn_evenly(0.05), thumbnail="catches").outcome("hone_or_bore") == "bore"


@pytest.mark.parametrize("ridge", [0.03, 0.05, 0.1, 0.005 * INCH])
def test_an_even_shadow_and_a_ridge_up_to_five_thousandths_of_an_inch_may_be_honed(ridge: float) -> None:
    assert survey(worn_evenly(ridge)).outcome("hone_or_bore") == "hone"


@pytest.mark.parametrize("ridge", [0.128, 0.14, 0.006 * INCH])
def test_from_five_to_six_thousandths_a_named_person_is_asked(ridge: float) -> None:
    assert survey(worn_evenly(ridge)).outcome("hone_or_bore") == "ask"


def test_a_ridge_over_six_thousandths_means_bore() -> None:
    assert survey(worn_evenly(0.006 * INCH + 0.001)).outcome("hone_or_bore") == "bore"


@pytest.mark.parametrize("shadow", ["uneven", "slanting"])
def test_a_shadow_that_is_not_even_means_bore(shadow: str) -> None:
    assert survey(worn_evenly(0.05), shadow=shadow).outcome("hone_or_bore") == "bore"


def test_the_original_running_gear_returns_the_rings_below_the_ridge_and_a_changed_one_does_not() -> None:
    assert survey(worn_evenly(0.05), running_gear="original").outcome("hone_or_bore") == "hone"
    assert survey(worn_evenly(0.05), running_gear="changed").outcome("hone_or_bore") == "bore"


def test_a_bore_that_is_hardly_worn_is_left_with_its_own_rings() -> None:
    assert survey(worn_evenly(0.015), hatch="whole").outcome("hone_or_bore") == "leave"
    assert survey(worn_evenly(0.015), hatch="worn").outcome("hone_or_bore") == "hone"


@pytest.mark.parametrize(("oval", "taken"), [(0.05, "hone"), (0.06, "bore")])
def test_an_oval_bore_is_bored_because_a_hone_follows_its_shape(oval: float, taken: str) -> None:
    bores = dict(worn_evenly(0.06)) | {40: (98.46, 98.46 - oval)}
    assert survey(bores).outcome("hone_or_bore") == taken


def test_a_crack_stops_all_work_on_the_engine() -> None:
    walls = dict.fromkeys(("A2", "A3", "A4", "B1", "B2", "B3", "B4"), "sound") | {"A1": "cracked"}
    stand = survey(worn_evenly(0.05), wall=walls)
    assert (stand.outcome("hone_or_bore", "A1"), stand.outcome("hone_or_bore", "B4")) == ("stop", "hone")
    assert stand.outcome("engine") == "stop"


@pytest.mark.parametrize("id", ["avocet", "bittern", "curlew", "dunlin", "plover"])
def test_the_bore_is_unworn_in_two_places_and_is_gauged_in_both(id: str) -> None:
    for variant in workshop().families[id].variants:
        stand = Stand(id, "cylinder-survey", {})
        stand.bench.variant = variant
        top, bottom = (stand.whole(name).one.number for name in ("travel_top", "travel_bottom"))
        depths = [depth for depth in stand.stations.values() if depth is not None]
        assert sum(depth < top for depth in depths) == 1
        assert sum(depth > bottom for depth in depths) == 1
        assert sum(top < depth < bottom for depth in depths) >= 3
    survey_card = workshop().procedures["cylinder-survey"]
    assert survey_card.readings["bore"].least == {"in_travel": 3, "below_travel": 1, "above_travel": 1}


def test_the_hone_takes_in_both_unworn_bands() -> None:
    branches = workshop().procedures["cylinder-survey"].decisions["hone_or_bore"].branches
    (hone,) = (branch for branch in branches if branch.id == "hone")
    assert "both unworn bands" in hone.then.value


WORKED: Bores = {
    3: (98.412, 98.410),
    12: (98.498, 98.462),
    40: (98.470, 98.448),
    75: (98.446, 98.436),
    105: (98.430, 98.424),
    120: (98.408, 98.408),
}
"""A worn Bittern bore. Travel runs from 6.15 to 108.65 mm, so the first and the last row lie outside it."""


def test_the_figures_of_a_worn_bore() -> None:
    """Worked by hand: 98.498 - 98.462; 98.498 - 98.430; 98.498 - 98.408; 98.498 - 98.412; + 0.030 + 0.080."""
    stand = survey(WORKED)
    want = {"out_of_round": 0.036, "taper": 0.068, "wear": 0.090, "ridge": 0.086, "unworn": 98.408, "need": 98.608}
    assert {name: stand.value(name, "A1") for name in want} == pytest.approx(want, abs=1e-9)
    assert stand.outcome("hone_or_bore") == "hone"


@pytest.mark.parametrize(
    ("side", "need", "oversize"),
    [("both", 98.608, 0.25), ("one", 98.698, 0.50)],  # one: 98.408 + 2 x 0.090 + 0.110
)
def test_wear_on_one_wall_needs_twice_the_cut(side: str, need: float, oversize: float) -> None:
    stand = survey(WORKED, thumbnail="catches", wear_side=side)
    assert stand.value("need", "B2") == pytest.approx(need, abs=1e-9)
    assert stand.value("oversize", "B2") == pytest.approx(oversize)
    assert stand.outcome("oversize_or_sleeve") == "oversize"


def test_a_bore_that_no_piston_on_offer_cleans_up_is_sleeved() -> None:
    stand = survey(worn_evenly(0.95), thumbnail="catches")  # 98.40 + 0.95 + 0.11 = 99.46, over 98.40 + 1.00
    assert stand.outcome("oversize_or_sleeve") == "sleeve"
    assert stand.outcome("engine") == "sleeve"


def test_each_cylinder_is_judged_by_itself_but_one_bored_means_all_bored() -> None:
    nails = dict.fromkeys(("A1", "A2", "A3", "A4", "B1", "B2", "B3"), "passes") | {"B4": "catches"}
    stand = survey(WORKED, thumbnail=nails)
    assert (stand.outcome("hone_or_bore", "A1"), stand.outcome("hone_or_bore", "B4")) == ("hone", "bore")
    assert stand.outcome("engine") == "bore_all"
    assert stand.whole("finished_all").one.number == pytest.approx(98.65)


@pytest.mark.parametrize(("pistons", "taken"), [("none", "order"), ("ordered", "wait"), ("here", "measure")])
def test_nothing_is_bored_before_the_pistons_are_in_the_shop(pistons: str, taken: str) -> None:
    assert survey(WORKED, thumbnail="catches", pistons=pistons).outcome("pistons_first") == taken


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
        assert Stand(id, "re-plug", {"in_count": float(counted)}).outcome("count_in") == taken


@pytest.mark.parametrize(("id", "taken"), [("curlew", "heat"), ("avocet", "warm")])
def test_a_stuck_plug_is_heated_in_iron_only(id: str, taken: str) -> None:
    assert Stand(id, "strip", {"plug_state": "stuck", "boss": "sound"}).outcome("plug_out") == taken
