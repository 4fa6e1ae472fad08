"""What a proof is asked about, what it may ask of a family, and what it answers."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Protocol

from procgen.model.formula import Call, Expr
from procgen.values import dataclass

Constant = float | str | tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Case:
    """One branch of a decision; `when` None is `otherwise`."""

    id: str
    when: Expr | None


class Ground(Protocol):
    """What is settled about the names of one decision, for one family, variant and, where it has `each`, one member.

    Numbers are in base units. A name of which nothing is said here is a reading that may show anything.
    """

    def applies(self, name: str) -> bool:
        """False where a trait excludes it: then no comparison with it holds, nor its opposite."""

    def when(self, name: str) -> Expr | None:
        """What must hold for it to apply, where readings have a say in that."""

    def constant(self, name: str) -> Constant | None:
        """A known fact, fixed value or settled trait. Of what there is one for each of something the decision has not
        got, only what all of them share."""

    def call(self, call: Call) -> Constant | None:
        """A listed function whose names are all constants, worked out; None where it cannot be."""

    def definition(self, name: str) -> Expr | None:
        """A value's formula."""

    def unknown(self, name: str) -> bool:
        """The family does not state it yet; whatever depends on it stays open."""

    def options(self, name: str) -> tuple[str, ...] | None:
        """The words of a choice, the values of a trait, the outcomes that an earlier decision can reach."""

    def spread(self, name: str) -> bool:
        """There is one for each of something that the decision has not got: it can only stand under any, all, max..."""

    def bounds(self, name: str) -> tuple[float | None, float | None]:
        """What it can be at all, both ends included: counts and lengths are at least 0."""

    def whole(self, name: str) -> bool:
        """Counted in whole numbers, so that nothing lies between 1 and 2."""


class Remembered:
    """A ground that is asked once for each name: a decision's names recur, and answering may mean working them out."""

    def __init__(self, ground: Ground) -> None:
        self.applies, self.when, self.constant = cache(ground.applies), cache(ground.when), cache(ground.constant)
        self.call, self.definition, self.unknown = ground.call, cache(ground.definition), cache(ground.unknown)
        self.options, self.spread = cache(ground.options), cache(ground.spread)
        self.bounds, self.whole = cache(ground.bounds), cache(ground.whole)


@dataclass(frozen=True, slots=True)
class Proof:
    """Whether every combination of readings finds a branch.

    `status`: "proved"; "gap", with an `example` of what no branch takes; "open", where it hangs on what the family does
    not state yet, or on a proof that grew too large (`waits_for` says which; `example` is then one way it may fail).
    An example names only what matters: whatever else is read, no branch is taken.
    `taken`: ids of the branches that some combination reaches (too few only where the proof grew too large).
    `falls_to_otherwise`: an example of what only `otherwise` takes; None where there is no `otherwise` or nothing does.
    """

    status: str
    example: Mapping[str, float | str]
    waits_for: tuple[str, ...]
    taken: frozenset[str]
    falls_to_otherwise: Mapping[str, float | str] | None


TOO_MANY = "too many combinations"
"""Stands in `waits_for` where the proof was given up."""
