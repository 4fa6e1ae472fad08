"""A formula evaluated: cell by cell, over the axes of what it names."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Protocol

from procgen.formula.cells import Cell, Spread, State, known, single
from procgen.formula.join import grouped, lift
from procgen.formula.operations import (
    Doubt,
    absolute,
    arithmetic,
    called,
    chosen,
    compare,
    deny,
    filtered,
    logic,
    next_up,
    reduced,
    root,
)
from procgen.formula.types import REDUCING
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
from procgen.units.dimension import NUMBER, Dimension


class Scope(Protocol):
    """Where a formula's names get their values from: a family, its variant, a job."""

    def spread(self, name: str, bound: Mapping[str, str]) -> Spread:
        """The cells of `name` over those of its axes that are not in `bound` (axis -> member).

        Its dimension is given also while nothing is known. Where an axis has no members yet, one waiting cell stands
        under the member "" of it.
        """

    @property
    def functions(self) -> Mapping[str, Function]:
        """The functions beside the built-in ones."""

    def members(self, axis: str) -> tuple[str, ...] | None:
        """What `axis` has, as in the vocabulary that the formula was typed with."""


_UNBOUND: Mapping[str, str] = {}


def evaluate(
    tree: Expr,
    scope: Scope,
    bound: Mapping[str, str] = _UNBOUND,
    keep: tuple[str, ...] = (),
    doubt: Doubt | None = None,
) -> Spread:
    """The value of a formula that `infer` found sound, in base units.

    The axes of the entry itself are either `bound` to one member each, or kept whole in `keep`; aggregates run over all
    others. So the result is over `keep`, or over nothing. With `doubt`, which gives the guard band of a difference from
    its partials, comparisons of readings too near to their limit are CLOSE. Nothing is raised for lack of values or for
    arithmetic: a cell says what it waits for, or why it is `refused`.
    """
    return Evaluation(scope, bound, keep, doubt).of(tree)


class Evaluation:
    """`evaluate` for one formula and its parts: what was worked out of a part is there when that is asked for."""

    def __init__(
        self, scope: Scope, bound: Mapping[str, str], keep: tuple[str, ...] = (), doubt: Doubt | None = None
    ) -> None:
        self.scope, self.bound, self.keep, self.doubt = scope, bound, keep, doubt
        self._known: dict[int, tuple[Expr, Spread]] = {}  # by the id of a part, which is held so that it stays its own

    def of(self, tree: Expr) -> Spread:
        before = self._known.get(id(tree))
        if before is not None:
            return before[1]
        found = self._work_out(tree)
        self._known[id(tree)] = tree, found
        return found

    def _work_out(self, tree: Expr) -> Spread:
        match tree:
            case Name():  # by far the most there are
                return self.scope.spread(tree.name, self.bound)
            case Whole():
                return single(known(float(tree.value)))
            case Pick():
                return self.pick(self.of(tree.of), tree.member)
            case Call():
                return self.call(tree)
            case Negate():
                of = self.of(tree.of)
                return lift([of], lambda c: arithmetic("*", known(-1.0), c[0], tree.at, NUMBER), of.dimension)
            case Arithmetic():
                return self.arithmetic(tree)
            case Compare():
                sides = [self.of(tree.left), self.of(tree.right)]
                dimension = _sized(*sides)
                return lift(sides, lambda c: compare(tree.operator, c[0], c[1], dimension, self.doubt))
            case Among():
                return lift([self.of(tree.of)], lambda c: _among(c[0], tree))
            case Logic():
                return lift([self.of(term) for term in tree.terms], lambda c: logic(tree.operator, c))
            case Not():
                return lift([self.of(tree.of)], lambda c: deny(c[0]))
            case Choose():
                return self.choose(tree)

    def arithmetic(self, tree: Arithmetic) -> Spread:
        left, right = self.of(tree.left), self.of(tree.right)
        a, b = left.dimension, right.dimension
        match tree.operator:
            case "*":
                dimension = a * b
            case "/":
                dimension = a / b
            case "+":
                dimension = b if b.point else a
            case _:
                dimension = a.difference if b.point else a
        return lift([left, right], lambda c: arithmetic(tree.operator, c[0], c[1], tree.at, b), dimension)

    def pick(self, of: Spread, member: str) -> Spread:
        """The cells under one member of the axis that has it; what is not there yet stands in for it."""
        axis = next((axis for axis in of.axes if member in (self.scope.members(axis) or ())), None)
        if axis is None:
            axis = next((a for i, a in enumerate(of.axes) if any(key[i] == member for key in of.cells)), of.axes[-1])
        index = of.axes.index(axis)
        cells: dict[tuple[str, ...], Cell] = {}
        for found in ("", member):
            cells |= {key[:index] + key[index + 1 :]: cell for key, cell in of.cells.items() if key[index] == found}
        return Spread(of.axes[:index] + of.axes[index + 1 :], cells, of.dimension)

    def choose(self, tree: Choose) -> Spread:
        condition = self.of(tree.condition)
        cells = condition.cells.values()
        if cells and all(cell.state is State.KNOWN for cell in cells) and len({cell.holds for cell in cells}) == 1:
            taken = self.of(tree.then if next(iter(cells)).holds else tree.otherwise)
            return lift([condition, taken], lambda c: c[1], taken.dimension)
        sides = [self.of(tree.then), self.of(tree.otherwise)]
        return lift([condition, *sides], lambda c: chosen(*c), _sized(*sides))

    def call(self, tree: Call) -> Spread:
        parts = [self.of(argument) for argument in tree.arguments]
        function = self.scope.functions.get(tree.function)
        if function is not None:
            return lift(parts, lambda c: called(function, c, tree.at), function.gives)
        first, operation = parts[0], _OPERATIONS.get(tree.function)
        if operation is not None:
            return lift(parts, lambda c: operation(c, first.dimension, tree.at), _gives(tree.function, first.dimension))
        if len(parts) > 1:  # max and min of several
            return lift(parts, lambda c: reduced(tree.function, c, tree.at), _sized(*parts))
        assert tree.function in REDUCING
        axes, groups = grouped(first, self.keep)
        cells = {key: reduced(tree.function, group, tree.at) for key, group in groups.items()}
        return Spread(axes, cells, _gives(tree.function, first.dimension))


_OPERATIONS: Mapping[str, Callable[[tuple[Cell, ...], Dimension, int], Cell]] = {
    "only": lambda cells, dimension, at: filtered(cells[0], cells[1]),
    "abs": lambda cells, dimension, at: absolute(cells[0]),
    "sqrt": lambda cells, dimension, at: root(cells[0], at),
    "next_up": lambda cells, dimension, at: next_up(cells[0], cells[1], dimension),
}


def _gives(function: str, dimension: Dimension) -> Dimension:
    if function == "sqrt":
        return Dimension(tuple(power // 2 for power in dimension.powers))
    if function in ("count", "any", "all"):
        return NUMBER
    return dimension.difference if function == "span" else dimension


def _sized(*parts: Spread) -> Dimension:
    """The dimension of things of one dimension, some of which may be a plain 0."""
    return next((part.dimension for part in parts if part.dimension != NUMBER), NUMBER)


def _among(cell: Cell, tree: Among) -> Cell:
    if cell.state is not State.KNOWN:
        return cell
    return known((cell.value in tree.words) != tree.negated)
