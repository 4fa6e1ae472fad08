"""What no reading touches, worked out beforehand: terms that hold anyway dropped, constant parts replaced."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field, replace

from procgen.formula.cells import Cell, Spread, State
from procgen.formula.evaluate import Evaluation, Scope
from procgen.formula.tree import compares
from procgen.formula.walk import children, names
from procgen.model.formula import (
    Among,
    Arithmetic,
    Call,
    Choose,
    Compare,
    Expr,
    Logic,
    Name,
    Negate,
    Not,
    Pick,
    Whole,
)
from procgen.units.compare import step_of
from procgen.units.dimension import NUMBER
from procgen.values import dataclass

_UNBOUND: Mapping[str, str] = {}


def simplified(
    tree: Expr, scope: Scope, bound: Mapping[str, str] = _UNBOUND, keep: tuple[str, ...] = ()
) -> Expr | Cell:
    """`tree` without the parts that `scope` settles: the condition that is left to a person, or the cell it comes to.

    Only whole conditions are settled; a known figure within one that is open keeps its name.
    """
    return _simplified(tree, Evaluation(scope, bound, keep))


def _simplified(tree: Expr, evaluation: Evaluation) -> Expr | Cell:
    settled = _settled(tree, evaluation)
    if settled is not None:
        return settled
    match tree:
        case Logic():
            decides = tree.operator == "or"
            terms: list[Expr] = []
            for term in tree.terms:
                part = _simplified(term, evaluation)
                if not isinstance(part, Cell):
                    terms.append(part)
                elif part.state is not State.KNOWN or part.holds is decides:
                    terms.append(term)
            return terms[0] if len(terms) == 1 else Logic(tree.operator, tuple(terms), tree.at)
        case Not():
            part = _simplified(tree.of, evaluation)
            return tree if isinstance(part, Cell) else Not(part, tree.at)
        case Choose():
            condition = _settled(tree.condition, evaluation)
            if condition is not None and condition.state is State.KNOWN:
                return _simplified(tree.then if condition.holds else tree.otherwise, evaluation)
    return tree


def _settled(tree: Expr, evaluation: Evaluation) -> Cell | None:
    """The cell that `tree` comes to whatever is read, the same for all members; None where it is open."""
    first: Cell | None = None
    for cell in evaluation.of(tree).cells.values():
        if cell.state is not State.KNOWN and cell.state is not State.NONE:
            return None
        if first is None:
            first = cell
        elif cell != first:
            return None
    return first


@dataclass(frozen=True, slots=True)
class Folded:
    """A tree whose constant parts are names ("#1", which no author can write), what these stand for, and the steps.

    `steps` are by the offset of the node that compares: `to_json(folded.tree, folded.steps)`.
    """

    tree: Expr
    settled: Mapping[str, Spread] = field(default_factory=dict)
    steps: Mapping[int, float] = field(default_factory=dict)


def fold(tree: Expr, scope: Scope, bound: Mapping[str, str] = _UNBOUND, keep: tuple[str, ...] = ()) -> Folded:
    """`tree` with each part that no reading in `scope` can change replaced by what it comes to."""
    evaluation = Evaluation(scope, bound, keep)
    folding = _Folding(evaluation)
    left = _simplified(tree, evaluation)
    return Folded(folding.of(tree if isinstance(left, Cell) else left), folding.settled, folding.steps)


class _Folding:
    def __init__(self, evaluation: Evaluation) -> None:
        self.evaluation = evaluation
        self.settled: dict[str, Spread] = {}
        self.steps: dict[int, float] = {}

    def of(self, tree: Expr) -> Expr:
        if isinstance(tree, Whole):
            return tree
        spread = self.evaluation.of(tree)
        if self.is_fixed(tree, spread):
            name = next((name for name, other in self.settled.items() if other == spread), f"#{len(self.settled) + 1}")
            self.settled[name] = spread
            return Name(name, tree.at)
        if compares(tree):
            dimensions = [self.evaluation.of(part).dimension for part in children(tree)]
            if isinstance(tree, Arithmetic):  # it asks whether the divisor is nothing
                dimensions = dimensions[1:]
            sized = next((dimension for dimension in dimensions if not dimension.is_number), NUMBER)
            self.steps[tree.at] = step_of(sized)
        return self.parts(tree)

    def parts(self, tree: Expr) -> Expr:
        match tree:
            case Pick() | Negate() | Not() | Among():
                return replace(tree, of=self.of(tree.of))
            case Arithmetic() | Compare():
                return replace(tree, left=self.of(tree.left), right=self.of(tree.right))
            case Call():
                return replace(tree, arguments=tuple(map(self.of, tree.arguments)))
            case Logic():
                return replace(tree, terms=tuple(map(self.of, tree.terms)))
            case Choose():
                condition, then, otherwise = map(self.of, (tree.condition, tree.then, tree.otherwise))
                return Choose(condition, then, otherwise, tree.at)
            case _:
                return tree

    def is_fixed(self, tree: Expr, spread: Spread) -> bool:
        """Known, or not applying, whatever is read; or made of nothing that is read."""
        if all(cell.state in (State.KNOWN, State.NONE) for cell in spread.cells.values()):
            return not any(cell.partials for cell in spread.cells.values())
        spreads = [self.evaluation.scope.spread(name, self.evaluation.bound) for name in names(tree)]
        return all(cell.state is not State.WANTING for spread in spreads for cell in spread.cells.values())
