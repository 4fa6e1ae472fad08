"""Between which openings a passage is flushed: its own ends, or the nearest opening of what it ends in."""

from __future__ import annotations

from collections import deque
from math import dist

from procgen.model.family import Family, Opening, Passage, Point
from procgen.trade.galleys import network, reach, source
from procgen.trade.passages import axis, stated_meetings


def flush_way(family: Family, passage: Passage) -> tuple[str, str]:
    """The openings, all plugs and bearings out: the one nearer to where oil comes in first. Both alike at a dead end
    whose other end nothing opens; "" where there is none at all.
    """
    ends = zip(passage.opens, axis(passage), strict=True)
    first, last = (_open_from(family, passage, opening, end) for opening, end in ends)
    first, last = first or last, last or first
    return (last, first) if _comes_later(family, passage) else (first, last)


def _open_from(family: Family, passage: Passage, opening: Opening, end: Point) -> str:
    """The opening by which fluid enters or leaves at this end: its own, or the nearest of the passages it ends in."""
    if opening.kind != "passage":
        return str(opening)
    seen, waiting = {passage.id}, deque([opening.of])
    while waiting:
        here = waiting.popleft()
        if here in seen or here not in family.passages:
            continue
        seen.add(here)
        joined = family.passages[here]
        away = {
            str(o): dist(far, end) for o, far in zip(joined.opens, axis(joined), strict=True) if o.kind != "passage"
        }
        if away:
            return min(away, key=away.__getitem__)
        waiting += sorted(id for pair in stated_meetings(family) if here in pair for id in pair - {here})
    return ""


def _comes_later(family: Family, passage: Passage) -> bool:
    """Whether oil comes to this passage from its far end, as from a port or the passage that feeds it there."""
    net = network(family)
    start = source(net)
    if start is None:
        return False
    before = reach(net, start).get(f"passage {passage.id}", "")
    near, far = (str(opening) for opening in passage.opens)
    return before == far and before != near
