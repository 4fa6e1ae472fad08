"""The survey, the deck and the decision: the cards decide as the trade does.

Source of every rule here, unless a test says otherwise: common practice, no source. They are put to the decisions as
readings, so that a card that merely mentions a rule does not pass.
"""

from __future__ import annotations

from math import pi

import pytest

from procgen.compose.bench import Bench
from tests.deck.measured import (
    FLAT,
    LONGER_ROD,
    ORIGINAL,
    SAME,
    WHOLE,
    decide,
    deck,
    one_bad,
    survey,
    travel,
    worn_evenly,
)
from tests.deck.stand import Bores, Stand, Taken, workshop

INCH = 25.4  # mm


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
    assert survey(worn_evenly(0.05)).outcome("hone_or_bore") == "hone"
    assert survey(worn_evenly(0.05), LONGER_ROD).outcome("hone_or_bore") == "bore"


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
    assert decide(stand).outcome("engine") == "stop"


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
    assert decide(stand).outcome("oversize_or_sleeve") == "oversize"


def test_a_bore_that_no_piston_on_offer_cleans_up_is_sleeved() -> None:
    stand = decide(survey(worn_evenly(0.95), thumbnail="catches"))  # 98.40 + 0.95 + 0.11 = 99.46, over 98.40 + 1.00
    assert stand.outcome("oversize_or_sleeve") == "sleeve"
    assert stand.outcome("engine") == "another"
    lopsided = survey(worn_evenly(0.50), wear_side=one_bad("both", "one"))  # 98.40 + 2 x 0.50 + 0.11 in one cylinder
    assert decide(lopsided).outcome("engine") == "sleeve"


def test_each_cylinder_is_judged_by_itself_but_one_bored_means_all_bored() -> None:
    nails = dict.fromkeys(("A1", "A2", "A3", "A4", "B1", "B2", "B3"), "passes") | {"B4": "catches"}
    stand = survey(WORKED, thumbnail=nails)
    assert (stand.outcome("hone_or_bore", "A1"), stand.outcome("hone_or_bore", "B4")) == ("hone", "bore")
    assert decide(stand).outcome("engine") == "bore_all"
    assert decide(stand).whole("finished_all").one.number == pytest.approx(98.65)


@pytest.mark.parametrize(("pistons", "taken"), [("none", "order"), ("ordered", "wait"), ("here", "measure")])
def test_nothing_is_bored_before_the_pistons_are_in_the_shop(pistons: str, taken: str) -> None:
    stand = decide(survey(WORKED, thumbnail="catches"), pistons=pistons, new_piston=98.60)
    assert stand.outcome("pistons_first") == taken


@pytest.mark.parametrize(("rings", "parts", "taken"), [
    ("old", ORIGINAL, "leave"), ("new", ORIGINAL, "hone"), ("old", SAME | {"new_height": 38.25}, "hone")
])  # fmt: skip
def test_a_bore_is_left_only_to_its_own_rings_in_their_own_place(
    rings: str, parts: dict[str, Taken], taken: str
) -> None:
    assert survey(worn_evenly(0.015), parts, hatch="whole", ring_plan=rings).outcome("hone_or_bore") == taken


def test_a_ridge_stays_when_the_bore_is_only_honed_and_its_rings_return() -> None:
    stand = survey(worn_evenly(0.05))
    assert stand.outcome("hone_or_bore") == "hone"
    assert travel().outcome("ridge_met") == "returns"
    said = {branch.id: branch.then.value for branch in stand.procedure.decisions["hone_or_bore"].branches}
    assert "leave the ridge unreamed" in said["hone"]


# The deck


@pytest.mark.parametrize(
    ("passes", "stops", "taken"),
    [(0.04, 0.05, "leave"), (0.05, 0.06, "finer"), (0.06, 0.07, "cut"), (0.0, 0.05, "leave")],
)
def test_blades_under_a_straightedge(passes: float, stops: float, taken: str) -> None:
    """The gap lies between the blade that passes and the one that does not; the limit is 0.05 mm in 150 (geometry)."""
    assert deck(near_passes=passes, near_stops=stops).outcome("deck") == taken


def test_a_long_slope_passes_near_and_fails_as_a_whole() -> None:
    assert deck(whole_passes=0.11, whole_stops=0.12).outcome("deck") == "cut"


LOW: Taken = {"front_left": 0.0, "front_right": 0.0, "rear_right": 0.0, "rear_left": 0.06}


@pytest.mark.parametrize(("reading", "seen"), [("mark", "etched"), ("mark", "blown"), ("corner", LOW)])
def test_a_deck_that_is_eaten_or_slopes_wants_a_cut(reading: str, seen: Taken) -> None:
    assert deck(**{reading: seen}).outcome("deck") == "cut"


def test_twist_by_corner_heights() -> None:
    """|0 - 0.05 + 0.02 - 0.09| / 2 = 0.06: the flattest plane through a face that is only twisted (geometry)."""
    heights: Taken = {"front_left": 0.0, "front_right": 0.05, "rear_right": 0.02, "rear_left": 0.09}
    stand = deck(corner=heights)
    assert stand.whole("twist").one.number == pytest.approx(0.06, abs=1e-9)
    assert stand.whole("spread").one.number == pytest.approx(0.09, abs=1e-9)


@pytest.mark.parametrize(
    ("stops", "gone", "taken"),
    [(0.12, 0.0, "cut"), (0.12, 0.13, "cut"), (0.12, 0.14, "too_much"), (0.25, 0.0, "cut"), (0.26, 0.0, "too_much")],
)
def test_what_was_cut_before_is_gone_for_this_rebuild(stops: float, gone: float, taken: str) -> None:
    """A Bittern may lose 0.25 mm in its life. Its crown keeps 0.55 - 0.25 = 0.30, which is just enough."""
    assert deck(whole_passes=0.11, whole_stops=stops, gone=gone).outcome("deck_cut") == taken


def test_a_deck_is_not_cut_down_to_the_crown() -> None:
    stand = Stand(
        "bittern", "deck-face", FLAT | {"whole_passes": 0.15, "whole_stops": 0.2}, beside=travel(deck_cut=0.1)
    )
    assert stand.outcome("deck_cut") == "too_near"


# The whole engine


def test_one_oversize_for_all() -> None:
    """Seven cylinders clean up at +0.25; one worn on one wall wants +0.50, so all get it."""
    stand = survey(WORKED, thumbnail="catches", wear_side=one_bad("both", "one"))
    assert stand.value("oversize", "A1") == pytest.approx(0.25)
    assert stand.value("oversize", "B4") == pytest.approx(0.50)
    assert decide(stand).whole("finished_all").one.number == pytest.approx(98.90)


@pytest.mark.parametrize(("found", "taken"), [("passes", "hone_all"), ("catches", "bore_all")])
def test_an_engine_is_bored_only_when_some_cylinder_must_be(found: str, taken: str) -> None:
    assert decide(survey(WORKED, thumbnail=found)).outcome("engine") == taken


def test_a_ridge_in_doubt_is_settled_by_a_person_first() -> None:
    assert decide(survey(worn_evenly(0.14))).outcome("engine") == "ask"


@pytest.mark.parametrize(("piston", "taken"), [(98.42, "fits"), (98.40, "rocks")])
def test_honing_adds_the_wear_to_the_old_pistons_clearance(piston: float, taken: str) -> None:
    """Worn 0.03 over 98.40 and cleaned up by 0.03 more: 98.46 is 0.04 over one piston and 0.06 over the other."""
    assert decide(survey(worn_evenly(0.03)), old_piston=piston).outcome("old_fits") == taken


@pytest.mark.parametrize(
    ("walls", "taken"),
    [({"map": "missing"}, "enough"), ({"wall_least": 3.6}, "thin"), ({"wall_least": 3.7}, "enough")],
)
def test_a_wall_too_thin_is_sleeved_and_not_bored(walls: dict[str, Taken], taken: str) -> None:
    """Bored from 98.408 to 98.65, a wall loses 0.121 mm; a Bittern wants 3.5 mm."""
    assert decide(survey(WORKED, thumbnail="catches"), WHOLE | walls).outcome("walls") == taken


def test_a_large_oversize_waits_for_the_wall_map() -> None:
    stand = survey(worn_evenly(0.80), thumbnail="catches")  # 98.40 + 0.80 + 0.11: only +1.00 reaches it
    assert decide(stand, WHOLE | {"map": "missing"}).outcome("walls") == "map_first"


def test_pistons_that_do_not_match_go_back() -> None:
    sizes: Taken = dict.fromkeys(("A1", "A2", "A3", "A4", "B1", "B2", "B3"), 98.60) | {"B4": 98.62}
    stand = decide(survey(WORKED, thumbnail="catches"), pistons="here", new_piston=sizes)
    assert stand.outcome("pistons_first") == "uneven"


def test_the_bar_is_set_from_the_largest_piston_in_hand() -> None:
    """98.604 + 0.030 (a Bittern's least clearance) = 98.634, less 0.08 for the hone: 98.554."""
    sizes: Taken = dict.fromkeys(("A1", "A2", "A3", "A4", "B1", "B2", "B3"), 98.60) | {"B4": 98.604}
    stand = decide(survey(WORKED, thumbnail="catches"), pistons="here", new_piston=sizes)
    assert stand.whole("finish").one.number == pytest.approx(98.634, abs=1e-9)
    assert stand.whole("bore_to").one.number == pytest.approx(98.554, abs=1e-9)


@pytest.mark.parametrize(("cut", "before"), [(0.06, 0.0), (0.2, 0.0), (0.2, 0.15)])
def test_what_a_cut_deck_does_to_compression(cut: float, before: float) -> None:
    """From the meaning of the word, all volumes in cm³: a Bittern 5.1 made with 8.5 to 1."""
    area = pi / 4 * 9.840**2
    swept = area * 8.420
    left = swept / 7.5 - area * (cut + before) / 10
    stand = deck(whole_stops=cut, gone=before)
    assert stand.whole("squeezed").one.number == pytest.approx((swept + left) / left, rel=1e-9)
    assert stand.whole("squeezed").one.number > 8.5


@pytest.mark.parametrize("family", ["avocet", "bittern", "dunlin", "plover"])
def test_engines_that_are_called_by_their_litres_have_them(family: str) -> None:
    for variant in workshop().families[family].variants:
        bench = Bench(workshop(), workshop().families[family], variant)
        assert f"{bench.card('receive').whole('displacement').one.number / 1e6:.1f} litre" == variant.name
