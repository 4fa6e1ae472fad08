"""The oil's way through the block as a network: what joins what, where oil goes on, where nothing flows.

Nodes are words as the author writes openings: "passage MG", "main 1", "cam 1", "groove 1", "filter_out", "deck DF";
and "lifters A" for a bank's lifter bores.
"""

from __future__ import annotations

import re
from collections import defaultdict, deque
from collections.abc import Collection, Mapping
from itertools import pairwise
from math import radians

from procgen.model.family import Family, Opening, Passage, Point
from procgen.trade.block import cam_centre, cam_radius, clock, clock_at, clock_gap, shells, word
from procgen.trade.once import once
from procgen.trade.passages import axis, stated_meetings
from procgen.values import dataclass

UPSTREAM = ("pickup", "pump", "filter_in", "filter_out")
"""Ports in the order in which oil comes to them. The first that the block holds is where it begins."""
SOURCES = ("filter_out", "pump")
"""Where oil for the bearings comes from: clean, where the block holds the port; else straight from the pump."""
HOLE = 0.3  # mm along the bore within which an end and a hole are the same


@dataclass(frozen=True, slots=True)
class Network:
    """`next`: from each node, the nodes that oil can pass to. `ends`: nodes that it never passes on from."""

    next: Mapping[str, tuple[str, ...]]
    ends: frozenset[str]


@once
def network(family: Family) -> Network:
    """What the author says joins what, with bearings, grooves, filter and lifters between the passages."""
    joined: dict[str, set[str]] = defaultdict(set)

    def join(first: str, second: str) -> None:
        joined[first].add(second)
        joined[second].add(first)

    for first, second in map(sorted, stated_meetings(family)):
        join(f"passage {first}", f"passage {second}")
    for passage in family.passages.values():
        joined[f"passage {passage.id}"]  # a passage that nothing joins is a node too
        for opening, end in zip(passage.opens, axis(passage), strict=True):
            if opening.kind == "deck":
                join(f"passage {passage.id}", f"deck {passage.id}")
            elif opening.kind in ("main", "groove", *UPSTREAM) or (
                opening.kind == "cam" and not is_blind(family, opening, end)
            ):
                join(f"passage {passage.id}", str(opening))
    for node in [node for node in joined if node.startswith("groove ")]:
        join(node, node.replace("groove", "cam"))
    for bank in family.members.get("bank", {}):
        if (galley := word(family, "bank", bank, "galley")) in family.passages:
            join(f"passage {galley}", f"lifters {bank}")
    ends = frozenset(node for node in joined if not _passes_on(family, node))
    ports = [port for port in UPSTREAM if port in joined]
    for port, following in pairwise(ports):
        if following not in reach(_sorted(joined, ends), port):
            joined[port].add(following)  # outside the block: through pump, cover or filter
    return _sorted(joined, ends)


def source(net: Network) -> str | None:
    """Where oil begins: at the pick-up, the pump or the filter, whichever comes first in the block."""
    return next((port for port in UPSTREAM if port in net.next), None)


def reach(net: Network, start: str, without: Collection[str] = ()) -> Mapping[str, str]:
    """Every node that oil from `start` comes to, in the order of its coming, with the node it comes from.

    `without`: nodes taken away, to see what hangs on them.
    """
    came_from = {start: ""} if start not in without else {}
    waiting = deque(came_from)
    while waiting:
        node = waiting.popleft()
        for following in () if node in net.ends and node != start else net.next[node]:
            if following not in came_from and following not in without:
                came_from[following] = node
                waiting.append(following)
    return came_from


def dead_ends(family: Family) -> tuple[str, ...]:
    """Passages that no oil flows through: at most one of their ends and crossings leads anywhere."""
    net = network(family)
    return tuple(id for id in family.passages if len(net.next[f"passage {id}"]) <= 1)


def is_blind(family: Family, opening: Opening, end: Point) -> bool:
    """Whether an end at a cam bearing is covered by the shell: it is at no oil hole, and another end there is.

    False while the holes are not yet known, and where no end is at a hole: then drawing and holes are at odds, which
    is not this end's fault.
    """
    if shells(family) == "none" or opening.kind != "cam":
        return False
    at_hole = [
        _at_hole(family, opening.of, other_end)
        for passage in family.passages.values()
        for other, other_end in zip(passage.opens, axis(passage), strict=True)
        if other.kind == "cam" and other.of == opening.of
    ]
    return any(at_hole) and not _at_hole(family, opening.of, end)


def _at_hole(family: Family, bearing: str, end: Point) -> bool:
    """Whether an end lies at one of the oil holes that a cam bearing states."""
    centre, radius = cam_centre(family), cam_radius(family, bearing)
    holes = [at for name in ("block_hole", "second_hole") if (at := clock(family, bearing, name)) is not None]
    if centre is None or radius is None:
        return False
    return any(radius * radians(clock_gap(clock_at(centre, end), hole)) <= HOLE for hole in holes)


def blind_ends(family: Family) -> tuple[tuple[Passage, Opening], ...]:
    """Passage ends that a cam shell covers."""
    return tuple(
        (passage, opening)
        for passage in family.passages.values()
        for opening, end in zip(passage.opens, axis(passage), strict=True)
        if is_blind(family, opening, end)
    )


def _sorted(joined: Mapping[str, set[str]], ends: frozenset[str]) -> Network:
    return Network({node: tuple(sorted(joined[node], key=natural)) for node in sorted(joined, key=natural)}, ends)


def natural(text: str) -> tuple[tuple[int, str], ...]:
    """A sorting key by which D2 comes before D10."""
    return tuple((int(part), "") if part.isdigit() else (-1, part) for part in re.split(r"(\d+)", text) if part)


def _passes_on(family: Family, node: str) -> bool:
    """Oil goes on from a main through its saddle's groove, from a cam bearing only to a second hole."""
    kind, _, id = node.partition(" ")
    if kind == "main":
        return word(family, "main", id, "saddle_groove") != "none"
    if kind == "cam":
        return clock(family, id, "second_hole") is not None
    return True
