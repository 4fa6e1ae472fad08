"""Conditions as people read them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import pytest
from formulas import Bench, BenchScope, formula
from hypothesis import given
from hypothesis import strategies as st

from procgen.formula import Spread, evaluate, known, single
from procgen.formula.normal import positive
from procgen.formula.types import Type, number
from procgen.formula.words import Figured, alternatives, lowered, plain_text
from procgen.model.formula import Among, Compare, Expr, Logic, Name, Not
from procgen.units.dimension import NUMBER

TITLES = {
    "thumbnail": "Thumbnail", "shadow": "Ring shadow", "ridge": "Ridge, on diameter", "need": "Finished size needed",
    "largest_offered": "Largest size on offer", "taper": "Taper", "bore": "Bore", "clearance": "Running clearance",
    "keep": "Keep this shell or replace it?", "whole_set": "One shell or all of them?",
    "plugs_missing": "Plugs missing",
    "in_travel": "In ring travel", "travel_top": "Top of ring travel", "depth": "Depth", "shell": "Shell face",
    "ridge_max": "Largest ridge", "core_metal": "Core plug", "geometry.bore": "Bore size", "npt": "NPT thread",
}  # fmt: skip
WORDS = {
    "passes": "slides over the ridge", "catches": "stops at the ridge", "even": "is even", "uneven": "is patchy",
    "iron": "grey iron",
    "slanting": "slants", "replace": "replace", "replace_clearance": "replace for clearance", "stay": "leave it",
    "copper": "shows copper", "torn": "is torn", "clean": "is clean", "steel": "is steel",
    "replace_all": "replace all 5", "thrust": "across the crank", "axial": "along the crank",
}  # fmt: skip
OPTIONS = {
    "thumbnail": ("passes", "catches"), "shadow": ("even", "uneven", "slanting"),
    "shell": ("clean", "copper", "torn"), "keep": ("replace", "replace_clearance", "stay"),
}  # fmt: skip


@dataclass
class Plain:
    """Wording by tables."""

    figures: Mapping[str, str]

    def title(self, name: str) -> str:
        return TITLES[name]

    def stands_apart(self, name: str) -> bool:
        return False

    def clause(self, name: str) -> str:
        return "the block is {}" if name == "block.material" else ""

    def choice_word(self, name: str, word: str) -> str:
        return WORDS[word]

    def options(self, name: str) -> tuple[str, ...]:
        return OPTIONS.get(name, ())

    def figure(self, name: str) -> str | None:
        return self.figures.get(name)

    def counts(self, name: str) -> bool:
        return name == "plugs_missing"

    def axes(self, name: str) -> tuple[str, ...]:
        axes = {"keep": ("cam_bearing",), "core_metal": ("core_plug",), "bore": ("cylinder", "depth")}
        return axes.get(name, ("cylinder",) if name in ("need", "taper", "thumbnail") else ())

    def each_word(self, axis: str) -> str:
        return axis.replace("_", " ")


WORDING = Plain({"ridge_max": "0.15 mm", "travel_top": "6.15 mm", "geometry.bore": "98.40 mm"})


def said(source: str, *each: str) -> list[list[str]]:
    return [[plain_text(clause) for clause in clauses] for clauses in alternatives(formula(source).tree, WORDING, each)]


@pytest.mark.parametrize(
    ("source", "words"),
    [
        ("thumbnail is passes", [["thumbnail slides over the ridge"]]),
        ("thumbnail is not passes", [["thumbnail stops at the ridge"]]),
        ("not thumbnail is passes", [["thumbnail stops at the ridge"]]),
        ("shadow is not even", [["ring shadow is patchy or slants"]]),
        ("shadow in (even, uneven, slanting)", [["ring shadow is even, is patchy or slants"]]),
        ("core_metal is not steel", [["core plug not is steel"]]),  # words not listed: no better way
        ("block.material is iron", [["the block is grey iron"]]),
        ("block.material is not iron", [["the block is not grey iron"]]),  # words not listed
        ("ridge <= ridge_max", [["ridge, on diameter ≤ 0.15 mm"]]),
        ("not ridge <= ridge_max", [["ridge, on diameter > 0.15 mm"]]),
        ("ridge_max >= ridge", [["ridge, on diameter ≤ 0.15 mm"]]),
        ("travel_top <= depth", [["depth ≥ 6.15 mm"]]),
        ("plugs_missing > 0", [["plugs missing: 1 or more"]]),
        ("plugs_missing <= 0", [["plugs missing: none"]]),
        ("ridge > 0", [["ridge, on diameter > 0"]]),
        ("need < largest_offered", [["finished size needed under “largest size on offer”"]]),
        ("need <= largest_offered", [["finished size needed at most “largest size on offer”"]]),
        ("need >= largest_offered", [["finished size needed at least “largest size on offer”"]]),
        ("need > geometry.bore + taper * 2", [["finished size needed over 98.40 mm + taper × 2"]]),
        ("need - (taper + ridge) < ridge_max", [["finished size needed − (taper + ridge, on diameter) < 0.15 mm"]]),
        ("in_travel", [["in ring travel"]]),
        ("not in_travel", [["not in ring travel"]]),
        ("whole_set is replace_all", [["one shell or all of them: replace all 5"]]),
        ("bore[thrust] > bore[axial]", [["bore across the crank over bore along the crank"]]),
        ("max(bore) - min(bore) > ridge_max", [["largest bore − smallest bore > 0.15 mm"]]),
        ("max(taper, ridge) <= ridge_max", [["largest of taper and ridge, on diameter ≤ 0.15 mm"]]),
        ("abs(bore[thrust] - bore[axial]) <= ridge_max",
         [["difference of bore across the crank and bore along the crank ≤ 0.15 mm"]]),
        ("max(only(bore, depth < travel_top)) > need",
         [["largest bore where depth < 6.15 mm over “finished size needed”"]]),
    ],
)  # fmt: skip
def test_one_clause(source: str, words: list[list[str]]) -> None:
    assert said(source) == words


@pytest.mark.parametrize(
    ("source", "words"),
    [
        ("any(keep in (replace, replace_clearance))", [["any cam bearing: replace or replace for clearance"]]),
        ("all(keep is stay)", [["every cam bearing: leave it"]]),
        ("not all(keep is stay)", [["any cam bearing: replace or replace for clearance"]]),
        ("not any(keep is stay)", [["every cam bearing: replace or replace for clearance"]]),
        ("any(core_metal is steel)", [["any core plug: core plug is steel"]]),
        ("any(taper > ridge_max or thumbnail is catches)",
         [["any cylinder: taper > 0.15 mm or thumbnail stops at the ridge"]]),
        ("count(keep is stay) >= 2", [["number of cam bearings with leave it ≥ 2"]]),
    ],
)  # fmt: skip
def test_over_many(source: str, words: list[list[str]]) -> None:
    assert said(source) == words


def test_an_entry_of_each_cylinder_runs_over_the_depths_alone() -> None:
    assert said("any(bore > need)", "cylinder") == [["any depth: bore over “finished size needed”"]]
    assert said("any(bore > ridge_max)") == [["any cylinder and depth: bore > 0.15 mm"]]


def test_alternatives_and_what_holds_together() -> None:
    assert said("shell in (copper, torn) or thumbnail is catches and ridge > ridge_max") == [
        ["shell face shows copper or is torn"],
        ["thumbnail stops at the ridge", "ridge, on diameter > 0.15 mm"],
    ]
    assert said("thumbnail is passes and (shell is clean or ridge <= ridge_max)") == [
        ["thumbnail slides over the ridge", "shell face is clean or ridge, on diameter ≤ 0.15 mm"]
    ]
    assert said("not (thumbnail is passes and ridge <= ridge_max)") == [
        ["thumbnail stops at the ridge"],
        ["ridge, on diameter > 0.15 mm"],
    ]
    assert said("thumbnail is passes and (shell is clean or ridge <= ridge_max and in_travel)") == [
        ["thumbnail slides over the ridge", "shell face is clean or (ridge, on diameter ≤ 0.15 mm and in ring travel)"]
    ]
    assert said("(thumbnail is passes and in_travel) and (shell is clean and not in_travel)") == [
        ["thumbnail slides over the ridge", "in ring travel", "shell face is clean", "not in ring travel"]
    ]


def test_two_closed_limits_of_one_thing_are_one_clause() -> None:
    between = [["depth 6.15 mm to 98.40 mm"]]
    assert said("depth >= travel_top and depth <= geometry.bore") == between
    assert said("travel_top <= depth and geometry.bore >= depth") == between
    assert said("depth <= geometry.bore and depth >= travel_top") == between
    assert said("shell is clean and depth >= travel_top and depth <= geometry.bore and in_travel") == [
        ["shell face is clean", "depth 6.15 mm to 98.40 mm", "in ring travel"]
    ]
    assert said("depth >= travel_top and depth <= geometry.bore and depth >= ridge_max") == [
        ["depth 6.15 mm to 98.40 mm", "depth ≥ 0.15 mm"]
    ]
    for apart in ("depth > travel_top and depth <= geometry.bore", "ridge >= travel_top and depth <= geometry.bore"):
        assert len(said(apart)[0]) == 2


def test_a_figure_keeps_its_name() -> None:
    ((clause,),) = alternatives(formula("ridge <= ridge_max").tree, WORDING)
    assert clause == ("ridge, on diameter ≤ ", Figured("0.15 mm", "ridge_max"))


def test_a_title_within_a_sentence() -> None:
    assert [lowered(t) for t in ("Ring shadow", "NPT thread", "V8 block", "A side", "O-ring")] == [
        "ring shadow", "NPT thread", "V8 block", "A side", "o-ring",
    ]  # fmt: skip


# Pushing `not` inward keeps the meaning.
_PARTS = st.sampled_from(["p", "q"]).map(lambda n: Name(n, 0)) | st.builds(
    lambda o, n, neg: Compare(o, Name("x", 0), Name("y", 0), 0) if n else Among(Name("w", 0), ("on",), (0,), neg, 0),
    st.sampled_from(["<", "<=", ">", ">="]), st.booleans(), st.booleans(),
)  # fmt: skip
CONDITIONS: st.SearchStrategy[Expr] = st.recursive(
    _PARTS,
    lambda inner: (
        st.builds(Not, inner, st.just(0))
        | st.builds(
            Logic, st.sampled_from(["and", "or"]), st.lists(inner, min_size=2, max_size=3).map(tuple), st.just(0)
        )
    ),
    max_leaves=8,
)


@given(CONDITIONS, st.booleans(), st.booleans(), st.sampled_from([1.0, 2.0, 3.0]), st.sampled_from(["on", "off"]))
def test_denials_keep_their_meaning(tree: Expr, p: bool, q: bool, x: float, w: str) -> None:
    values = {"p": p, "q": q, "x": x, "y": 2.0, "w": w}
    spreads: dict[str, Spread] = {name: single(known(value)) for name, value in values.items()}
    scope = BenchScope(Bench({"x": number(NUMBER), "w": Type("choice")}, spreads))
    assert evaluate(positive(tree), scope).one == evaluate(tree, scope).one
    assert evaluate(positive(tree, True), scope).one == evaluate(Not(tree, 0), scope).one
