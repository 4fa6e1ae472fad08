"""How deep a plug's nose goes, and how deep it may go before it shuts what opens behind it."""

from __future__ import annotations

from math import dist, floor

from procgen.model.family import Family, Passage, Plug
from procgen.trade.passages import axis, crossings, length
from procgen.trade.threads import ThreadError, parse
from procgen.values import dataclass

LEAST_TURNS, MOST_TURNS = 2, 3  # past hand-tight; common practice, no source
OUT_OF_REACH = 3  # times as deep as three turns take a plug, or as a straight one is thick, none reaches; likewise
PART_TURN = 0.5  # turns are counted by halves


@dataclass(frozen=True, slots=True)
class Nose:
    """Depths (mm) below the face: `room` to the near edge of `behind`, the first that opens behind the plug: a
    passage's id, or what the far end opens to.

    `least` and `most`: where the nose comes, at two and three turns past hand-tight; None for a straight plug whose
    length is not yet known.
    """

    room: float
    behind: str
    least: float | None
    most: float | None


def nose(family: Family, plug: Plug) -> Nose | None:
    """The tightest case among the passages that a plug closes; None where it closes none that is known."""
    closed = [family.passages[id] for id in plug.closes if id in family.passages]
    found = [Nose(*_room(family, passage, plug), *_depths(plug)) for passage in closed]
    return min(found, key=lambda each: each.room, default=None)


def reach(family: Family, plug: Plug) -> float | None:
    """How deep (mm) below the face a plug's nose may come; None where no plug of its thread is long enough to matter.

    ThreadError where the thread is not one of a listed kind.
    """
    found, thread = nose(family, plug), parse(plug.thread)
    if found is None:
        return None
    deep = thread.major if thread.hand_tight is None else thread.hand_tight + MOST_TURNS * thread.pitch
    return found.room if found.room < OUT_OF_REACH * deep or (plug.length or 0) > found.room else None


def turns_most(family: Family, plug: Plug) -> float | None:
    """Turns past hand-tight after which a taper plug stops, in halves and never more than three; None for a straight
    plug, which stops on its washer.

    ThreadError where the thread is not one of a listed kind.
    """
    thread, found = parse(plug.thread), nose(family, plug)
    if thread.hand_tight is None:
        return None
    if found is None or _is_short(plug, found.room):
        return float(MOST_TURNS)
    free = (found.room - thread.hand_tight) / thread.pitch
    return max(0.0, min(float(MOST_TURNS), floor(free / PART_TURN + 1e-9) * PART_TURN))


def _room(family: Family, passage: Passage, plug: Plug) -> tuple[float, str]:
    start, end = axis(passage)
    near = 0 if dist(plug.at, start) <= dist(plug.at, end) else 1
    opened = crossings(family, passage, near)
    if opened:
        return opened[0].near_edge, opened[0].other
    return length(passage), str(passage.opens[1 - near])


def _is_short(plug: Plug, room: float) -> bool:
    """Whether a plug cut short can't reach that deep, however far it is turned."""
    return plug.length is not None and plug.length <= room


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
