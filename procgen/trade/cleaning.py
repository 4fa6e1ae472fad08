"""The plan by which oil passages are brushed: what comes out first, from where, with what, in which order.

Sizes of brushes and rods are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from procgen.model.family import Family, Opening, Passage, Point
from procgen.trade.block import shells
from procgen.trade.drills import largest_not_over
from procgen.trade.flushing import flush_way
from procgen.trade.galleys import UPSTREAM, dead_ends, is_blind, natural, network, reach
from procgen.trade.once import once
from procgen.trade.passages import Segment, angle_between, axis, length, nearest
from procgen.values import dataclass

ROD_UNDER = 0.2  # mm under the largest drill that enters
BRUSH_LEAST, BRUSH_MOST = 1.10, 1.25  # times the passage
OVERLAP = 50.0  # mm that a brush reaches beyond the passage, or beyond its middle from each end
LONG = 300.0  # mm: the longest passage that is brushed well from one end
IN_LINE = 0.5  # mm and degrees that two drillings may be off and still pass one straight rod


@dataclass(frozen=True, slots=True)
class Entry:
    """Where a straight brush goes in: the opening it passes first, and what it then runs through, nearest first."""

    opening: str  # "plug MG-F", "main 1", "deck"
    through: tuple[str, ...] = ()  # "passage KO1", "cam 1"


@dataclass(frozen=True, slots=True)
class PassagePlan:
    """One passage, mm. No entry: nothing straight reaches it, it is flushed and hooked only."""

    order: int
    passage: str
    diameter: float
    length: float
    out: tuple[str, ...]  # "plug MG-F", "relief valve RV", "cam shell 1", "main shell 1"
    entries: tuple[Entry, ...]  # one, or two where it is brushed from both ends
    flush: tuple[str, str]  # the openings between which it is flushed, upstream first
    brush: tuple[float, float]  # least and most
    brush_length: float  # from each entry
    rod: float
    rod_drill: str  # the drill that it was found from
    dead_end: bool

    @property
    def from_both_ends(self) -> bool:
        return len(self.entries) == 2

    @property
    def overlap(self) -> float:
        """How far (mm) the strokes from two ends overlap in the middle; 0 where it is brushed from one."""
        return 2 * self.brush_length - self.length if self.from_both_ends else 0.0


@once
def cleaning_plan(family: Family) -> tuple[PassagePlan, ...]:
    """Every passage, from upstream to downstream: what is washed out of one lands in one that is still to be cleaned.

    So one that a brush must run through comes after the one beyond it, whose dirt the brush draws back through it.
    What oil never reaches is last.
    """
    stubs = dead_ends(family)
    return tuple(
        _plan(family, family.passages[id], order, id in stubs) for order, id in enumerate(_order(family), start=1)
    )


def _plan(family: Family, passage: Passage, order: int, dead_end: bool) -> PassagePlan:
    long = length(passage)
    entries = entries_of(family, passage)[: 2 if long > LONG else 1]
    drill = largest_not_over(passage.diameter)
    out = [_out(family, opening, end) for opening, end in zip(passage.opens, axis(passage), strict=True)]
    for entry in entries:
        out += [_thing(family, *place.partition(" ")[::2]) for place in (*entry.through, entry.opening)]
    return PassagePlan(
        order, passage.id, passage.diameter, long, tuple(dict.fromkeys(filter(None, out))), entries,
        flush_way(family, passage),
        (BRUSH_LEAST * passage.diameter, BRUSH_MOST * passage.diameter),
        (long / 2 if len(entries) == 2 else long) + OVERLAP, drill.size - ROD_UNDER, drill.name, dead_end,
    )  # fmt: skip


def entries_of(family: Family, passage: Passage) -> tuple[Entry, ...]:
    """Ends that a straight brush can enter by, those that need nothing else to be passed first."""
    lines = (axis(passage), axis(passage)[::-1])
    found = [e for o, line in zip(passage.opens, lines, strict=True) for e in _enter(family, passage, o, line)]
    return tuple(sorted(found, key=lambda entry: len(entry.through)))


def _enter(family: Family, passage: Passage, opening: Opening, inward: Segment) -> Iterator[Entry]:
    if opening.kind in ("plug", "deck", "open", *UPSTREAM) or (opening.kind == "main" and _open_below(family, inward)):
        yield Entry(str(opening))
    elif opening.kind in ("cam", "groove"):
        beyond = _in_line_across(family, passage, opening)
        if beyond is not None:
            other, far_end = beyond
            yield Entry(str(far_end), (f"passage {other.id}", str(opening)))


def _in_line_across(family: Family, passage: Passage, opening: Opening) -> tuple[Passage, Opening] | None:
    """A passage on the other side of the cam bore that was drilled in one line with this one, open at its far end."""
    for other in family.passages.values():
        near = [n for n, o in enumerate(other.opens) if o.kind in ("cam", "groove") and o.of == opening.of]
        if other.id == passage.id or not near or other.diameter < passage.diameter:
            continue
        far = other.opens[1 - near[0]]
        off = max(_off_line(axis(passage), end) for end in axis(other))
        in_line = off <= IN_LINE and angle_between(axis(passage), axis(other)) <= IN_LINE
        if in_line and far.kind in ("plug", "deck", "open", *UPSTREAM):
            return other, far
    return None


def _off_line(line: Segment, point: tuple[float, float, float]) -> float:
    """Distance (mm) of a point from the line drawn on without end."""
    (ax, ay, az), (bx, by, bz) = line
    far = tuple((a + 1000 * (a - b), b + 1000 * (b - a)) for a, b in ((ax, bx), (ay, by), (az, bz)))
    endless: Segment = ((far[0][0], far[1][0], far[2][0]), (far[0][1], far[1][1], far[2][1]))
    return nearest((point, point), endless).apart


def _open_below(family: Family, inward: Segment) -> bool:
    """Whether a rod can come straight up into a main's oil hole, caps and crank out, past the block's skirts."""
    (_, y, z), (_, far_y, far_z) = inward
    if far_z <= z:
        return False
    rail = family.millimetres("block.pan_rail_z")
    below = min(0.0 if rail is None else rail, 0.0)
    at_rail = y + (below - z) * (far_y - y) / (far_z - z)
    walls = family.facts.get("block.side_walls")
    if walls is None or not isinstance(walls.value, tuple):
        return True
    low, high = (wall.value for wall in walls.value)
    return low < at_rail < high


def _out(family: Family, opening: Opening, end: Point) -> str:
    """What must come out of this end. A shell whose oil hole stands over the end may stay: it is flushed through."""
    is_open = opening.kind == "cam" and hole_in_shell(family, opening) is not None
    return "" if is_open and not is_blind(family, opening, end) else _thing(family, opening.kind, opening.of)


def hole_in_shell(family: Family, opening: Opening) -> float | None:
    """Diameter (mm) of the oil hole in the shell that a passage end opens to; None while it is not known."""
    return family.member("cam_bearing", opening.of, "shell_hole_diameter")


def _thing(family: Family, kind: str, of: str) -> str:
    """What stands in an opening and must come out; "" where nothing does."""
    if kind == "plug":
        plug = family.plugs.get(of)
        return f"relief valve {of}" if plug is not None and plug.kind == "relief_valve" else f"plug {of}"
    if kind in ("cam", "groove") and shells(family) != "none":
        return f"cam shell {of}"
    return f"main shell {of}" if kind == "main" else ""


def _order(family: Family) -> tuple[str, ...]:
    """Passage ids in the order of cleaning: as oil comes to them, then what it never comes to."""
    net = network(family)
    coming: dict[str, None] = {}
    for port in UPSTREAM:
        if port in net.next:
            coming.update(dict.fromkeys(reach(net, port)))
    flowing = [node.removeprefix("passage ") for node in coming if node.startswith("passage ")]
    rest = sorted(family.passages.keys() - set(flowing), key=natural)
    ordered: list[str] = []
    waiting = [*flowing, *rest]
    beyond = {id: _beyond(family, id) for id in waiting}
    while waiting:
        free = (id for id in waiting if not any(id in beyond[other] for other in waiting if other != id))
        ordered.append(next(free, waiting[0]))
        waiting.remove(ordered[-1])
    return tuple(ordered)


def _beyond(family: Family, id: str) -> frozenset[str]:
    """Passages that the brush for this one runs through."""
    best = entries_of(family, family.passages[id])[:1]
    steps = (step for entry in best for step in entry.through)
    return frozenset(step.removeprefix("passage ") for step in steps if step.startswith("passage "))
