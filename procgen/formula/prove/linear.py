"""Linear forms over named symbols, in exact fractions."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from functools import lru_cache

from procgen.values import dataclass

Form = tuple[tuple[str, Fraction], ...]
"""Symbols with their factors, sorted by symbol, none of them zero."""

ZERO = Fraction(0)
ONE = Fraction(1)


@lru_cache(maxsize=8192)
def exact(number: float) -> Fraction:
    """The decimal that a float stands for: twelve digits, so that 105.69999999999999 is the 105.7 that was meant."""
    return Fraction(format(number, ".12g"))


@dataclass(frozen=True, slots=True)
class Linear:
    """A sum of symbols, each times a number, and a constant."""

    terms: Form
    constant: Fraction

    def plus(self, other: Linear, factor: Fraction = ONE) -> Linear:
        """self + factor * other"""
        if not other.terms:
            return Linear(self.terms, self.constant + factor * other.constant)
        other = other.times(factor)
        sums = dict(self.terms)
        for symbol, share in other.terms:
            sums[symbol] = sums[symbol] + share if symbol in sums else share
        return Linear(sorted_form(sums), self.constant + other.constant)

    def times(self, factor: Fraction) -> Linear:
        if factor == 1:  # by far the most often, and fractions take long
            return self
        if not factor:
            return constant(ZERO)
        if factor == -1:
            return Linear(tuple((s, -share) for s, share in self.terms), -self.constant)
        return Linear(tuple((s, share * factor) for s, share in self.terms), self.constant * factor)

    def at(self, point: Mapping[str, Fraction]) -> Fraction:
        return sum((share * point[symbol] for symbol, share in self.terms), self.constant)

    def replaced(self, symbols: Mapping[str, Linear]) -> Linear:
        """Each symbol that has one, by its linear form."""
        if not any(symbol in symbols for symbol, _ in self.terms):
            return self
        result = Linear(tuple((s, share) for s, share in self.terms if s not in symbols), self.constant)
        for symbol, share in self.terms:
            if symbol in symbols:
                result = result.plus(symbols[symbol], share)
        return result


def constant(number: Fraction) -> Linear:
    return Linear((), number)


def symbol(name: str) -> Linear:
    return Linear(((name, ONE),), ZERO)


def sorted_form(shares: Mapping[str, Fraction] | Iterable[tuple[str, Fraction]]) -> Form:
    return tuple(sorted((s, share) for s, share in dict(shares).items() if share))
