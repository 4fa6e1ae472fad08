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


def from_json(data: Json) -> Expr:
    """The tree of a node's JSON, every node placed at 0. ValueError where it is none."""
    try:
        return _from(data)
    except (IndexError, KeyError, TypeError) as wrong:
        raise ValueError(f"not a formula's tree: {data!r}") from wrong


def _from(data: Json) -> Expr:
    if not isinstance(data, list) or not data:
        raise TypeError
    match data:
        case ["whole", int(value)]:
            return Whole(value, 0)
        case ["name", str(name)]:
            return Name(name, 0)
        case ["pick", of, str(member)]:
            return Pick(_from(of), member, 0)
        case ["call", str(function), [*arguments], *_]:
            return Call(function, tuple(map(_from, arguments)), 0)
        case ["negate", of]:
            return Negate(_from(of), 0)
        case [("+" | "-" | "*" | "/") as operator, left, right, *_]:
            return Arithmetic(operator, _from(left), _from(right), 0)
        case [("<" | "<=" | ">" | ">=") as operator, left, right, *_]:
            return Compare(operator, _from(left), _from(right), 0)
        case ["is", of, [*words], bool(negated)]:
            return Among(_from(of), tuple(map(str, words)), (0,) * len(words), negated, 0)
        case [("and" | "or") as operator, *terms] if terms:
            return Logic(operator, tuple(map(_from, terms)), 0)
        case ["not", of]:
            return Not(_from(of), 0)
        case ["if", condition, then, otherwise]:
            return Choose(_from(condition), _from(then), _from(otherwise), 0)
    raise TypeError


def cell_json(cell: Cell) -> Json:
    if cell.state is not State.KNOWN:
        return {"state": cell.state.value, "because": list[Json](sorted(cell.because))}
    return list(cell.value) if isinstance(cell.value, tuple) else cell.value
