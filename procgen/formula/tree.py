"""A formula's tree as JSON for the page, with what no reading touches worked out beforehand.

A node is a list that begins with its tag: ["whole", 3]; ["name", "clearance"]; ["pick", of, member];
["call", function, [arguments], step]; ["negate", of]; ["+", left, right] and - * /; ["<", left, right, step] and
<= > >=; ["is", of, [words], denied]; ["and", term, ...]; ["or", term, ...]; ["not", of]; ["if", condition, then, else].
`step` is the comparison's (see procgen.units.compare; 0 where it is relative), given for comparisons, `/` and next_up.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypeAlias

from procgen.formula.cells import Cell, State
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

Json: TypeAlias = "str | int | float | bool | list[Json] | dict[str, Json] | None"

_NO_STEPS: Mapping[int, float] = {}


def to_json(tree: Expr, steps: Mapping[int, float] = _NO_STEPS) -> list[Json]:
    """The tree as JSON; `steps` are the comparisons' steps by the offset of their node (see `fold`)."""

    def down(part: Expr) -> Json:
        return to_json(part, steps)

    step: list[Json] = [steps[tree.at]] if tree.at in steps else []
    match tree:
        case Whole():
            return ["whole", tree.value]
        case Name():
            return ["name", tree.name]
        case Pick():
            return ["pick", down(tree.of), tree.member]
        case Call():
            return ["call", tree.function, [down(argument) for argument in tree.arguments], *_if(step, tree)]
        case Negate():
            return ["negate", down(tree.of)]
        case Arithmetic() | Compare():
            return [tree.operator, down(tree.left), down(tree.right), *_if(step, tree)]
        case Among():
            return ["is", down(tree.of), list(tree.words), tree.negated]
        case Logic():
            return [tree.operator, *map(down, tree.terms)]
        case Not():
            return ["not", down(tree.of)]
        case Choose():
            return ["if", down(tree.condition), down(tree.then), down(tree.otherwise)]


def compares(tree: Expr) -> bool:
    """Whether the node needs the comparison's step."""
    match tree:
        case Compare() | Arithmetic(operator="/") | Call(function="next_up"):
            return True
        case _:
            return False


def _if(step: list[Json], tree: Expr) -> list[Json]:
    return step if compares(tree) else []


def cell_json(cell: Cell) -> Json:
    if cell.state is not State.KNOWN:
        return {"state": cell.state.value, "because": list[Json](sorted(cell.because))}
    return list(cell.value) if isinstance(cell.value, tuple) else cell.value
