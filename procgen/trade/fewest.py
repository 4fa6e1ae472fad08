"""How few plugs would let a brush into every passage, beside the advice to take out all of them."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from procgen.model.family import Family, Passage
from procgen.trade.cleaning import LONG, entries_of
from procgen.trade.flushing import flush_way
from procgen.trade.galleys import natural
from procgen.trade.once import once
from procgen.trade.passages import length
from procgen.values import dataclass

Ways = tuple[frozenset[str], ...]
"""Sets of plugs, any of which let a brush in."""


@dataclass(frozen=True, slots=True)
class Fewest:
    """`out`: a smallest set of plugs with which every passage is brushed. `left`: the others, that may not stay."""

    out: tuple[str, ...]
    left: tuple[str, ...]


@once
def fewest_out(family: Family) -> Fewest:
    """A smallest set, found exactly: plugs that a passage has no way round, then ever larger sets of the rest."""
    needs = [ways(family, passage) for passage in family.passages.values()]
    forced = frozenset[str]().union(*(way[0] for way in needs if len(way) == 1))
    open_needs = [way for way in needs if not any(each <= forced for each in way)]
    undecided = sorted(frozenset[str]().union(*(each for way in open_needs for each in way)) - forced, key=natural)
    chosen = next(
        forced | frozenset(more)
        for many in range(len(undecided) + 1)
        for more in combinations(undecided, many)
        if all(any(each <= forced | frozenset(more) for each in way) for way in open_needs)
    )
    return Fewest(
        tuple(id for id in family.plugs if id in chosen), tuple(id for id in family.plugs if id not in chosen)
    )


def ways(family: Family, passage: Passage) -> Ways:
    """The plugs that must be out for this passage: one set for each end a brush can enter by, or both ends together
    where it is brushed from both. Where no brush reaches it, what it is flushed by.
    """
    sets = [frozenset(_plugs(family, entry.opening)) for entry in entries_of(family, passage)]
    if not sets:
        return (frozenset(_plugs(family, *flush_way(family, passage))),)
    if length(passage) > LONG and len(sets) > 1:
        return (sets[0] | sets[1],)
    return tuple(sets)


def all_out_because(family: Family) -> str:
    """Why all come out even so; "" while no passages or plugs are known."""
    if not family.passages or not family.plugs:
        return ""
    left = fewest_out(family).left
    if not left:
        return "each is the only way into some passage"
    return f"behind {_listed(left)} a brush only packs the dirt"


def _plugs(family: Family, *openings: str) -> Iterator[str]:
    for opening in openings:
        kind, _, of = opening.partition(" ")
        if kind == "plug" and of in family.plugs:
            yield of


def _listed(ids: tuple[str, ...]) -> str:
    """ "MS1–MS5, RB-V": those that differ only in a number that runs on are taken together."""
    runs: list[list[str]] = []
    for id in ids:
        last = runs[-1][-1] if runs else ""
        stem = id.rstrip("0123456789")
        follows = stem != id and last.rstrip("0123456789") == stem and last != stem
        if follows and int(id[len(stem) :]) == int(last[len(stem) :]) + 1:
            runs[-1].append(id)
        else:
            runs.append([id])
    return ", ".join(run[0] if len(run) == 1 else f"{run[0]}–{run[-1]}" for run in runs)
