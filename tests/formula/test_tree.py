"""Trees as JSON, and what no reading touches worked out beforehand."""

from __future__ import annotations

import json

import pytest
from folded import FoldedScope, from_json
from formulas import TREES, Bench, BenchScope, formula
from hypothesis import given

from procgen.formula import NONE, Cell, Spread, State, evaluate, formula_text, known, single, unknown, wanting
from procgen.formula.fold import fold, simplified
from procgen.formula.tree import to_json
from procgen.formula.types import Type, number
from procgen.model.formula import Expr
from procgen.units.dimension import LENGTH


@given(TREES)
def test_a_tree_comes_back_from_its_json(tree: Expr) -> None:
    written = json.loads(json.dumps(to_json(tree)))
    assert to_json(from_json(written)) == written
    assert formula_text(from_json(written)) == formula_text(tree)


def test_the_form() -> None:
    assert to_json(formula("max(bore[thrust]) - a > 3 or not w in (on, off)").tree) == [
        "or",
        [">", ["-", ["call", "max", [["pick", ["name", "bore"], "thrust"]]], ["name", "a"]], ["whole", 3]],
        ["not", ["is", ["name", "w"], ["on", "off"], False]],
    ]


TYPES = {
    "bore": number(LENGTH, "depth"), "depth": number(LENGTH, "depth"), "top": number(LENGTH), "limit": number(LENGTH),
    "stroke": number(LENGTH), "shells": Type("choice"), "look": Type("choice"), "zero": number(LENGTH),
}  # fmt: skip
DEPTHS = ("3", "12")
BENCH = Bench(
    TYPES,
    {
        "bore": Spread(("depth",), {(d,): wanting("bore") for d in DEPTHS}, LENGTH),
        "depth": Spread(("depth",), {(d,): known(float(d)) for d in DEPTHS}, LENGTH),
        "top": single(known(6.15), LENGTH),
        "limit": single(known(0.05), LENGTH),
        "zero": single(known(0.0), LENGTH),
        "stroke": single(unknown("stroke"), LENGTH),
        "shells": single(known("fitted")),
        "look": single(wanting("look")),
    },
    {"depth": DEPTHS},
)
SCOPE = BenchScope(BENCH)


def left(source: str) -> str | Cell:
    found = simplified(formula(source).tree, SCOPE)
    return found if isinstance(found, Cell) else formula_text(found)


@pytest.mark.parametrize(
    ("source", "gives"),
    [
        ("shells is fitted and look is torn", "look is torn"),
        ("shells is none and look is torn", known(False)),
        ("shells is fitted or look is torn", known(True)),
        ("shells is none or look is torn", "look is torn"),
        ("not (shells is none or look is torn)", "not look is torn"),
        ("look is torn and max(bore) > limit", "look is torn and max(bore) > limit"),
        ("top > limit", known(True)),
        ("max(bore) > limit if shells is fitted else look is torn", "max(bore) > limit"),
        ("look is torn if look is clean else shells is fitted", "look is torn if look is clean else shells is fitted"),
        ("stroke > limit and look is torn", "stroke > limit and look is torn"),
        ("stroke > limit and shells is none", known(False)),
        ("look is a and (shells is fitted and look is b)", "look is a and look is b"),
    ],
)
def test_simplified(source: str, gives: str | Cell) -> None:
    assert left(source) == gives


def test_fold() -> None:
    folded = fold(formula("max(only(bore, depth > top)) - (top + limit) / 2 <= limit").tree, SCOPE)
    assert formula_text(folded.tree) == "max(only(bore, #1)) - #2 <= #3"
    assert folded.settled["#1"] == Spread(("depth",), {("3",): known(False), ("12",): known(True)})
    assert folded.settled["#2"].one.number == pytest.approx(3.1)
    assert folded.settled["#3"].one.value == 0.05
    assert to_json(folded.tree, folded.steps)[-1] == 1e-6  # of a length, units.compare


def test_fold_drops_what_holds_anyway() -> None:
    assert formula_text(fold(formula("shells is fitted and look is torn").tree, SCOPE).tree) == "look is torn"
    assert formula_text(fold(formula("shells is none and look is torn").tree, SCOPE).tree) == "#1"


def test_what_the_family_lacks_folds_only_where_no_reading_can_settle_it() -> None:
    assert formula_text(fold(formula("stroke + limit > top").tree, SCOPE).tree) == "#1"
    folded = fold(formula("stroke > top or look is torn").tree, SCOPE)  # the reading may yet decide
    assert formula_text(folded.tree) == "#1 or look is torn"
    cell = folded.settled["#1"].one
    assert (cell.state, cell.because) == (State.UNKNOWN, frozenset({"stroke"}))


READINGS: list[dict[str, Cell]] = [
    {},
    {"bore": known(98.4), "look": known("torn")},
    {"bore": known(0.01), "look": known("clean")},
    {"bore": NONE, "look": known("clean")},
]


@pytest.mark.parametrize("read", READINGS)
@pytest.mark.parametrize(
    "source",
    [
        "max(only(bore, depth > top)) - (top + limit) / 2 <= limit",
        "look is torn and stroke > top or top < limit",
        "not (look is torn or shells is none) and count(bore > limit) >= 2",
        "1 / (max(bore) - top) if look is clean and shells is fitted else top / limit",
        "span(bore + depth) / zero",
        "bore[12] > top and look is not clean",
    ],
)
def test_a_folded_tree_comes_to_the_same(source: str, read: dict[str, Cell]) -> None:
    spreads = dict(BENCH.spreads)
    for name, cell in read.items():
        spreads[name] = Spread(spreads[name].axes, dict.fromkeys(spreads[name].cells, cell), spreads[name].dimension)
    there = BenchScope(Bench(TYPES, spreads, BENCH.axes))
    tree = formula(source).tree
    folded = fold(tree, SCOPE)
    assert evaluate(folded.tree, FoldedScope(there, folded.settled)) == evaluate(tree, there)
    again = from_json(json.loads(json.dumps(to_json(folded.tree, folded.steps))))
    found, direct = evaluate(again, FoldedScope(there, folded.settled)).one, evaluate(tree, there).one
    assert (found.state, found.value, found.because) == (direct.state, direct.value, direct.because)
