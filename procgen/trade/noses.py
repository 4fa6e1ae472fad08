"""How deep a plug's nose goes, and how deep it may go before it shuts what opens behind it."""

from __future__ import annotations

from dataclasses import dataclass
from math import dist

from procgen.model.family import Family, Plug
from procgen.trade.passages import axis, crossings
from procgen.trade.threads import ThreadError, parse

LEAST_TURNS, MOST_TURNS = 2, 3  # past hand-tight; common practice, no source


@dataclass(frozen=True, slots=True)
class Nose:
    """Depths (mm) below the face: `room` to the near edge of `behind`, the first passage that opens behind the plug.

    `least` and `most`: where the nose comes, at two and three turns past hand-tight; None for a straight plug whose
    length is not yet known.
    """

    room: float
    behind: str
    least: float | None
    most: float | None


def nose(family: Family, plug: Plug) -> Nose | None:
    """The tightest case among the passages that a plug closes; None where nothing opens behind it."""
    found = []
    for closed in plug.closes:
        if (passage := family.passages.get(closed)) is None:
            continue
        start, end = axis(passage)
        opened = crossings(family, passage, 0 if dist(plug.at, start) <= dist(plug.at, end) else 1)
        if opened:
            found.append(Nose(opened[0].near_edge, opened[0].other, *_depths(plug)))
    return min(found, key=lambda each: each.room, default=None)


def _depths(plug: Plug) -> tuple[float | None, float | None]:
    """A taper plug goes as deep as its thread engages, or as its own length if cut short; a straight one its length."""
    try:
        thread = parse(plug.thread)
    except ThreadError:
        return None, None
    if not thread.is_taper:
        return plug.length, plug.length
    least, most = (thread.engagement(turns) for turns in (LEAST_TURNS, MOST_TURNS))
    if least is None or most is None or plug.length is None:
        return least, most
    return min(least, plug.length), min(most, plug.length)
