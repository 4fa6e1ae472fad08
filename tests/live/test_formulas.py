"""The page's interpreter gives for formulas at random what Python's gives: states, values, reasons, moves."""

from __future__ import annotations

import itertools
from collections.abc import Mapping
from random import Random
from typing import Any

import pytest
from engine import run

from procgen.formula import NONE, Cell, Spread, State, evaluate, known, reading, unknown, wanting
from procgen.formula.tree import to_json
from procgen.model.formula import (
    Among,
    Arithmetic,
    Call,
    Choose,
    Compare,
    Expr,
    Function,
    Logic,
    Name,
    Negate,
    Not,
    Pick,
    Whole,
)
from procgen.units.compare import step_of
from procgen.units.dimension import NUMBER

MEMBERS = {"p": ("1", "2", "3"), "q": ("x", "y")}
NUMBERS = {"a": (), "b": ("p",), "c": ("p", "q"), "d": ("q",)}
COUNT = 2400


class Scope:
    """Numbers over nothing, one and two axes, a word of each p, a list; each cell in any state."""

    def __init__(self, random: Random) -> None:
        self.spreads = {name: self._spread(random, name, axes) for name, axes in NUMBERS.items()}
        words = {(p,): random.choice((known("red"), known("blue"), NONE, wanting("w"))) for p in MEMBERS["p"]}
        self.spreads["w"] = Spread(("p",), words)
        steps = tuple(sorted(round(random.uniform(0, 5), 2) for _ in range(3)))
        self.spreads["l"] = Spread((), {(): known(steps)})

    def _spread(self, random: Random, name: str, axes: tuple[str, ...]) -> Spread:
        cells = {}
        for members in itertools.product(*(MEMBERS[axis] for axis in axes)):
            said = f"{name}{''.join(members)}"
            value = random.choice((0.0, 1.0, 2.0, round(random.uniform(-4, 4), 2)))
            cell = random.choice((reading(value, said), reading(value, said), known(value), known(value)))
            cells[members] = random.choice((cell,) * 9 + (NONE, wanting(name), unknown(name)))
        if axes and random.random() < 0.2:
            cells[("",) * len(axes)] = wanting(name)
        return Spread(axes, cells)

    def spread(self, name: str, bound: Mapping[str, str]) -> Spread:
        found = self.spreads[name]
        free = [i for i, axis in enumerate(found.axes) if axis not in bound]
        cells = {
            tuple(key[i] for i in free): cell
            for key, cell in found.cells.items()
            if all(bound.get(axis, key[i]) == key[i] for i, axis in enumerate(found.axes))
        }
        return Spread(tuple(found.axes[i] for i in free), cells)

    @property
    def functions(self) -> Mapping[str, Function]:
        return {}

    def members(self, axis: str) -> tuple[str, ...] | None:
        return MEMBERS.get(axis)


class Maker:
    """Formulas at random; every node has a place of its own."""

    def __init__(self, random: Random, bound: Mapping[str, str]) -> None:
        self.random, self.count, self.bound = random, 0, bound

    def at(self) -> int:
        self.count += 1
        return self.count

    def number(self, deep: int) -> Expr:
        pick = self.random.choice
        if deep == 0:
            return pick((Whole(self.random.randint(0, 3), self.at()), *(Name(name, self.at()) for name in NUMBERS)))
        return pick((self.sum, self.sum, self.called, self.chosen, self.filtered, self.picked, self.reduced))(deep - 1)

    def sum(self, deep: int) -> Expr:
        operator = self.random.choice("+-*/")
        return Arithmetic(operator, self.number(deep), self.number(deep), self.at())

    def called(self, deep: int) -> Expr:
        match self.random.choice(("abs", "sqrt", "next_up", "negate")):
            case "negate":
                return Negate(self.number(deep), self.at())
            case "next_up":
                return Call("next_up", (Name("l", self.at()), self.number(deep)), self.at())
            case name:
                return Call(name, (self.number(deep),), self.at())

    def chosen(self, deep: int) -> Expr:
        return Choose(self.truth(deep), self.number(deep), self.number(deep), self.at())

    def filtered(self, deep: int) -> Expr:
        return Call("only", (self.number(deep), self.truth(deep)), self.at())

    def picked(self, deep: int) -> Expr:
        name, axis, member = self.random.choice((("c", "q", "x"), ("d", "q", "y"), ("c", "p", "2"), ("b", "p", "1")))
        if axis in self.bound:  # `infer` refuses it
            return Name(name, self.at())
        return Pick(Name(name, self.at()), member, self.at())

    def reduced(self, deep: int) -> Expr:
        name = self.random.choice(("max", "min", "mean", "span", "sum", "count"))
        many = name in ("max", "min") and self.random.random() < 0.4
        return Call(name, tuple(self.number(deep) for _ in range(2 if many else 1)), self.at())

    def truth(self, deep: int) -> Expr:
        kind = self.random.choice(("compare", "compare", "compare", "words", "logic", "not", "any"))
        if deep == 0 or kind == "compare":
            operator = self.random.choice(("<", "<=", ">", ">="))
            return Compare(operator, self.number(max(deep - 1, 0)), self.number(0), self.at())
        match kind:
            case "words":
                return Among(Name("w", self.at()), ("red",), (0,), self.random.random() < 0.5, self.at())
            case "logic":
                terms = (self.truth(deep - 1), self.truth(deep - 1))
                return Logic(self.random.choice(("and", "or")), terms, self.at())
            case "not":
                return Not(self.truth(deep - 1), self.at())
        return Call(self.random.choice(("any", "all")), (self.truth(deep - 1),), self.at())


ANSWER = """
function answer({ tree, spreads, bound, keep, guard }) {
  const spread = ([name, [axes, cells]]) => [name, Cells.spread(axes, cells)]
  const made = Object.fromEntries(Object.entries(spreads).map(spread))
  const members = { p: ["1", "2", "3"], q: ["x", "y"] }
  const scope = { spread: (name, bound) => Cells.picked(made[name], bound), members: axis => members[axis] }
  const doubt = guard === null ? null : cell => guard * Math.hypot(...Object.values(cell.moves))
  const found = Evaluate(tree, scope, bound, keep, doubt)
  return [found.axes, Cells.entries(found)]
}
"""


def _cell(cell: Cell) -> dict[str, Any]:
    found: dict[str, Any] = {"state": cell.state.value, "because": sorted(cell.because), "moves": dict(cell.partials)}
    if cell.state is State.KNOWN:
        found["value"] = list(cell.value) if isinstance(cell.value, tuple) else cell.value
    if cell.refused is not None:
        found["refused"] = cell.refused.message
    return found


def _spread(spread: Spread) -> list[Any]:
    return [list(spread.axes), [[list(key), _cell(cell)] for key, cell in spread.cells.items()]]


def test_formulas_at_random() -> None:
    random = Random(7)
    asked, wanted, states = [], [], set()
    step = step_of(NUMBER)
    for turn in range(COUNT):
        bound, keep = random.choice((({}, ()), ({"p": "2"}, ()), ({}, ("p",)), ({"p": "1", "q": "x"}, ())))
        scope, maker = Scope(random), Maker(random, bound)
        tree = maker.number(random.randint(1, 3)) if turn % 2 else maker.truth(random.randint(1, 3))
        guard = random.choice((None, 0.1, 1.0))

        def doubt(cell: Cell, guard: float | None = guard) -> float:
            return (guard or 0.0) * sum(p * p for p in cell.partials.values()) ** 0.5

        found = evaluate(tree, scope, bound, keep, None if guard is None else doubt)
        wanted.append(_spread(found))
        states |= {cell.state for cell in found.cells.values()}
        spreads = {name: _spread(spread) for name, spread in scope.spreads.items()}
        steps = dict.fromkeys(range(maker.count + 1), step)
        asked.append(
            {"tree": to_json(tree, steps), "spreads": spreads, "bound": bound, "keep": list(keep), "guard": guard}
        )
    assert states == set(State), "every state is met"
    for one, (axes, cells), (their_axes, their_cells) in zip(asked, wanted, run(ANSWER, asked), strict=True):
        assert their_axes == axes, one["tree"]
        assert [key for key, _ in their_cells] == [key for key, _ in cells], one["tree"]
        for (key, ours), (_, theirs) in zip(cells, their_cells, strict=True):
            assert theirs.keys() == ours.keys(), (one["tree"], key)
            for part, value in ours.items():
                inexact = isinstance(value, float | dict) or (isinstance(value, list) and part == "value")
                assert theirs[part] == (pytest.approx(value, rel=1e-12) if inexact else value), (one["tree"], key)
