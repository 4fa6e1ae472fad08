"""A region told as a person would: one combination of readings in it, and what it hangs on of the unknown."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from procgen.formula.prove.amounts import Pieces, Symbol
from procgen.formula.prove.conditions import Condition, Every, Level, Some, Word, compared
from procgen.formula.prove.eliminate import Row, between, feasible, opposite, plain, projected, solved
from procgen.formula.prove.linear import Form, symbol
from procgen.formula.prove.space import Axis, Choice, Region, Space

Labels = Mapping[Form, Mapping[str, Pieces]]


def example(space: Space, region: Region, symbols: Mapping[str, Symbol], labels: Labels) -> dict[str, float | str]:
    """A value for every name that the region restricts; whatever the others are, its outcome is the same."""
    point = {name: plain(one.low, False, one.high, False, one.whole) for name, one in symbols.items()}
    words: dict[tuple[str, tuple[str, ...]], int] = {}
    told: dict[str, float | str] = {}
    for n, variable in enumerate(space.variables):
        if isinstance(variable, Choice):
            words[variable.key, variable.options] = region[n] & -region[n]
            if region[n] != variable.domain:
                told[variable.key] = variable.options[(region[n] & -region[n]).bit_length() - 1]
    for axes, rows in _parts(space, region):
        whole = {name for form in axes.values() for name, _ in form if symbols[name].whole}
        if all(len(form) == 1 for form in axes.values()):
            whole |= {axis for axis, form in axes.items() if form[0][0] in whole}
        found = solved(rows, axes, whole)
        if found is not None:
            point.update((name, at) for name, at in found.items() if name in symbols)
    for n, variable in enumerate(space.variables):
        if isinstance(variable, Axis) and region[n] != variable.domain:
            for label, pieces in labels[variable.form].items():
                told.update((label, float(form.at(point))) for when, form in pieces if holds(when, words, point))
    return told


def unknowns(space: Space, region: Region, symbols: Mapping[str, Symbol]) -> frozenset[str]:
    """What of the unknown a region hangs on: empty where some of it is there whatever the unknown turns out to be."""
    found: set[str] = set()
    for n, variable in enumerate(space.variables):
        if isinstance(variable, Choice) and region[n] != variable.domain:
            found |= variable.waits
    for _, rows in _parts(space, region):
        hidden = {name for row in rows for name, _ in row.terms if symbols[name].waits}
        if not hidden:
            continue
        always = [row for n in sorted(hidden) for row in _bounds(symbols[n])]
        for row in projected(rows, hidden) or ():
            if feasible([*always, opposite(row)]):
                found |= frozenset[str]().union(*(symbols[name].waits for name, _ in row.terms))
    return frozenset(found)


def holds(
    condition: Condition, words: Mapping[tuple[str, tuple[str, ...]], int], point: Mapping[str, Fraction]
) -> bool:
    """Whether a condition holds at a point; a choice of which nothing is said is its first word."""
    match condition:
        case bool():
            return condition
        case Word(key, options, mask):
            return bool(words.get((key, options), 1) & mask)
        case Level(form, operator, at):
            value = sum((share * point[name] for name, share in form), Fraction(0))
            return compared(value, operator, at)
        case Every(parts):
            return all(holds(part, words, point) for part in parts)
        case Some(parts):
            return any(holds(part, words, point) for part in parts)


def _parts(space: Space, region: Region) -> list[tuple[dict[str, Form], list[Row]]]:
    """The axes that a region restricts, those that hang together at once, with all that is said of their symbols."""
    together: dict[int, list[int]] = {}
    for n, variable in enumerate(space.variables):
        if isinstance(variable, Axis) and region[n] != variable.domain:
            together.setdefault(variable.group if variable.group >= 0 else -1 - n, []).append(n)
    parts = []
    for group, numbers in together.items():
        axes: dict[str, Form] = {}
        rows = list(space.groups[group].always) if group >= 0 else []
        for n in numbers:
            axis = space.variables[n]
            assert isinstance(axis, Axis)
            axes[f"axis {n}"] = axis.form
            rows += axis.rows(region[n])
        parts.append((axes, rows))
    return parts


def _bounds(one: Symbol) -> list[Row]:
    return between(symbol(one.name), one.low, False, one.high, False)
