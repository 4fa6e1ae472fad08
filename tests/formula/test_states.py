"""Known, not yet known, wanting and does not apply, through every operation. The tables are Kleene's strong logic with
the rule that of two things waited for, what the family lacks is told before what a person still has to read."""

from __future__ import annotations

import itertools

import pytest
from formulas import Bench, BenchScope, formula

from procgen.formula import NONE, Cell, Spread, State, evaluate, known, reading, single, unknown, wanting
from procgen.formula.operations import compare
from procgen.formula.types import Type, number
from procgen.units.dimension import LENGTH

T, F = known(True), known(False)
U, W = unknown("u"), wanting("w")
CELLS = {"T": T, "F": F, "U": U, "W": W, "N": NONE}
BOTH = Cell(State.UNKNOWN, because=frozenset({"u", "w"}))


def bench(**cells: Cell) -> Bench:
    return Bench(
        {name: Type("truth") if isinstance(cell.value, bool) else number(LENGTH) for name, cell in cells.items()},
        {name: single(cell, LENGTH) for name, cell in cells.items()},
    )


AND = """
    T F U W N
  T T F U W N
  F F F F F F
  U U F U B U
  W W F B W W
  N N F U W N
"""
OR = """
    T F U W N
  T T T T T T
  F T F U W N
  U T U U B U
  W T W B W W
  N T N U W N
"""
ARITHMETIC = """
    K U W N
  K K U W N
  U U U B N
  W W B W N
  N N N N N
"""


def table(written: str) -> list[tuple[str, str, str]]:
    head, *rows = (line.split() for line in written.strip().splitlines())
    return [(row[0], right, cell) for row in rows for right, cell in zip(head, row[1:], strict=True)]


@pytest.mark.parametrize(
    ("operator", "left", "right", "gives"), [("and", *r) for r in table(AND)] + [("or", *r) for r in table(OR)]
)
def test_and_or(operator: str, left: str, right: str, gives: str) -> None:
    scope = bench(a=CELLS[left], b=CELLS[right])
    assert scope.cell(f"a {operator} b") == {**CELLS, "B": BOTH}[gives]


def test_de_morgan_holds_in_every_state() -> None:
    for a, b in itertools.product(CELLS.values(), repeat=2):
        scope = bench(a=a, b=b)
        assert scope.cell("not (a and b)") == scope.cell("not a or not b")
        assert scope.cell("not (a or b)") == scope.cell("not a and not b")


@pytest.mark.parametrize(("left", "right", "gives"), table(ARITHMETIC))
@pytest.mark.parametrize("source", ["a + b", "a - b", "a * b", "a / b", "a < b", "a >= b"])
def test_arithmetic_and_comparison(source: str, left: str, right: str, gives: str) -> None:
    cells = {**CELLS, "K": known(2.0), "B": BOTH}
    found = bench(a=cells[left], b=cells[right]).cell(source)
    assert found.state is (State.KNOWN if gives == "K" else cells[gives].state)
    assert found.because == cells[gives].because


def test_one_sided_operations_keep_the_state() -> None:
    for name in "UWN":
        for source in ("-a", "abs(a)", "sqrt(a)", "not a", "a is worn", "a is not worn"):
            assert bench(a=CELLS[name]).cell(source) == CELLS[name]


def over(*cells: Cell) -> Bench:
    axis = tuple(str(i) for i in range(len(cells)))
    spread = Spread(("cylinder",), {(i,): c for i, c in zip(axis, cells, strict=True)}, LENGTH)
    return Bench({"x": number(LENGTH, "cylinder")}, {"x": spread}, {"cylinder": axis})


@pytest.mark.parametrize(
    ("cells", "largest", "mean", "count"),
    [
        ((known(1.0), known(4.0)), known(4.0), known(2.5), known(2.0)),
        ((known(1.0), NONE, known(4.0)), known(4.0), known(2.5), known(2.0)),
        ((known(1.0), W), W, W, W),
        ((known(1.0), W, U), BOTH, BOTH, BOTH),
        ((NONE, W), W, W, W),
        ((NONE, NONE), NONE, NONE, known(0.0)),
        ((), NONE, NONE, known(0.0)),
    ],
)
def test_aggregates(cells: tuple[Cell, ...], largest: Cell, mean: Cell, count: Cell) -> None:
    bench = over(*cells)
    assert bench.cell("max(x)") == largest
    assert bench.cell("mean(x)") == mean
    assert bench.cell("count(x)") == count


@pytest.mark.parametrize(
    ("cells", "some", "every"),
    [
        ((T, F), T, F), ((T, T), T, T), ((F, F), F, F),
        ((T, W), T, W), ((F, W), W, F), ((T, F, W, U), T, F), ((F, W, U), BOTH, F), ((T, W, U), T, BOTH),
        ((T, NONE), T, T), ((F, NONE), F, F), ((NONE, W), W, W), ((NONE,), NONE, NONE), ((), NONE, NONE),
    ],
)  # fmt: skip
def test_any_all(cells: tuple[Cell, ...], some: Cell, every: Cell) -> None:
    assert over(*cells).cell("any(x)") == some
    assert over(*cells).cell("all(x)") == every


def test_largest_of_several_leaves_out_what_does_not_apply() -> None:
    assert bench(a=known(1.0), b=NONE, c=known(3.0)).cell("max(a, b, c)") == known(3.0)
    assert bench(a=NONE, b=NONE).cell("min(a, b)") == NONE
    assert bench(a=known(1.0), b=W).cell("min(a, b)") == W


def test_only() -> None:
    assert bench(a=known(1.0), b=T).cell("only(a, b)") == known(1.0)
    assert bench(a=known(1.0), b=F).cell("only(a, b)") == NONE
    assert bench(a=W, b=F).cell("only(a, b)") == NONE
    assert bench(a=known(1.0), b=U).cell("only(a, b)") == U
    assert bench(a=W, b=U).cell("only(a, b)") == BOTH
    assert bench(a=NONE, b=U).cell("only(a, b)") == NONE


def test_a_choice_takes_one_side_only() -> None:
    scope = bench(a=known(1.0), zero=known(0.0), yes=T, no=F, u=U, w=W, n=NONE)
    assert scope.cell("a if zero == 1 else w".replace("zero == 1", "no")) == W
    assert scope.cell("a / zero if no else a") == known(1.0)
    assert scope.cell("a if yes else a / zero") == known(1.0)
    assert scope.cell("a if u else w") == BOTH
    assert scope.cell("a if w else a") == W
    assert scope.cell("a / zero if w else a") == W
    assert scope.cell("a if n else w") == NONE


def test_refused_arithmetic_is_a_cell_with_its_place() -> None:
    scope = bench(a=known(1.0), zero=known(0.0), nothing=known(1e-9), minus=known(-1.0))
    divided = scope.cell("a + a / zero")
    assert divided.state is State.UNKNOWN
    assert divided.refused is not None
    assert (divided.refused.message, divided.refused.at) == ("divides by nothing: the divisor is 0 here", 6)
    assert scope.cell("a / nothing").refused is not None  # under a millionth of a millimetre there is nothing
    root = scope.cell("max(sqrt(minus), a)")
    assert root.refused is not None
    assert (root.refused.message, root.refused.at) == ("takes the root of a number below 0", 4)
    huge = bench(a=known(1e300)).cell("a * a")
    assert huge.refused is not None
    assert huge.refused.message == "the result is too large to hold"


def test_comparison_is_the_one_comparison() -> None:
    """0.1 + 0.2 is 0.30000000000000004 as a float: exactly on the limit counts as within it."""
    scope = bench(a=known(0.1), b=known(0.2), limit=known(0.3))
    assert scope.cell("a + b <= limit") == T
    assert scope.cell("a + b > limit") == F
    assert scope.cell("a + b < limit") == F


@pytest.mark.parametrize(
    ("value", "under", "over"),  # accept up to limit - g, reject beyond limit + g: JCGM 106 by its rule of decision
    [("98.475", "T", "F"), ("98.476", "T", "F"), ("98.478", "C", "C"), ("98.484", "C", "C"), ("98.485", "F", "T")],
)
def test_too_close_to_call(value: str, under: str, over: str) -> None:
    limit, size = known(98.480), reading(float(value), "bore")
    close = Cell(State.CLOSE, because=frozenset({"bore"}))
    gives = {"T": T, "F": F, "C": close}
    assert compare("<=", size, limit, LENGTH, lambda _: 0.004) == gives[under]
    assert compare(">=", limit, size, LENGTH, lambda _: 0.004) == gives[under]
    assert compare(">", size, limit, LENGTH, lambda _: 0.004) == gives[over]
    assert compare("<=", known(float(value)), limit, LENGTH, lambda _: 0.004) == known(float(value) <= 98.480)


def test_doubt_goes_through_conditions() -> None:
    scope = BenchScope(bench(a=reading(1.0, "a"), limit=known(1.001), yes=T, no=F))

    def cell(source: str) -> Cell:
        return evaluate(formula(source).tree, scope, doubt=lambda difference: 0.002).one

    assert cell("a <= limit and no") == F
    assert cell("a <= limit or yes") == T
    assert cell("not a <= limit and yes").state is State.CLOSE
