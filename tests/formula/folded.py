"""A folded tree read back from its JSON, with what its settled parts stand for, to hold it against the first."""

from __future__ import annotations

from collections.abc import Mapping

from procgen.formula import Scope, Spread
from procgen.formula.tree import Json
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


def from_json(data: Json) -> Expr:
    """The tree of a node's JSON, every node placed at 0."""
    match data:
        case ["whole", int(value)]:
            return Whole(value, 0)
        case ["name", str(name)]:
            return Name(name, 0)
        case ["pick", of, str(member)]:
            return Pick(from_json(of), member, 0)
        case ["call", str(function), [*arguments], *_]:
            return Call(function, tuple(map(from_json, arguments)), 0)
        case ["negate", of]:
            return Negate(from_json(of), 0)
        case [("+" | "-" | "*" | "/") as operator, left, right, *_]:
            return Arithmetic(operator, from_json(left), from_json(right), 0)
        case [("<" | "<=" | ">" | ">=") as operator, left, right, *_]:
            return Compare(operator, from_json(left), from_json(right), 0)
        case ["is", of, [*words], bool(negated)]:
            return Among(from_json(of), tuple(map(str, words)), (0,) * len(words), negated, 0)
        case [("and" | "or") as operator, *terms] if terms:
            return Logic(operator, tuple(map(from_json, terms)), 0)
        case ["not", of]:
            return Not(from_json(of), 0)
        case ["if", condition, then, otherwise]:
            return Choose(from_json(condition), from_json(then), from_json(otherwise), 0)
    raise ValueError(data)


class FoldedScope:
    """`scope` with what a folded tree's constant parts stand for."""

    def __init__(self, scope: Scope, settled: Mapping[str, Spread]) -> None:
        self.scope, self.settled = scope, settled

    def spread(self, name: str, bound: Mapping[str, str]) -> Spread:
        return self.settled[name] if name in self.settled else self.scope.spread(name, bound)

    @property
    def functions(self) -> Mapping[str, Function]:
        return self.scope.functions

    def members(self, axis: str) -> tuple[str, ...] | None:
        return self.scope.members(axis)
