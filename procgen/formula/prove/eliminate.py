"""Systems of linear inequalities: can they hold at once, what do they say of some symbols alone, where do they hold.

Fourier-Motzkin elimination in exact fractions, strict and non-strict.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Mapping
from fractions import Fraction
from typing import NamedTuple

from procgen.formula.prove.linear import ONE, ZERO, Form, Linear, symbol

MOST_ROWS = 400


class TooMuch(Exception):
    """The work grew past what a check may cost."""


class Row(NamedTuple):
    """terms + constant <= 0, or < 0 where strict."""

    terms: Form
    constant: Fraction
    strict: bool


def at_most(form: Linear, strict: bool = False) -> Row:
    """form <= 0, scaled so that equal statements are equal rows."""
    if not form.terms:
        return Row((), form.constant, strict)
    first = form.terms[0][1]
    scaled = form if abs(first) == 1 else form.times(1 / abs(first))
    return Row(scaled.terms, scaled.constant, strict)


def between(form: Linear, low: Fraction | None, low_open: bool, high: Fraction | None, high_open: bool) -> list[Row]:
    rows = []
    if low is not None:
        rows.append(at_most(Linear((), low).plus(form, -ONE), low_open))
    if high is not None:
        rows.append(at_most(form.plus(Linear((), -high)), high_open))
    return rows


def opposite(row: Row) -> Row:
    return at_most(Linear(row.terms, row.constant).times(-ONE), not row.strict)


def feasible(rows: Iterable[Row]) -> bool:
    return projected(rows, ()) is not None


def projected(rows: Iterable[Row], onto: Collection[str]) -> list[Row] | None:
    """What `rows` say of the symbols `onto` alone; None where they contradict each other."""
    left = _tidy(rows)
    while left is not None:
        name = _next(left, onto)
        if name is None:
            return left
        left = _without(left, name)
    return None


def solved(rows: Iterable[Row], axes: Mapping[str, Form], whole: Collection[str]) -> dict[str, Fraction] | None:
    """A point where `rows` hold, as plain numbers as can be along `axes` first; None where there is none.

    Axes become coordinates in place of the symbols they are made of; the point is told in symbols.
    """
    coordinates: dict[str, Linear] = {}
    for axis, form in axes.items():
        here = Linear(form, ZERO).replaced(coordinates)
        pivot = next(((s, share) for s, share in here.terms if s not in axes), None)
        if pivot is None:
            continue  # follows from the others
        name, share = pivot
        rest = Linear(tuple(t for t in here.terms if t[0] != name), here.constant)
        solution = {name: symbol(axis).plus(rest, -ONE).times(1 / share)}
        coordinates = {s: f.replaced(solution) for s, f in coordinates.items()} | solution
    left = _tidy(at_most(Linear(r.terms, r.constant).replaced(coordinates), r.strict) for r in rows)
    steps: list[tuple[str, list[Row]]] = []
    for keep in (frozenset(axes), frozenset[str]()):
        while left is not None and (out := _next(left, keep)) is not None:
            steps.append((out, [row for row in left if any(s == out for s, _ in row.terms)]))
            left = _without(left, out)
    if left is None:
        return None
    point: dict[str, Fraction] = {}
    for name, about in reversed(steps):
        for row in about:
            for other, _ in row.terms:
                if other != name:
                    point.setdefault(other, ZERO)
        point[name] = _within(name, about, point, name in whole)
    for solution_of in coordinates.values():
        for other, _ in solution_of.terms:
            point.setdefault(other, ZERO)
    return point | {name: form.at(point) for name, form in coordinates.items()}


def plain(low: Fraction | None, low_open: bool, high: Fraction | None, high_open: bool, whole: bool) -> Fraction:
    """The plainest number strictly between, near the limit where there is only one; a limit itself where it must be."""
    if low is None and high is None:
        return ZERO
    towards: Fraction | None = None
    if low is None and high is not None:
        low, low_open, towards = high - (abs(high) / 10 or 2) - whole, True, high
    elif high is None and low is not None:
        high, high_open, towards = low + (abs(low) / 10 or 2) + whole, True, low
    assert low is not None
    assert high is not None
    if low == high:
        return low
    wanted = (low + high) / 2 if towards is None else towards
    for decimals in range(1 if whole else 13):
        scale = 10**decimals
        first, last = math.floor(low * scale) + 1, math.ceil(high * scale) - 1
        if first <= last:
            return Fraction(min(max(round(wanted * scale), first), last), scale)
    if whole and not (low_open and high_open):
        return high if low_open else low
    return (low + high) / 2


def _tidy(rows: Iterable[Row]) -> list[Row] | None:
    """Without doubles and what always holds; None where one never does."""
    tightest: dict[Form, Row] = {}
    for row in rows:
        if not row.terms:
            if row.constant > 0 or (row.strict and row.constant == 0):
                return None
            continue
        held = tightest.setdefault(row.terms, row)  # hashing fractions takes long
        if held is not row and (row.constant, row.strict) > (held.constant, held.strict):
            tightest[row.terms] = row
    if len(tightest) > MOST_ROWS:
        raise TooMuch
    return list(tightest.values())


def _next(rows: list[Row], keep: Collection[str]) -> str | None:
    """The symbol outside `keep` whose elimination makes the fewest new rows."""
    lower: dict[str, int] = {}
    upper: dict[str, int] = {}
    for row in rows:
        for name, share in row.terms:
            side = upper if share.numerator > 0 else lower
            side[name] = side.get(name, 0) + 1
    names = sorted((lower.keys() | upper.keys()) - set(keep))
    return min(names, key=lambda n: lower.get(n, 0) * upper.get(n, 0), default=None)


def _without(rows: list[Row], name: str) -> list[Row] | None:
    result: list[Row] = []
    lower: list[tuple[Linear, bool]] = []
    upper: list[tuple[Linear, bool]] = []
    for row in rows:
        share = next((share for s, share in row.terms if s == name), None)
        if share is None:
            result.append(row)
        else:
            scaled = Linear(row.terms, row.constant).times(1 / abs(share))
            (upper if share > 0 else lower).append((scaled, row.strict))
    if len(lower) * len(upper) > 4 * MOST_ROWS:
        raise TooMuch
    for below, below_strict in lower:
        for above, above_strict in upper:
            result.append(at_most(below.plus(above), below_strict or above_strict))
    return _tidy(result)


def _within(name: str, rows: list[Row], point: Mapping[str, Fraction], whole: bool) -> Fraction:
    low: Fraction | None = None
    high: Fraction | None = None
    low_open = high_open = False
    for row in rows:
        share = next(share for s, share in row.terms if s == name)
        rest = Linear(tuple(t for t in row.terms if t[0] != name), row.constant).at(point)
        limit = -rest / share
        if share > 0 and (high is None or (limit, not row.strict) < (high, not high_open)):
            high, high_open = limit, row.strict
        if share < 0 and (low is None or (limit, row.strict) > (low, low_open)):
            low, low_open = limit, row.strict
    return plain(low, low_open, high, high_open, whole)
