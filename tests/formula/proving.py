"""A family written down in a few lines, for proofs to be asked about, and decisions worked out by hand."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache

from procgen.files.problems import Place
from procgen.files.text import Text
from procgen.formula.parse import parse
from procgen.formula.prove import Case, Constant, Proof, prove
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
    Whole,
)

NEAR = 1e-9


@cache
def tree(text: str) -> Expr:
    formula, problems = parse(Text(text, Place("test.yaml")))
    assert formula is not None, problems
    return formula.tree


def cases(branches: Mapping[str, str | None]) -> tuple[Case, ...]:
    return tuple(Case(name, None if when is None else tree(when)) for name, when in branches.items())


@dataclass(frozen=True)
class Facts:
    known: Mapping[str, Constant] = field(default_factory=dict)
    choices: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    formulas: Mapping[str, str] = field(default_factory=dict)
    whens: Mapping[str, str] = field(default_factory=dict)
    not_known: frozenset[str] = frozenset()
    many: frozenset[str] = frozenset()
    excluded: frozenset[str] = frozenset()
    counted: frozenset[str] = frozenset()
    from_zero: frozenset[str] = frozenset()

    def applies(self, name: str) -> bool:
        return name not in self.excluded

    def when(self, name: str) -> Expr | None:
        return tree(self.whens[name]) if name in self.whens else None

    def constant(self, name: str) -> Constant | None:
        return self.known.get(name)

    def call(self, call: Call) -> Constant | None:
        values = [self.known[a.name] for a in call.arguments if isinstance(a, Name)]
        numbers = [n for v in values if not isinstance(v, str) for n in (v if isinstance(v, tuple) else (v,))]
        return {"max": max, "min": min}[call.function](numbers) if call.function in ("max", "min") else None

    def definition(self, name: str) -> Expr | None:
        return tree(self.formulas[name]) if name in self.formulas else None

    def unknown(self, name: str) -> bool:
        return name in self.not_known

    def options(self, name: str) -> tuple[str, ...] | None:
        return self.choices.get(name)

    def spread(self, name: str) -> bool:
        return name in self.many

    def bounds(self, name: str) -> tuple[float | None, float | None]:
        return (0.0 if name in self.from_zero | self.counted else None), None

    def whole(self, name: str) -> bool:
        return name in self.counted


def proof(branches: Mapping[str, str | None], facts: Facts, *impossible: str) -> Proof:
    return prove(cases(branches), facts, tuple(map(tree, impossible)))


def number(expr: Expr, at: Mapping[str, float | str]) -> float:
    match expr:
        case Whole(value):
            return float(value)
        case Name(name):
            return float(at[name])
        case Negate(of):
            return -number(of, at)
        case Arithmetic(operator, left, right):
            a, b = number(left, at), number(right, at)
            return {"+": a + b, "-": a - b, "*": a * b, "/": a / b if b else float("nan")}[operator]
        case Call("abs", (of,)):
            return abs(number(of, at))
        case Call("max", parts):
            return max(number(part, at) for part in parts)
        case Call("min", parts):
            return min(number(part, at) for part in parts)
        case Choose(condition, then, otherwise):
            return number(then if true(condition, at) else otherwise, at)
    raise AssertionError(expr)


def true(expr: Expr, at: Mapping[str, float | str]) -> bool:
    match expr:
        case Compare(operator, left, right):
            difference = number(left, at) - number(right, at)
            return {"<": difference < -NEAR, "<=": difference <= NEAR, ">": difference > NEAR,
                    ">=": difference >= -NEAR}[operator]  # fmt: skip
        case Among(Name(name), words, _, negated):
            return (at[name] in words) is not negated
        case Logic(operator, terms):
            return (all if operator == "and" else any)(true(term, at) for term in terms)
        case Not(of):
            return not true(of, at)
    raise AssertionError(expr)


def filled(facts: Facts, at: Mapping[str, float | str]) -> dict[str, float | str]:
    """`at` with what is known, and with the values worked out that it does not name."""
    whole = dict(at) | {name: value for name, value in facts.known.items() if not isinstance(value, tuple)}
    for name in facts.formulas:
        if name not in whole:
            whole[name] = number(tree(facts.formulas[name]), whole)
    return whole


def branch(branches: Mapping[str, str | None], at: Mapping[str, float | str]) -> str | None:
    """The branch taken with everything in hand; None where it falls through."""
    return next((name for name, when in branches.items() if when is None or true(tree(when), at)), None)
