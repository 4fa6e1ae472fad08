"""The proof of one decision."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from types import MappingProxyType

from procgen.formula.prove.amounts import Pieces, Symbol
from procgen.formula.prove.conditions import Condition
from procgen.formula.prove.eliminate import TooMuch
from procgen.formula.prove.example import example, unknowns
from procgen.formula.prove.ground import TOO_MANY, Case, Ground, Proof
from procgen.formula.prove.linear import Form
from procgen.formula.prove.reduce import Reduction
from procgen.formula.prove.search import Search
from procgen.formula.prove.space import space
from procgen.model.formula import Expr


def prove(cases: Sequence[Case], ground: Ground, impossible: Sequence[Expr] = ()) -> Proof:
    """Whether some combination of readings finds no branch, and which branches can be taken.

    `impossible` are the author's statements of what cannot be. Comparisons are exact: on the limit
    belongs to <= and >=. What is not linear counts as free to be anything, so that no gap is missed.
    """
    reduction = Reduction(ground)
    whens: list[Condition] = []
    for case in cases:
        whens.append(True if case.when is None else reduction.truth(case.when))
        if whens[-1] is True:
            break  # nothing comes past it
    never = tuple(when for when in map(reduction.truth, impossible) if when is not False)
    return _proved(
        tuple(case.id for case in cases),
        next((n for n, case in enumerate(cases) if case.when is None), None),
        tuple(whens),
        never,
        tuple(reduction.amounts.symbols.values()),
        tuple((form, tuple(named.items())) for form, named in reduction.labels.items()),
    )


def settled(cases: Sequence[Case], ground: Ground) -> str | None:
    """The branch that what is known of the family settles whatever is read; None where readings have a say."""
    reduction = Reduction(ground)
    for case in cases:
        when = True if case.when is None else reduction.truth(case.when)
        if when is not False:
            return case.id if when is True else None
    return None


@lru_cache(maxsize=4096)  # members and variants mostly differ in nothing that a decision asks about
def _proved(
    ids: tuple[str, ...],
    otherwise: int | None,
    whens: tuple[Condition, ...],
    impossible: tuple[Condition, ...],
    symbols: tuple[Symbol, ...],
    labels: tuple[tuple[Form, tuple[tuple[str, Pieces], ...]], ...],
) -> Proof:
    by_name = {one.name: one for one in symbols}
    named = {form: dict(pieces) for form, pieces in labels}
    where = space(whens, impossible, by_name)
    search = Search(where)
    taken: set[str] = set()
    waits: set[str] = set()
    gap: dict[str, float | str] | None = None
    unsure: dict[str, float | str] | None = None
    falls: dict[str, float | str] | None = None
    try:
        for case, region in search.regions():
            if case < len(whens):
                taken.add(ids[case])
                search.closed.add(case)
                if case == otherwise:
                    falls = example(where, region, by_name, named)
            elif hangs_on := unknowns(where, region, by_name):
                waits |= hangs_on
                unsure = unsure or example(where, region, by_name, named)
            else:
                gap = example(where, region, by_name, named)
                search.closed.add(case)
    except TooMuch:
        waits.add(TOO_MANY)
    shown = None if falls is None else MappingProxyType(falls)
    if gap is not None:
        return Proof("gap", MappingProxyType(gap), (), frozenset(taken), shown)
    status = "open" if waits else "proved"
    return Proof(status, MappingProxyType(unsure or {}), tuple(sorted(waits)), frozenset(taken), shown)
