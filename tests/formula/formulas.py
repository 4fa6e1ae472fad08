"""A small vocabulary and scope for the tests of formulas, and short ways to parse, type and evaluate."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from hypothesis import strategies as st

from procgen.files.problems import Place, Problem
from procgen.files.text import Text
from procgen.formula import Cell, Spread, Type, evaluate, infer, parse
from procgen.model.formula import (
    Among,
    Arithmetic,
    Call,
    Choose,
    Compare,
    Expr,
    Formula,
    Function,
    Logic,
    Name,
    Negate,
    Not,
    Pick,
    Whole,
)


def text(source: str) -> Text:
    return Text(source, Place("f.yaml", 1, 1), source)


def formula(source: str) -> Formula:
    read, problems = parse(text(source))
    assert read is not None, problems
    return read


def told(problems: Sequence[Problem]) -> list[tuple[int, str, str]]:
    """Column, message and hint of each problem."""
    return [(p.place.column, p.message, p.hint) for p in problems]


@dataclass
class Bench:
    """Names with their types and, where a test evaluates, their spreads."""

    types: Mapping[str, Type]
    spreads: Mapping[str, Spread] = field(default_factory=dict)
    axes: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    extra: Mapping[str, Function] = field(default_factory=dict)

    def type_of(self, name: str) -> Type | None:
        return self.types.get(name)

    def names(self) -> Sequence[str]:
        return tuple(self.types)

    def functions(self) -> Mapping[str, Function]:
        return self.extra

    def members(self, axis: str) -> tuple[str, ...] | None:
        return self.axes.get(axis)

    def infer(
        self, source: str, each: tuple[str, ...] = (), expected: Type | None = None
    ) -> tuple[Type | None, tuple[Problem, ...]]:
        return infer(formula(source), self, each, expected)

    def type(self, source: str, *each: str) -> Type:
        found, problems = self.infer(source, each)
        assert found is not None, told(problems)
        return found

    def wrong(self, source: str, *each: str, expected: Type | None = None) -> list[tuple[int, str, str]]:
        found, problems = self.infer(source, each, expected)
        assert found is None
        return told(problems)

    def spread(self, source: str, bound: Mapping[str, str] | None = None, keep: tuple[str, ...] = ()) -> Spread:
        return evaluate(formula(source).tree, BenchScope(self), bound or {}, keep)

    def cell(self, source: str, bound: Mapping[str, str] | None = None) -> Cell:
        return self.spread(source, bound).one


@dataclass
class BenchScope:
    bench: Bench

    @property
    def functions(self) -> Mapping[str, Function]:
        return self.bench.extra

    def members(self, axis: str) -> tuple[str, ...] | None:
        return self.bench.axes.get(axis)

    def spread(self, name: str, bound: Mapping[str, str]) -> Spread:
        whole = self.bench.spreads[name]
        free = [index for index, axis in enumerate(whole.axes) if axis not in bound]
        cells = {
            tuple(key[index] for index in free): cell
            for key, cell in whole.cells.items()
            if all(bound.get(axis, member) == member for axis, member in zip(whole.axes, key, strict=True))
        }
        return Spread(tuple(whole.axes[index] for index in free), cells, whole.dimension)


# Random trees. Sound in form only: they need not have a type.
NAMES = st.sampled_from(["a", "b", "geometry.bore", "cam.clearance_min", "x2"])
WORDS = st.sampled_from(["worn", "even", "not_seen"])
_LEAVES = st.builds(Whole, st.integers(0, 12), st.just(0)) | st.builds(Name, NAMES, st.just(0))


def _grown(inner: st.SearchStrategy[Expr]) -> st.SearchStrategy[Expr]:
    at = st.just(0)
    words = st.lists(WORDS, min_size=1, max_size=3, unique=True).map(tuple)
    return st.one_of(
        st.builds(Pick, inner, st.sampled_from(["thrust", "A1", "3"]), at),
        st.builds(Call, st.sampled_from(["max", "only", "clock_error"]), st.lists(inner, max_size=3).map(tuple), at),
        st.builds(Negate, inner, at),
        st.builds(Arithmetic, st.sampled_from("+-*/"), inner, inner, at),
        st.builds(Compare, st.sampled_from(["<", "<=", ">", ">="]), inner, inner, at),
        st.builds(lambda of, w, n: Among(of, w, (0,) * len(w), n, 0), inner, words, st.booleans()),
        st.builds(Logic, st.sampled_from(["and", "or"]), st.lists(inner, min_size=2, max_size=3).map(tuple), at),
        st.builds(Not, inner, at),
        st.builds(Choose, inner, inner, inner, at),
    )


TREES: st.SearchStrategy[Expr] = st.recursive(_LEAVES, _grown, max_leaves=12)
