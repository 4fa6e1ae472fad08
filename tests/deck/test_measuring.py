"""From the first wash to ring travel: the cards decide as the trade does.

Source of every rule here, unless a test says otherwise: common practice, no source. They are put to the decisions as
readings, so that a card that merely mentions a rule does not pass.
"""

from __future__ import annotations

import pytest

from procgen.compose.bench import Bench
from procgen.compose.proofs import Proofs
from tests.deck.measured import FAMILIES, SAME, TRIED, TRUE_LINE, WASHED, WHOLE, travel
from tests.deck.stand import Stand, Taken, workshop

OURS = ("rough-wash", "cracks", "threads", "measure-bores", "travel", "cylinder-survey", "deck-face", "decide")


# Whatever is read


@pytest.mark.parametrize("id", FAMILIES)
def test_every_decision_finds_a_branch_whatever_is_read(id: str) -> None:
    family = workshop().families[id]
    for variant in family.variants:
        proofs = Proofs(Bench(workshop(), family, variant))
        found = [proven for card in OURS for proven in proofs.of_card(card)]
        assert {proven.card for proven in found} == set(OURS)
        assert {proven.proof.status for proven in found} == {"proved"}
        assert all(branch.when is not None for proven in found for branch in proven.decision.branches)


def test_every_branch_is_taken_in_some_engine() -> None:
    taken: dict[tuple[str, str], set[str]] = {}
    asked: dict[tuple[str, str], set[str]] = {}
    for id in FAMILIES:
        family = workshop().families[id]
        proofs = Proofs(Bench(workshop(), family, family.variants[0]))
        for proven in (proven for card in OURS for proven in proofs.of_card(card)):
            taken.setdefault((proven.card, proven.decision.name), set()).update(proven.proof.taken)
            asked[proven.card, proven.decision.name] = {branch.id for branch in proven.decision.branches}
    assert taken == asked


# The rough wash


def wash(family: str = "bittern", **other: Taken) -> Stand:
    return Stand(family, "rough-wash", WASHED | other)


@pytest.mark.parametrize(
    ("surface", "paper", "taken"),
    [("stained", "neutral", "stop"), ("clean", "neutral", "stop"), ("hidden", "neutral", "again"),
     ("clean", "alkaline", "rinse")],
)  # fmt: skip
def test_only_a_rough_wash_comes_before_the_work(surface: str, paper: str, taken: str) -> None:
    """It ends as soon as every edge can be seen, stains or not; the thorough one waits for the last cut."""
    assert wash(surface=surface, paper=paper).outcome("enough") == taken


@pytest.mark.parametrize(
    ("family", "bath", "still_in", "taken"),
    [
        ("bittern", "caustic", "iron", "wash"),
        ("bittern", "caustic", "shells", "not_yet"),
        ("bittern", "caustic", "brass", "not_yet"),
        ("bittern", "mild", "shells", "wash"),
        ("avocet", "caustic", "iron", "never"),
        ("avocet", "mild", "aluminium", "wash"),
    ],
)
def test_caustic_never_meets_aluminium_shells_or_brass(family: str, bath: str, still_in: str, taken: str) -> None:
    assert wash(family, bath=bath, still_in=still_in).outcome("into_bath") == taken


@pytest.mark.parametrize(
    ("celsius", "taken"), [(-43.0, "not_this"), (37.9, "not_this"), (38.0, "wash"), (60.0, "wash")]
)
def test_no_fluid_is_brushed_on_that_burns_at_shop_warmth(celsius: float, taken: str) -> None:
    """Flash points: petrol about -43 degrees C, kerosene from 38 (fire-service tables, from memory, not checked)."""
    assert wash(bath="solvent", flash=celsius + 273.15).outcome("into_bath") == taken


# Cracks


def crack(family: str = "bittern", **other: Taken) -> Stand:
    return Stand(family, "cracks", WHOLE | other)


@pytest.mark.parametrize(
    ("family", "found", "taken"),
    [
        ("bittern", {}, "sound"),
        ("bittern", {"method": "yoke"}, "sound"),
        ("avocet", {"method": "yoke"}, "no_test"),
        ("bittern", {"find": "vital"}, "stop"),
        ("bittern", {"find": "outer"}, "repair"),
        ("bittern", {"jacket_drop": 6.0}, "repair"),
        ("bittern", {"find": "doubtful"}, "second"),
        ("bittern", {"method": "pressure"}, "second"),
    ],
)
def test_no_money_goes_into_a_block_that_is_not_proved_sound(family: str, found: dict[str, Taken], taken: str) -> None:
    assert crack(family, **found).outcome("crack") == taken


@pytest.mark.parametrize(
    ("stopped_by", "taken"), [("frozen", "all_over"), ("overheated", "all_over"), ("worn", "usual")]
)
def test_frost_and_heat_widen_the_search(stopped_by: str, taken: str) -> None:
    life: dict[str, Taken] = {"stopped_by": stopped_by, "oil_state": "clean", "service": "light"}
    assert Stand("bittern", "cracks", WHOLE, beside=Stand("bittern", "receive", life)).outcome("how_wide") == taken


# Threads


@pytest.mark.parametrize(
    ("found", "taken"),
    [
        ({}, "good"),
        ({"plug_thread": "between"}, "between"),
        ({"plug_hand": "deep"}, "insert"),
        ({"plug_flank": "pulled", "plug_thread": "other"}, "insert"),
        ({"plug_thread": "other"}, "other"),
        ({"plug_flank": "chipped"}, "chase"),
        ({"plug_flank": "cracked"}, "stop"),
    ],
)
def test_a_plug_hole_is_named_before_anything_is_screwed_in(found: dict[str, Taken], taken: str) -> None:
    assert Stand("plover", "threads", TRIED | found).outcome("plug_hole") == taken


@pytest.mark.parametrize(
    ("family", "turns", "taken"),
    [("bittern", 4.0, "insert"), ("bittern", 5.0, "good"), ("avocet", 7.0, "insert"), ("avocet", 8.0, "good")],
)
def test_aluminium_wants_more_thread_than_iron(family: str, turns: float, taken: str) -> None:
    assert Stand(family, "threads", TRIED | {"bolt_turns": turns}).outcome("bolt_hole") == taken


# The main line


def main_line(**other: Taken) -> Stand:
    return Stand("bittern", "measure-bores", TRUE_LINE | other)


@pytest.mark.parametrize(
    ("found", "taken"),
    [
        ({}, "leave"),
        ({"temp_gap": 2.1}, "wait"),
        ({"cap": {"1": "firm", "2": "firm", "3": "loose", "4": "firm", "5": "firm"}}, "line_bore"),
        ({"cap": {"1": "mixed", "2": "firm", "3": "firm", "4": "firm", "5": "firm"}}, "line_bore"),
        ({"house_look": "spun"}, "line_bore"),
        ({"house_look": "fretted"}, "leave"),
        ({"house": 66.23}, "line_hone"),
        ({"near_passes": 0.03, "near_stops": 0.04}, "line_hone"),
        ({"near_passes": 0.025, "near_stops": 0.03}, "finer"),
        ({"far_passes": 0.05, "far_stops": 0.06}, "finer"),
        ({"far_passes": 0.06, "far_stops": 0.07}, "line_hone"),
    ],
)
def test_the_main_line_is_the_datum_only_when_it_is_proved(found: dict[str, Taken], taken: str) -> None:
    """Blades under a bar: within where the one that stops is still within the limit, out where one that passes is over
    it, else it cannot be told (geometry). Limits of a Bittern: 0.025 mm between neighbours, 0.05 mm over all."""
    assert main_line(**found).outcome("main_line") == taken


def test_ten_degrees_are_a_hundredth_of_a_millimetre_on_a_bore() -> None:
    """Iron grows 11.4e-6 a kelvin (handbook value): 66.2 mm x 2 K x 11.4e-6 = 0.001509 mm; cast aluminium 21.5e-6."""
    assert main_line().whole("warm_error").one.number == pytest.approx(0.00150936, abs=1e-9)
    aluminium = Stand("avocet", "measure-bores", {})
    assert aluminium.whole("warm_error").one.number == pytest.approx(73.0 * 2 * 21.5e-6, abs=1e-9)


@pytest.mark.parametrize(("bore", "taken"), [(21.87, "bush"), (21.805, "clean"), (21.84, "keep")])
def test_a_tight_lifter_is_cleaned_and_never_honed_free(bore: float, taken: str) -> None:
    assert main_line(lifter_bore=bore, lifter_od=21.80).outcome("lifter") == taken


# Ring travel


@pytest.mark.parametrize(
    ("stroke", "rod", "height", "top", "bottom", "moved", "ridge", "parts"),
    [
        (84.2, 152.6, 38.75, 6.150, 108.650, 0.0, "returns", "fit"),
        (90.2, 152.6, 35.75, 6.150, 114.650, 0.0, "clear_low", "fit"),
        (84.2, 153.1, 38.75, 5.650, 108.150, -0.5, "meets", "crown"),
        (84.2, 152.6, 38.25, 6.650, 109.150, 0.5, "clear_low", "fit"),
        (87.2, 152.6, 38.75, 4.650, 110.150, -1.5, "meets", "crown"),  # the crown stands 0.95 mm out of the deck
    ],
)
def test_where_other_parts_take_the_rings(
    stroke: float, rod: float, height: float, top: float, bottom: float, moved: float, ridge: str, parts: str
) -> None:
    """Geometry, worked by hand: 234.0 - (stroke/2 + rod + height) + 5.6 is the highest the top ring's edge comes below
    the deck; that gap + stroke + 23.9 the lowest of the oil ring. The crown needs 0.30 mm in a Bittern."""
    stand = travel(SAME, new_stroke=stroke, new_rod=rod, new_height=height)
    value = {name: stand.whole(name).one.number for name in ("top_built", "bottom_built", "rise", "drop")}
    assert value["top_built"] == pytest.approx(top, abs=1e-9)
    assert value["bottom_built"] == pytest.approx(bottom, abs=1e-9)
    assert value["rise"] == pytest.approx(-moved, abs=1e-9)
    assert value["drop"] == pytest.approx(bottom - 108.650, abs=1e-9)
    assert stand.outcome("ridge_met") == ridge
    assert stand.outcome("parts_fit") == parts


@pytest.mark.parametrize("id", FAMILIES)
def test_the_original_gear_brings_the_rings_back_in_every_engine(id: str) -> None:
    for variant in workshop().families[id].variants:
        stand = travel(family=id)
        stand.bench.variant = variant
        assert stand.outcome("ridge_met") == "returns"
        assert stand.outcome("parts_fit") == "fit"


def test_a_ring_set_higher_meets_the_ridge_and_one_that_was_reamed_off_is_met_by_none() -> None:
    assert travel(SAME, crown_to_top=5.5).outcome("ridge_met") == "meets"
    assert travel(SAME, crown_to_top=5.5, ridge_seen="reamed").outcome("ridge_met") == "returns"


def test_a_cut_deck_never_makes_a_ring_meet_the_ridge_but_takes_room_from_the_crown() -> None:
    assert travel(deck_cut=0.20).outcome("ridge_met") == "returns"
    assert travel(deck_cut=0.25).outcome("parts_fit") == "fit"
    assert travel(deck_cut=0.26).outcome("parts_fit") == "crown"
    assert travel(deck_cut=0.20).whole("crown_gap").one.number == pytest.approx(0.35)


def test_parts_that_take_the_oil_ring_out_of_the_bore_are_refused() -> None:
    """A bore of 135 mm holds the oil ring down to 135: 0.55 + 110.6 + 23.9 = 135.05."""
    assert travel(SAME, new_stroke=110.6, new_height=25.55).outcome("parts_fit") == "leaves"
    assert travel(SAME, new_stroke=110.5, new_height=25.60).outcome("parts_fit") == "fit"
