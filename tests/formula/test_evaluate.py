"""Numbers: against Python's own arithmetic, over axes, and with functions that a room above registers."""

from __future__ import annotations

import math
import operator
from collections.abc import Callable
from typing import Any

import pytest
from formulas import Bench, BenchScope, formula
from hypothesis import given
from hypothesis import strategies as st

from procgen.formula import NONE, Cell, Spread, State, evaluate, formula_text, known, reading, single, wanting
from procgen.formula.types import Type, number
from procgen.model.formula import Arithmetic, Expr, Function, Name, Negate, Parameter, Whole
from procgen.units.dimension import AREA, LENGTH, NUMBER

VALUES = {"a": 98.4, "b": 0.006, "c": -7.25, "d": 1e3}
SIMPLE = Bench({n: number(NUMBER) for n in VALUES}, {n: single(known(v)) for n, v in VALUES.items()})
PYTHON: dict[str, Callable[[float, float], float]] = {
    "+": operator.add, "-": operator.sub, "*": operator.mul, "/": operator.truediv,
}  # fmt: skip

_LEAVES = st.builds(Whole, st.integers(0, 12), st.just(0)) | st.builds(Name, st.sampled_from(list(VALUES)), st.just(0))
SUMS: st.SearchStrategy[Expr] = st.recursive(
    _LEAVES,
    lambda inner: (
        st.builds(Arithmetic, st.sampled_from("+-*/"), inner, inner, st.just(0)) | st.builds(Negate, inner, st.just(0))
    ),
    max_leaves=10,
)


def divides_by_little(tree: Expr) -> bool:
    if isinstance(tree, Arithmetic):
        little = tree.operator == "/" and (divides_by_little(tree.right) or abs(python(tree.right)) < 1e-9)
        return little or divides_by_little(tree.left) or divides_by_little(tree.right)
    return isinstance(tree, Negate) and divides_by_little(tree.of)


def python(tree: Expr) -> float:
    match tree:
        case Whole():
            return float(tree.value)
        case Name():
            return VALUES[tree.name]
        case Negate():
            return -python(tree.of)
        case Arithmetic():
            return PYTHON[tree.operator](python(tree.left), python(tree.right))
    raise AssertionError


@given(SUMS)
def test_arithmetic_is_pythons(tree: Expr) -> None:
    found = evaluate(tree, BenchScope(SIMPLE)).one
    if divides_by_little(tree):
        assert found.refused is not None
    else:
        assert found == known(python(tree))
        assert found.value == eval(formula_text(tree), {}, VALUES)


@given(st.lists(st.floats(-1e6, 1e6), min_size=1, max_size=8))
def test_aggregates_are_pythons(values: list[float]) -> None:
    axis = tuple(str(i) for i in range(len(values)))
    spread = Spread(("cylinder",), {(i,): known(v) for i, v in zip(axis, values, strict=True)})
    bench = Bench({"x": number(NUMBER, "cylinder")}, {"x": spread}, {"cylinder": axis})
    assert bench.cell("max(x)").value == max(values)
    assert bench.cell("min(x)").value == min(values)
    assert bench.cell("span(x)").value == max(values) - min(values)
    assert bench.cell("sum(x)").number == pytest.approx(math.fsum(values), abs=1e-8)
    assert bench.cell("mean(x)").number == pytest.approx(math.fsum(values) / len(values), abs=1e-8)
    assert bench.cell("count(x > 0)").value == sum(v >= 1e-9 for v in values)


BORES = {("A1", "3"): 98.412, ("A1", "12"): 98.498, ("A2", "3"): 98.414, ("A2", "12"): 98.583, ("A2", "40"): 98.520}
TABLE = Bench(
    {
        "bore": number(LENGTH, "cylinder", "depth"),
        "depth": number(LENGTH, "depth"),
        "nominal": number(LENGTH),
        "oversizes": Type("list", LENGTH),
        "shift": number(LENGTH, "cylinder"),
        "word": Type("choice", options=("x", "y"), axes=("cylinder",)),
    },
    {
        "bore": Spread(("cylinder", "depth"), {k: known(v) for k, v in BORES.items()}, LENGTH),
        "depth": Spread(("depth",), {(d,): known(float(d)) for d in ("3", "12", "40")}, LENGTH),
        "nominal": single(known(98.40), LENGTH),
        "oversizes": single(known((0.25, 0.50, 0.75, 1.00)), LENGTH),
        "shift": Spread(("cylinder",), {("A1",): known(1.0), ("A2",): known(2.0)}, LENGTH),
        "word": Spread(("cylinder",), {("A1",): known("x"), ("A2",): known("y")}),
    },
    {"cylinder": ("A1", "A2"), "depth": ("3", "12", "40")},
)


def test_one_bound_entry_and_all_of_them_at_once_agree() -> None:
    for source in ("max(only(bore, depth > 3))", "span(bore) + shift", "max(bore - shift)", "count(bore)"):
        whole = TABLE.spread(source, keep=("cylinder",))
        assert whole.axes == ("cylinder",)
        for cylinder in ("A1", "A2"):
            assert whole.cells[cylinder,] == TABLE.cell(source, {"cylinder": cylinder})


def test_axes() -> None:
    assert TABLE.cell("max(bore)").value == 98.583
    assert TABLE.cell("max(bore)", {"cylinder": "A1"}).value == 98.498
    assert TABLE.cell("max(only(bore, depth <= 3))").value == 98.414
    assert TABLE.cell("bore[40]", {"cylinder": "A2"}).value == 98.520
    assert TABLE.cell("bore[40]", {"cylinder": "A1"}) == NONE  # nothing was to be read there
    assert TABLE.cell("max(only(bore, depth > 12 * 12))") == NONE
    assert TABLE.cell("any(word is y)").value is True
    assert TABLE.cell("word[A2] is x").value is False
    assert TABLE.cell("shift[A2] - shift[A1]").value == 1.0


def test_what_is_not_there_yet_never_drops_out() -> None:
    """A cylinder without a station read: one waiting cell under "", which no depth has."""
    cells = {**TABLE.spreads["bore"].cells, ("A3", ""): wanting("bore")}
    bench = Bench(TABLE.types, {**TABLE.spreads, "bore": Spread(("cylinder", "depth"), cells, LENGTH)}, TABLE.axes)
    for source in ("max(only(bore, depth > 3))", "mean(bore)", "max(bore + depth)", "count(depth < bore)", "bore[12]"):
        assert bench.cell(source, {"cylinder": "A3"}) == wanting("bore")
        assert bench.cell(source, {"cylinder": "A1"}).state is State.KNOWN
        assert bench.spread(source, keep=("cylinder",)).cells["A3",] == wanting("bore")
    waiting = Spread(("depth",), {("",): wanting("depth")}, LENGTH)
    bench = Bench(TABLE.types, {**TABLE.spreads, "depth": waiting}, TABLE.axes)
    assert bench.cell("max(only(bore, depth > 3))") == wanting("depth")


def test_lists() -> None:
    assert TABLE.cell("max(oversizes)").value == 1.00
    assert TABLE.cell("nominal + min(oversizes)").number == pytest.approx(98.65)
    assert TABLE.cell("count(oversizes)").value == 4.0
    assert TABLE.cell("mean(oversizes)").value == 0.625


@pytest.mark.parametrize(
    ("need", "gives"), [(0.208, 0.25), (0.25, 0.25), (0.2500000001, 0.25), (0.251, 0.50), (1.0, 1.0), (-3.0, 0.25)]
)
def test_next_up(need: float, gives: float) -> None:
    bench = Bench(TABLE.types, {**TABLE.spreads, "nominal": single(known(need), LENGTH)})
    assert bench.cell("next_up(oversizes, nominal)").value == gives


def test_next_up_of_nothing_that_is_enough_does_not_apply() -> None:
    assert TABLE.cell("next_up(oversizes, nominal)") == NONE


def test_dimensions_choose_the_step_of_a_comparison() -> None:
    """A millionth of a square millimetre is nothing of an area, a billionth nothing of a number (units.compare)."""
    small = {"area": single(known(1e-7), AREA), "ratio": single(known(1e-7))}
    bench = Bench({"area": number(AREA), "ratio": number(NUMBER)}, small)
    assert bench.cell("area > 0").value is False
    assert bench.cell("ratio > 0").value is True
    assert bench.spread("sqrt(area)").dimension == LENGTH
    assert bench.spread("area / sqrt(area)").dimension == LENGTH


def registered(call: Callable[..., Any], *takes: bool, gives_list: bool = False) -> Bench:
    parameters = tuple(Parameter(f"p{i}", LENGTH, many) for i, many in enumerate(takes))
    function = Function("f", parameters, LENGTH, gives_list, call, "for this test only")
    return Bench(TABLE.types, TABLE.spreads, TABLE.axes, {"f": function})


def test_registered_functions() -> None:
    assert registered(lambda x, y: x * 2 + y, False, False).cell("max(f(bore, depth))").value == 98.520 * 2 + 40
    assert registered(lambda many, x: max(many) + x, True, False).cell("f(oversizes, nominal)").value == 99.4
    assert registered(lambda x: (x, x + 1), False, gives_list=True).cell("max(f(nominal))").value == 99.4


def refuse(x: float) -> float:
    raise ValueError("the bore must be larger")


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (refuse, "f(): the bore must be larger"),
        (lambda x: 1 / (x - x), "f(): float division by zero"),
        (lambda x: math.inf, "f(): the result is too large to hold"),
    ],
)
def test_what_a_registered_function_refuses_is_told_at_its_call(call: Callable[..., Any], message: str) -> None:
    found = registered(call, False).cell("nominal + f(nominal)")
    assert found.refused is not None
    assert (found.refused.message, found.refused.at) == (message, 10)


def test_a_registered_function_waits_for_its_arguments() -> None:
    bench = registered(refuse, False)
    bench = Bench(bench.types, {"nominal": single(wanting("nominal"), LENGTH)}, {}, bench.extra)
    assert bench.cell("f(nominal)") == Cell(State.WANTING, because=frozenset({"nominal"}))


def test_a_partial_of_a_registered_function_beside_its_border() -> None:
    """f(x) = 3x for x >= 1, refused below: the slope at 1 comes from the one side there is."""

    def bordered(x: float) -> float:
        if x < 1:
            raise ValueError("too small")
        return 3 * x

    bench = registered(bordered, False)
    bench = Bench(bench.types, {"nominal": single(reading(1.0, "r"), LENGTH)}, {}, bench.extra)
    assert bench.cell("f(nominal)").partials["r"] == pytest.approx(3.0, rel=1e-6)


def test_formulas_are_evaluated_where_they_are_bound() -> None:
    tree = formula("max(bore) - nominal").tree
    assert evaluate(tree, BenchScope(TABLE), {"cylinder": "A1"}).one.number == pytest.approx(0.098)
