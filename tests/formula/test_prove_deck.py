"""Decisions of an engine deck. What is expected of each was worked out by reading its table, without the prover."""

from __future__ import annotations

import time
from collections.abc import Mapping
from dataclasses import replace

import pytest
from proving import Facts, branch, cases, filled, proof, tree

from procgen.formula.prove import prove, settled

Table = Mapping[str, str | None]

SHELL_FACES = ("clean", "light_scratches", "copper", "torn")
KEEP_OR_REPLACE: Table = {
    "replace_to_clean": "cam.behind_shells is groove",
    "replace": "shell_face in (copper, torn) or shell_seat is moved",
    "replace_clearance": "clearance > limits.clearance_service_max",
    "tight": "clearance < cam.clearance_min",
    "keep": "shell_face in (clean, light_scratches)",
}
WHOLE_SET: Table = {
    "replace_all": "any(keep_or_replace in (replace_to_clean, replace, replace_clearance))",
    "wait": "any(keep_or_replace is tight)",
    "stay": "all(keep_or_replace is keep)",
}
CAM = Facts(
    {"cam.clearance_min": 0.03, "limits.clearance_service_max": 0.13, "cam.behind_shells": "nothing"},
    {"shell_face": SHELL_FACES, "shell_seat": ("tight", "moved"), "bore_face": ("smooth", "scored"),
     "keep_or_replace": tuple(KEEP_OR_REPLACE)},
    {"clearance": "cam_bore - cam_journal"},
    many=frozenset({"keep_or_replace"}), from_zero=frozenset({"cam_bore", "cam_journal"}),
)  # fmt: skip

HONE_OR_BORE: Table = {
    "hone": "thumbnail is passes and shadow is even and ridge <= ridge_hone_max and running_gear is original"
    " and out_of_round <= limits.out_of_round_max and taper <= limits.taper_max",
    "bore": "need <= largest_offered",
    "sleeve": "need > largest_offered",
}
ENGINE: Table = {
    "sleeve": "any(hone_or_bore is sleeve)",
    "bore_all": "any(hone_or_bore is bore)",
    "hone_all": "all(hone_or_bore is hone)",
}
CYLINDER = Facts(
    {"ridge_hone_max": 0.1524, "limits.out_of_round_max": 0.05, "limits.taper_max": 0.08, "limits.margin": 0.03,
     "limits.hone_stock": 0.08, "geometry.bore": 104.2, "oversizes": (0.5, 0.75, 1.0, 1.5)},
    {"thumbnail": ("passes", "catches"), "shadow": ("even", "uneven"), "running_gear": ("original", "changed"),
     "hone_or_bore": ("hone", "bore", "sleeve")},
    {"largest": "max(only(bore, in_travel))", "need": "largest + limits.margin + limits.hone_stock",
     "largest_offered": "geometry.bore + max(oversizes)",
     "ridge": "max(only(bore[thrust], in_travel)) - mean(only(bore[thrust], above_travel))",
     "out_of_round": "max(only(abs(bore[thrust] - bore[axial]), in_travel))",
     "taper": "max(span(only(bore[thrust], in_travel)), span(only(bore[axial], in_travel)))",
     "in_travel": "top <= depth and depth <= bottom", "above_travel": "depth < top"},
    many=frozenset({"hone_or_bore"}), from_zero=frozenset({"bore"}),
)  # fmt: skip

CORE_HOLE: Table = {
    "crack": "cp_hole is cracked",
    "machine": "cp_hole is pitted_seat or hole_oor > shop.core_oor_max",
    "loose": "cp_kind is cup and fit_least < shop.core_fit_min",
    "tight": "cp_kind is cup and fit_most > shop.core_fit_max",
    "disc": "cp_kind is disc and (fit_most > 0 or fit_least < -shop.disc_loose_max)",
    "weeps": "hole_oor > shop.core_oor_seal",
    "press": None,
}
CORE = Facts(
    {"shop.core_oor_max": 0.1, "shop.core_oor_seal": 0.05, "shop.core_fit_min": 0.05, "shop.core_fit_max": 0.3,
     "shop.disc_loose_max": 0.1},
    {"cp_hole": ("clean", "pitted_seat", "cracked"), "cp_kind": ("cup", "disc")},
    {"hole_oor": "abs(hole_a - hole_b)", "fit_least": "plug_od - max(hole_a, hole_b)",
     "fit_most": "plug_od - min(hole_a, hole_b)"},
    from_zero=frozenset({"hole_a", "hole_b", "plug_od"}),
)  # fmt: skip

MAIN_LINE: Table = {
    "wait": "temp_gap > shop.temp_spread",
    "line_bore": "cap_mark is mixed or cap_fit is loose or house_look in (spun, blue)",
    "line_hone": "line_adjacent > fam.line_adjacent_max or line_overall > fam.line_overall_max",
    "cut_caps": "house_max > fam.house_high or house_min < fam.house_low",
    "dress": "house_look is fretted",
    "leave": None,
}
LINE = Facts(
    {"shop.temp_spread": 2.0, "fam.line_adjacent_max": 0.02, "fam.line_overall_max": 0.05},
    {"cap_mark": ("matched", "mixed"), "cap_fit": ("snug", "loose"), "house_look": ("even", "fretted", "spun", "blue")},
    {"house_max": "max(house)", "house_min": "min(house)", "temp_gap": "span(temperature)"},
    not_known=frozenset({"fam.house_high", "fam.house_low"}), many=frozenset({"house", "temperature"}),
)  # fmt: skip

SURVEY: Table = {
    "cracked": "damage is cracked",
    "ridge": "thumbnail is stops or ridge > shop.ridge_max",
    "shape": "oor > fam.oor_max or taper > fam.taper_max",
    "scored": "damage in (scored, pitted)",
    "shadow": "shadow in (patchy, slanting)",
    "meets": "travel_verdict is meets",
    "rocks": "clr_after > fam.piston_clr_max",
    "person": "ridge > shop.ridge_clear",
    "leave": "hatch is whole and travel_verdict is returns and wear <= shop.refresh_wear and rings_plan is used_back",
    "hone": None,
}
SURVEYED = Facts(
    {"shop.ridge_max": 0.15, "shop.ridge_clear": 0.05, "fam.oor_max": 0.05, "fam.taper_max": 0.08,
     "shop.refresh_wear": 0.03, "fam.piston_clr_max": 0.1},
    {"damage": ("none", "scored", "pitted", "cracked"), "thumbnail": ("passes", "stops"), "hatch": ("whole", "gone"),
     "shadow": ("even", "patchy", "slanting"), "travel_verdict": ("returns", "clear_low", "meets"),
     "rings_plan": ("new", "used_back")},
    {"wear": "largest - unworn", "clr_after": "largest + stock - piston"},
)  # fmt: skip

USED_RING: Table = {
    "bored": "bore_was is bored or same_place is not_same",
    "ruined": "ring_look in (feathered, scuffed, broken) or back <= 0",
    "wrong": "gap < gap_min",
    "worn": "gap > gap_max_used or side < fam.side_min or side > fam.side_max",
    "cast": "ring_cast is missing",
    "tension": "free_gap < free_min",
    "dark": "light_ok is fails",
    "light": "light_ok is not_yet",
    "back": None,
}
RING = Facts(
    {"fam.side_min": 0.03, "fam.side_max": 0.12, "gap_min": 0.35, "gap_max_used": 0.8, "free_min": 9.0},
    {"bore_was": ("bored", "honed"), "same_place": ("same", "not_same"), "ring_cast": ("there", "missing"),
     "ring_look": ("bright", "feathered", "scuffed", "broken"), "light_ok": ("passes", "fails", "not_yet")},
)  # fmt: skip

SHELL: Table = {
    "grinder": "ground is out_of_round",
    "wrong": "sh_groove is plain",
    "new_pair": "sh_look in (copper, grooved, flaked) or ground is ground or sh_place is lost",
    "fretted": "sh_look is back_fretted",
    "worn": "sh_clr > fam.clr_service",
    "tight": "sh_clr < fam.clr_min or turn is tight",
    "rods": "sh_use is rod and (sh_look is light or sh_clr > fam.clr_max)",
    "mains": "sh_clr > fam.clr_max",
    "stays": None,
}
SHELLS = Facts(
    {"fam.clr_service": 0.1, "fam.clr_max": 0.07, "fam.clr_min": 0.03},
    {"ground": ("as_was", "ground", "out_of_round"), "sh_groove": ("as_data", "plain"), "sh_place": ("known", "lost"),
     "sh_look": ("even", "light", "copper", "grooved", "flaked", "back_fretted"), "turn": ("free", "tight"),
     "sh_use": ("main", "rod")},
)  # fmt: skip

DECK = [(KEEP_OR_REPLACE, CAM), (WHOLE_SET, CAM), (HONE_OR_BORE, CYLINDER), (ENGINE, CYLINDER), (CORE_HOLE, CORE),
        (MAIN_LINE, LINE), (SURVEY, SURVEYED), (USED_RING, RING), (SHELL, SHELLS)]  # fmt: skip


@pytest.mark.parametrize(("table", "facts"), DECK)
def test_no_reading_falls_through(table: Table, facts: Facts) -> None:
    found = proof(table, facts)
    assert (found.status, found.waits_for) == ("proved", ())
    assert found.taken == set(table) - ({"replace_to_clean"} if table is KEEP_OR_REPLACE else set())


@pytest.mark.parametrize(
    ("table", "facts"), [(t, f) for t, f in DECK if list(t.values())[-1] is None and f is not LINE]
)
def test_what_falls_into_otherwise_is_told(table: Table, facts: Facts) -> None:
    found = proof(table, facts)
    assert found.falls_to_otherwise is not None
    at = dict.fromkeys(("hole_a", "hole_b", "plug_od"), 0.0) | dict(found.falls_to_otherwise)
    asked = [choice for choice in facts.choices if choice not in at]
    assert (
        branch(table, {**{choice: facts.choices[choice][0] for choice in asked}, **_worked(facts, at)})
        == list(table)[-1]
    )


def _worked(facts: Facts, at: dict[str, float | str]) -> dict[str, float | str]:
    return dict(at) | dict(facts.known) if facts is not CORE else filled(facts, at)  # type: ignore[arg-type]


@pytest.mark.parametrize(("table", "facts"), DECK)
def test_each_branch_left_out_that_the_rest_needs_leaves_a_gap(table: Table, facts: Facts) -> None:
    """The last branch is the only home of what reaches it: without it the table has a gap, or waits for a limit."""
    last = list(table)[-1]
    found = proof({name: when for name, when in table.items() if name != last}, facts)
    assert found.status == ("open" if facts is LINE else "gap")
    if facts is LINE:
        assert found.waits_for == ("fam.house_high", "fam.house_low")


def test_a_groove_behind_the_shells_settles_it() -> None:
    groove = replace(CAM, known={**CAM.known, "cam.behind_shells": "groove"})
    assert proof(KEEP_OR_REPLACE, groove).taken == {"replace_to_clean"}
    assert settled(cases(KEEP_OR_REPLACE), groove) == "replace_to_clean"
    assert settled(cases(KEEP_OR_REPLACE), CAM) is None
    later = replace(groove, choices={**CAM.choices, "keep_or_replace": ("replace_to_clean",)})
    assert proof(WHOLE_SET, later).taken == {"replace_all"}
    assert settled(cases(WHOLE_SET), later) == "replace_all"


def test_a_clearance_just_too_small_has_no_branch() -> None:
    table = {name: when for name, when in KEEP_OR_REPLACE.items() if name != "tight"}
    table["keep"] = "shell_face in (clean, light_scratches) and clearance >= cam.clearance_min"
    found = proof(table, CAM)
    assert found.status == "gap"
    assert 0 <= float(found.example["clearance"]) < 0.03
    assert found.example["shell_face"] in ("clean", "light_scratches")


def test_a_survey_without_its_largest_size_is_open() -> None:
    little = {name: v for name, v in CYLINDER.known.items() if name not in ("oversizes", "limits.margin")}
    unknown = replace(CYLINDER, known=little, not_known=frozenset({"oversizes", "limits.margin"}))
    assert proof(HONE_OR_BORE, unknown).status == "proved"  # need is one side of it or the other, whatever they are
    without = {name: when for name, when in HONE_OR_BORE.items() if name != "sleeve"}
    found = proof(without, unknown)
    assert found.status == "open" or float(found.example["need"]) > float(found.example["largest_offered"])


def test_a_cup_that_fits_cannot_be_both_loose_and_tight() -> None:
    """The largest fit is the smallest and the ovality together: with a round hole both limits cannot be broken."""
    both = "cp_kind is cup and fit_least < shop.core_fit_min and fit_most > shop.core_fit_max"
    assert proof({"both": f"hole_oor <= shop.core_oor_max and {both}", "rest": None}, CORE).taken == {"rest"}
    assert proof({"both": both, "rest": None}, CORE).taken == {"both", "rest"}  # an oval hole breaks both


def test_a_deck_is_proved_in_a_moment() -> None:
    """45 decisions in ten variants, all limits of each different, so that no proof is another's."""
    asked = [(cases(table), [tree(text) for text in facts.formulas.values()]) for table, facts in DECK]
    began = time.process_time()
    for nth in range(50):
        for (branches, _), (_, facts) in zip(asked, DECK, strict=True):
            known = {name: value * (1 + nth / 1000) if isinstance(value, float) else value
                     for name, value in facts.known.items()}  # fmt: skip
            assert prove(branches, replace(facts, known=known)).status == "proved"
    assert time.process_time() - began < 3  # 450 proofs; about a second on one core of a small machine
