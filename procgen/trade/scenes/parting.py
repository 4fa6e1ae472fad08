"""In which of two looks each plug is badged, so that no two badges fall together."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import combinations
from math import dist

from procgen.model.family import Family, Plug
from procgen.trade.scenes.outline import LOOKS, Look

BADGE = 0.03  # of how far the plugs lie apart: two that are nearer than this would share one badge


def parted(family: Family, pair: tuple[str, str]) -> tuple[int, Mapping[str, str]]:
    """In which look of the pair each plug is badged, and how many pairs of badges still fall together.

    Each plug in turn moves to where it falls together with fewer of those that are there, the first look where that is
    the same, until none moves.
    """
    plugs = list(family.plugs.values())
    apart = {look: _apart(plugs, LOOKS[look]) for look in pair}
    where = {plug.id: pair[0] for plug in plugs}

    def together(plug: str, look: str) -> int:
        return sum(frozenset((plug, other)) in apart[look] for other in where if other != plug and where[other] == look)

    for _ in plugs:
        before = dict(where)
        for id in where:
            where[id] = min(pair, key=lambda look: together(id, look))
        if where == before:
            break
    return sum(together(id, look) for id, look in where.items()) // 2, where


def _apart(plugs: list[Plug], look: Look) -> frozenset[frozenset[str]]:
    """Pairs of plugs that fall within one badge of each other; seen from the front, not the two ends of one passage."""
    spots = {plug.id: look.spot(plug.at) for plug in plugs}
    across = max(max(s[axis] for s in spots.values()) - min(s[axis] for s in spots.values()) for axis in (0, 1))
    return frozenset(
        frozenset((one.id, other.id))
        for one, other in combinations(plugs, 2)
        if dist(spots[one.id], spots[other.id]) < BADGE * across
        and not (look.name == "front" and set(one.closes) & set(other.closes))
    )
