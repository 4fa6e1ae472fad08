"""The conditions of a decision over numbered variables, each with cells: words of a choice or stretches of an axis.

n limits on an axis cut it into 2n + 1 cells: below the first, on it, between it and the next, ... A region is one mask
of cells for each variable, so that numbers and words are handled alike.
"""

from __future__ import annotations

import math
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

from procgen.formula.prove.amounts import Symbol
from procgen.formula.prove.conditions import Condition, Every, Level, Some, Word, atoms, full
from procgen.formula.prove.eliminate import Row, at_most, between
from procgen.formula.prove.linear import ONE, Form, Linear, symbol
from procgen.values import dataclass


class Test(NamedTuple):
    """That a variable is in one of the cells of `mask`."""

    variable: int
    mask: int


class AllOf(NamedTuple):
    parts: tuple[Node, ...]


class OneOf(NamedTuple):
    parts: tuple[Node, ...]


Node = bool | Test | AllOf | OneOf
Region = tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Choice:
    """A name that comes to one of some words; of `domain` a bit for each that is possible."""

    key: str
    options: tuple[str, ...]
    waits: frozenset[str]
    domain: int


@dataclass(frozen=True, slots=True)
class Axis:
    """A linear form, cut by what it is compared with; of `domain` a bit for each cell and edge that is possible."""

    form: Form
    limits: tuple[Fraction, ...]
    domain: int
    group: int  # the axes that share symbols with it; -1 where all of its cells can be whatever the others are

    def hull(self, mask: int) -> tuple[Fraction | None, bool, Fraction | None, bool]:
        """The stretch from the lowest to the highest cell of `mask`: low, whether it is open, high, whether open."""
        first, last = (mask & -mask).bit_length() - 1, mask.bit_length() - 1
        low = self.limits[(first - 1) // 2] if first else None
        high = self.limits[last // 2] if last < 2 * len(self.limits) else None
        return low, first % 2 == 0, high, last % 2 == 0

    def rows(self, mask: int) -> list[Row]:
        return between(Linear(self.form, Fraction(0)), *self.hull(mask))


@dataclass(frozen=True, slots=True)
class Group:
    """Axes that share symbols, and what always holds of these."""

    axes: tuple[int, ...]
    always: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class Space:
    """All that a decision depends on, and its conditions over that."""

    variables: tuple[Choice | Axis, ...]
    groups: tuple[Group, ...]
    cases: tuple[Node, ...]
    impossible: tuple[Node, ...]


def space(cases: tuple[Condition, ...], impossible: tuple[Condition, ...], symbols: dict[str, Symbol]) -> Space:
    """The variables that all these conditions are about: a choice for each word read, an axis for each linear form."""
    met = [atom for condition in (*cases, *impossible) for atom in atoms(condition)]
    choices = {(a.key, a.options): a for a in met if isinstance(a, Word)}
    limits: dict[Form, set[Fraction]] = {}
    for atom in met:
        if isinstance(atom, Level):
            limits.setdefault(atom.form, set()).add(atom.at)
    groups, group_of = _groups(tuple(limits), len(choices), symbols)
    variables: list[Choice | Axis] = [Choice(*key, a.waits, full(a.options)) for key, a in choices.items()]
    variables += [_axis(form, found, symbols, group_of.get(form, -1)) for form, found in limits.items()]
    number: dict[object, int] = {key: n for n, key in enumerate((*choices, *limits))}

    def waits(part: Condition) -> bool:
        """Asked last, so that a gap is not put down to the unknown without need."""
        return any(a.waits if isinstance(a, Word) else any(symbols[n].waits for n, _ in a.form) for a in atoms(part))

    def node(condition: Condition) -> Node:
        match condition:
            case bool():
                return condition
            case Word(key, options, mask):
                return Test(number[key, options], mask)
            case Level(form, operator, at):
                axis = variables[n := number[form]]
                assert isinstance(axis, Axis)
                cell = 2 * axis.limits.index(at) + 1  # that of the limit itself
                below = (1 << (cell + (operator in ("<=", ">")))) - 1
                whole_axis = (1 << (2 * len(axis.limits) + 1)) - 1
                return Test(n, below if operator in ("<", "<=") else whole_axis ^ below)
            case Every(parts):
                return AllOf(tuple(map(node, sorted(parts, key=waits))))
            case Some(parts):
                return OneOf(tuple(map(node, sorted(parts, key=waits))))

    return Space(tuple(variables), groups, tuple(map(node, cases)), tuple(map(node, impossible)))


def _axis(form: Form, found: set[Fraction], symbols: dict[str, Symbol], group: int) -> Axis:
    """Cells that a single reading's bounds rule out, or that hold no whole number of what is counted, are left out."""
    one = symbols[form[0][0]] if len(form) == 1 else None
    limits = sorted(found | {b for b in (one.low, one.high) if b is not None} if one else found)
    whole = all(symbols[name].whole and share.denominator == 1 for name, share in form)
    domain = 0
    lowest = 2 * limits.index(one.low) + 1 if one and one.low is not None else 0
    highest = 2 * limits.index(one.high) + 1 if one and one.high is not None else 2 * len(limits)
    for cell in range(lowest, highest + 1):
        low = limits[(cell - 1) // 2] if cell else None
        high = limits[cell // 2] if cell < 2 * len(limits) else None
        holds_whole = low is None or high is None or (low.denominator == 1 if cell % 2 else math.floor(low) + 1 < high)
        if holds_whole or not whole:
            domain |= 1 << cell
    return Axis(form, tuple(limits), domain, group)


def _groups(
    forms: tuple[Form, ...], first: int, symbols: dict[str, Symbol]
) -> tuple[tuple[Group, ...], dict[Form, int]]:
    """Axes with symbols in common, or in relations that always hold; `first` is the number of the first axis."""
    relations = _relations({name: symbols[name] for form in forms for name, _ in form})
    clusters: list[tuple[set[str], list[int]]] = []
    links = [({name for name, _ in form}, [first + n]) for n, form in enumerate(forms)]
    for names, axes in links + [({name for name, _ in row.terms}, []) for row in relations]:
        apart = []
        for other in clusters:
            if other[0] & names:
                names, axes = names | other[0], other[1] + axes
            else:
                apart.append(other)
        clusters = [*apart, (names, axes)]
    groups: list[Group] = []
    group_of: dict[Form, int] = {}
    for names, axes in clusters:
        always = [row for row in relations if row.terms[0][0] in names]
        for name in sorted(names):
            one = symbols[name]
            always += between(symbol(name), one.low, False, one.high, False)
        if len(axes) > 1 or (len(names) > 1 and always):
            group_of.update({forms[n - first]: len(groups) for n in axes})
            groups.append(Group(tuple(axes), tuple(always)))
    return tuple(groups), group_of


def _relations(symbols: dict[str, Symbol]) -> list[Row]:
    """The least of several is at most their mean, and that at most the largest."""
    over: dict[str, dict[str, str]] = {}
    for one in symbols.values():
        if one.aggregate and one.aggregate[0] in _ORDER:
            over.setdefault(one.aggregate[1], {})[one.aggregate[0]] = one.name
    rows = []
    for found in over.values():
        ordered = [found[function] for function in _ORDER if function in found]
        rows += [at_most(symbol(a).plus(symbol(b), -ONE)) for a, b in pairwise(ordered)]
    return rows


_ORDER = ("min", "mean", "max")


def look(node: Node, region: Region) -> bool | Test:
    """What a condition is all over a region; where that differs, the first test on which it hangs."""
    if isinstance(node, bool):
        return node
    if isinstance(node, Test):
        here = region[node.variable]
        met = here & node.mask
        return True if met == here else node if met else False
    ends = isinstance(node, OneOf)
    undecided: bool | Test = not ends
    for part in node.parts:
        found = look(part, region)
        if found is ends:
            return ends
        if undecided is (not ends):
            undecided = found
    return undecided
