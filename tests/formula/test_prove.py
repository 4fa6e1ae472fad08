"""Decisions worked out by hand: what the proof must say of each follows from reading the table."""

from __future__ import annotations

import time

import pytest
from proving import Facts, branch, cases, proof

from procgen.formula.prove import TOO_MANY, settled

LOOKS = {"look": ("even", "light", "torn")}
LIMITS = {"least": 0.03, "most": 0.13}


def test_a_complete_table_is_proved() -> None:
    found = proof(
        {"replace": "look is torn or play > most", "tight": "play < least", "keep": "look in (even, light)"},
        Facts(LIMITS, LOOKS),
    )
    assert found.status == "proved"
    assert found.taken == {"replace", "tight", "keep"}
    assert found.falls_to_otherwise is None


def test_exactly_on_the_limit_is_a_gap_between_less_and_more() -> None:
    found = proof({"small": "play < most", "large": "play > most"}, Facts(LIMITS))
    assert (found.status, dict(found.example)) == ("gap", {"play": 0.13})
    assert proof({"small": "play <= most", "large": "play > most"}, Facts(LIMITS)).status == "proved"
    assert proof({"small": "play < most", "large": "play >= most"}, Facts(LIMITS)).status == "proved"


def test_a_gap_is_told_with_plain_numbers_and_nothing_that_does_not_matter() -> None:
    facts = Facts({"ridge_most": 0.1524}, {"shadow": ("even", "uneven"), "marks": ("none", "some")})
    found = proof(
        {"bore": "shadow is uneven", "hone": "ridge <= ridge_most", "leave": "marks is some and ridge < 0"}, facts
    )
    assert found.status == "gap"
    assert found.example["shadow"] == "even"
    assert found.example["ridge"] == 0.16
    found = proof({"bore": "shadow is uneven", "hone": "ridge <= ridge_most"}, facts)
    assert dict(found.example) == {"shadow": "even", "ridge": 0.16}


def test_a_branch_behind_one_that_covers_it_is_never_taken() -> None:
    found = proof({"large": "play > least", "larger": "play > most", "rest": None}, Facts(LIMITS))
    assert found.taken == {"large", "rest"}
    assert found.status == "proved"
    assert found.falls_to_otherwise is not None
    assert found.falls_to_otherwise["play"] <= 0.03


def test_otherwise_that_nothing_reaches() -> None:
    found = proof({"large": "play > least", "small": "play <= least", "rest": None}, Facts(LIMITS))
    assert found.taken == {"large", "small"}
    assert found.falls_to_otherwise is None


def test_a_word_forgotten() -> None:
    found = proof({"replace": "look is torn", "keep": "look is even"}, Facts({}, LOOKS))
    assert (found.status, dict(found.example)) == ("gap", {"look": "light"})


def test_words_of_an_earlier_decision_that_it_cannot_reach_are_no_gap() -> None:
    branches: dict[str, str | None] = {"go": "survey is hone", "order": "survey is bore"}
    assert proof(branches, Facts({}, {"survey": ("hone", "bore")})).status == "proved"
    assert proof(branches, Facts({}, {"survey": ("hone", "bore", "sleeve")})).example == {"survey": "sleeve"}


def test_open_where_a_limit_is_not_yet_known() -> None:
    facts = Facts({"most": 0.13}, not_known=frozenset({"least"}))
    found = proof({"wide": "play > most", "tight": "play < least"}, facts)
    assert (found.status, found.waits_for) == ("open", ("least",))


def test_unknown_limits_that_cancel() -> None:
    facts = Facts(not_known=frozenset({"most", "margin"}), formulas={"need": "size + margin", "offered": "most"})
    found = proof({"bore": "need <= offered", "sleeve": "size > offered - margin"}, facts)
    assert found.status == "proved"
    assert found.taken == {"bore", "sleeve"}


def test_a_gap_whatever_the_unknown_is() -> None:
    found = proof({"wide": "play > most", "tight": "play < most"}, Facts(not_known=frozenset({"most"})))
    assert found.status == "gap"
    assert found.example["play"] == found.example["most"]


def test_open_on_a_choice_that_the_family_does_not_state() -> None:
    facts = Facts({}, {"kind": ("cup", "disc"), **LOOKS}, not_known=frozenset({"kind"}))
    found = proof({"press": "kind is cup", "slide": "look is even"}, facts)
    assert (found.status, found.waits_for) == ("open", ("kind",))
    found = proof({"press": "kind is cup and look is even", "slide": "look is even"}, facts)
    assert found.status == "gap"


def test_a_known_trait_folds() -> None:
    branches: dict[str, str | None] = {"clean": "behind is groove", "worn": "look is torn", "keep": None}
    facts = Facts({"behind": "groove"}, LOOKS)
    found = proof(branches, facts)
    assert (found.status, found.taken, settled(cases(branches), facts)) == ("proved", {"clean"}, "clean")
    facts = Facts({"behind": "nothing"}, LOOKS)
    assert proof(branches, facts).taken == {"worn", "keep"}
    assert settled(cases(branches), facts) is None
    assert settled(cases({"clean": "behind is groove", "keep": None}), facts) == "keep"


def test_any_and_all_over_an_earlier_decision() -> None:
    reach = ("replace", "tight", "keep")
    facts = Facts({}, {"each": reach}, many=frozenset({"each"}))
    whole = {"all_out": "any(each is replace)", "wait": "any(each is tight)", "stay": "all(each is keep)"}
    assert proof(whole, facts).status == "proved"
    assert proof(whole, facts).taken == set(whole)
    found = proof({"all_out": "any(each is replace)", "stay": "all(each is keep)"}, facts)
    assert (found.status, found.example) == ("gap", {"each": "tight"})
    found = proof({"all_out": "all(each is replace)", "stay": "all(each in (keep, tight))"}, facts)
    assert found.status == "gap"
    present = str(found.example["each"]).split(", ")
    assert "replace" in present
    assert len(present) == 2
    only_keep = Facts({}, {"each": ("tight", "keep")}, many=frozenset({"each"}))
    assert proof(whole, only_keep).taken == {"wait", "stay"}


def test_not_all_is_any_not() -> None:
    facts = Facts({}, LOOKS, many=frozenset({"look", "play", "x", "y"}))
    for some, every in (
        ("any(look is torn)", "all(look is not torn)"),
        ("any(look is torn or play > 3)", "all(look is not torn and play <= 3)"),
        ("any(look is torn and play > 3)", "all(look is not torn or play <= 3)"),
        ("any(x > y)", "all(y >= x)"),
        ("any(clock_error(x) > 3)", "all(clock_error(x) <= 3)"),
    ):
        assert proof({"a": some, "b": every}, facts).status == "proved", some
        assert proof({"a": some, "b": f"not {some}"}, facts).status == "proved", some
        assert proof({"a": every, "b": f"not ({every})"}, facts).status == "proved", some
    assert proof({"a": "any(x > y)", "b": "any(x <= y)"}, facts).status == "proved"  # there is at least one
    assert proof({"a": "all(x > y)", "b": "all(x <= y)"}, facts).status == "gap"


def test_any_of_many_over_a_limit_is_their_largest() -> None:
    facts = Facts(LIMITS, many=frozenset({"play"}))
    found = proof({"wide": "any(play > most)", "good": "max(play) <= most"}, facts)
    assert found.status == "proved"
    found = proof({"wide": "max(play) > most", "tight": "min(play) < least", "good": "all(play >= least)"}, facts)
    assert (found.status, found.taken) == ("proved", {"wide", "tight", "good"})
    assert proof({"a": "max(play) >= least", "b": "min(play) < least"}, facts).status == "proved"
    assert proof({"a": "mean(play) < min(play)", "rest": None}, facts).taken == {"rest"}
    assert proof({"a": "any(play > most)", "b": "any(play < least)"}, facts).status == "gap"


def test_what_is_stated_impossible_is_no_gap_and_takes_no_branch() -> None:
    facts = Facts({}, {"look": ("even", "torn"), "seat": ("tight", "moved")})
    branches: dict[str, str | None] = {"keep": "look is even and seat is tight", "out": "look is torn"}
    assert proof(branches, facts).example == {"look": "even", "seat": "moved"}
    found = proof(branches, facts, "seat is moved and look is even")
    assert (found.status, found.taken) == ("proved", {"keep", "out"})
    assert proof(branches, facts, "look is even").taken == {"out"}
    mean = {"a": "mean_size > top", "b": "size <= top"}
    assert proof(mean, Facts({"top": 2.0})).status == "gap"
    assert proof(mean, Facts({"top": 2.0}), "mean_size < size").status == "proved"


def test_two_values_that_share_readings() -> None:
    facts = Facts({"limit": 0.1, "wide": 0.3}, formulas={"wear": "largest - unworn", "need": "largest + limit"})
    found = proof({"bore": "wear > limit", "hone": "need <= unworn + wide"}, facts)
    assert (found.status, found.taken) == ("proved", {"bore", "hone"})  # wear <= 0.1 is need <= unworn + 0.2
    found = proof({"hone": "wear <= limit", "odd": "need < unworn + limit", "bore": None}, facts)
    assert found.taken == {"hone", "bore"}
    three = proof({"a": "x < y", "b": "y < z", "c": "z < x"}, Facts())
    assert three.status == "gap"
    assert three.example["x"] == three.example["y"] == three.example["z"]
    assert proof({"a": "x < y", "b": "y < z", "c": "z <= x"}, Facts()).status == "proved"


def test_bounds_count_as_said() -> None:
    facts = Facts(from_zero=frozenset({"x", "y"}))
    assert proof({"a": "x + y >= 0"}, facts).status == "proved"
    assert proof({"a": "x > 0", "b": "x - x <= 0"}, facts).status == "proved"
    found = proof({"a": "x > 0 or y > 0"}, facts)
    assert (found.status, found.example) == ("gap", {"x": 0.0, "y": 0.0})


def test_nothing_lies_between_two_counts() -> None:
    branches: dict[str, str | None] = {"none": "plugs < 1", "one": "plugs <= 1", "more": "plugs >= 2"}
    assert proof(branches, Facts(counted=frozenset({"plugs"}))).status == "proved"
    found = proof(branches, Facts())
    assert found.status == "gap"
    assert 1 < float(found.example["plugs"]) < 2
    assert proof({"a": "count(plug) <= 1", "b": "count(plug) > 2"}, Facts()).example == {"count(plug)": 2.0}


def test_abs_max_min_and_if_are_taken_apart() -> None:
    facts = Facts({"limit": 0.02}, formulas={"oval": "abs(a - b)", "least": "od - max(a, b)", "most": "od - min(a, b)"})
    assert proof({"a": "most - least > limit", "b": "oval <= limit"}, facts).status == "proved"
    assert proof({"a": "least > most", "rest": None}, facts).taken == {"rest"}
    assert proof({"a": "oval < 0", "rest": None}, facts).taken == {"rest"}
    both = Facts({"one": 1.0, "two": 2.0}, LOOKS, {"limit": "one if look is even else two"})
    found = proof({"over": "play > limit", "light": "play <= one", "mid": "look is not even"}, both)
    assert (found.status, found.taken) == ("proved", {"over", "light", "mid"})


def test_what_is_not_linear_misses_no_gap() -> None:
    found = proof({"a": "x * y > limit", "b": "x * y < limit"}, Facts({"limit": 2.0}))
    assert (found.status, found.example) == ("gap", {"x * y": 2.0})
    facts = Facts({"limit": 2.0}, formulas={"area": "x * y"})
    assert proof({"a": "area > limit", "b": "area < limit"}, facts).example == {"area": 2.0}


def test_open_where_a_function_of_the_unknown_decides() -> None:
    facts = Facts({"hole": 6.0}, not_known=frozenset({"shell"}), formulas={"turn": "clock_error(hole, shell)"})
    found = proof({"a": "off <= turn", "b": "off > turn + 1"}, facts)
    assert found.status == "gap"  # half way between, whatever `turn` is
    found = proof({"a": "off <= turn", "b": "off > hole"}, facts)
    assert (found.status, found.waits_for) == ("open", ("shell",))


def test_what_a_trait_excludes_is_never_met() -> None:
    facts = Facts(LIMITS, LOOKS, excluded=frozenset({"look"}))
    assert proof({"a": "look is torn", "b": "look is not torn", "c": None}, facts).taken == {"c"}
    assert proof({"a": "look is torn or play > most", "b": "play <= most"}, facts).status == "proved"
    assert proof({"a": "all(look is torn)", "b": "not any(look is torn)", "c": None}, facts).taken == {"c"}
    assert proof({"a": "max(look, play) > most", "b": "play <= most"}, facts).status == "proved"


def test_what_only_some_readings_bring_about() -> None:
    facts = Facts(LIMITS, {"seat": ("tight", "moved"), **LOOKS}, whens={"play": "seat is tight"})
    found = proof({"wide": "play > most", "good": "play <= most"}, facts)
    assert (found.status, found.example) == ("gap", {"seat": "moved"})
    assert proof({"wide": "play > most", "good": "play <= most", "out": "seat is moved"}, facts).status == "proved"


def test_no_oversize_is_large_enough() -> None:
    facts = Facts({"oversizes": (0.5, 1.0)}, formulas={"oversize": "next_up(oversizes, need)"})
    branches: dict[str, str | None] = {"thick": "wall - oversize >= 2", "thin": "wall - oversize < 2"}
    found = proof(branches, facts)
    assert found.status == "gap"
    assert float(found.example["need"]) > 1.0
    assert proof({"sleeve": "need > max(oversizes)", **branches}, facts).status == "proved"


def test_too_many_combinations_are_given_up_in_good_time() -> None:
    branches: dict[str, str | None] = {
        f"b{n}": f"x{n} > y{n + 1} and p{n} < q{n} and y{n} < x{n + 1}" for n in range(40)
    }
    began = time.process_time()
    found = proof({**branches, "z": "x0 > 1 and x0 < 0"}, Facts())
    assert time.process_time() - began < 10
    assert found.status == "gap" or found.waits_for == (TOO_MANY,)


def test_float_noise_in_what_is_known_is_no_gap() -> None:
    facts = Facts({"bore": 105.2, "over": 0.5, "largest": 105.2 + 0.5, "same": 0.1 + 0.2})
    assert proof({"bore": "need <= bore + over", "sleeve": "need > largest"}, facts).status == "proved"
    assert proof({"a": "x < 3 * (same / 9)", "b": "x >= same / 3"}, facts).status == "proved"


@pytest.mark.parametrize("words", [11, 14])
def test_many_outcomes_are_still_covered(words: int) -> None:
    reach = tuple(f"w{n}" for n in range(words))
    facts = Facts({}, {"each": reach}, many=frozenset({"each"}))
    assert proof({"a": "any(each is w0)", "b": "all(each is not w0)"}, facts).status == "proved"
    assert proof({"a": "any(each is w0)", "b": "any(each is w1)"}, facts).status == "gap"


def test_examples_fall_through_when_worked_out() -> None:
    branches: dict[str, str | None] = {"a": "x + y > 3 and look is torn", "b": "x - 2 * y < 1", "c": "y > 7"}
    found = proof(branches, Facts({}, LOOKS))
    assert found.status == "gap"
    assert branch(branches, {"look": "torn", "x": 0.0, "y": 0.0, **found.example}) is None
