"""The oil's way through the block: what joins what, how each bearing is reached, what gets no oil, where nothing flows.

Nodes are words as the author writes openings: "passage MG", "main 1", "cam 1", "groove 1", "filter_out", "deck DF";
and "lifters A" for a bank's lifter bores.
"""

from __future__ import annotations

import re
from collections import defaultdict, deque
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import radians

from procgen.model.family import Family, Opening, Passage, Point
from procgen.trade.block import cam_centre, cam_radius, clock, clock_at, clock_gap, shells, word
from procgen.trade.finding import Finding
from procgen.trade.passages import axis, found_meetings, stated_meetings

SOURCES = ("filter_out", "pump")
"""Where oil for the bearings comes from: clean, where the block holds the port; else straight from the pump."""
UPSTREAM = ("pickup", "pump", "filter_in", "filter_out")
HOLE = 0.3  # mm along the bore within which an end and a hole are the same


@dataclass(frozen=True, slots=True)
class Network:
    """`next`: from each node, the nodes that oil can pass to. `ends`: nodes that it never passes on from."""

    next: Mapping[str, tuple[str, ...]]
    ends: frozenset[str]


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
    if {"filter_in", "filter_out"} <= joined.keys():
        joined["filter_in"].add("filter_out")
    ends = frozenset(node for node in joined if not _passes_on(family, node))
    return Network({node: tuple(sorted(joined[node], key=natural)) for node in sorted(joined, key=natural)}, ends)


def routes(family: Family) -> Mapping[str, tuple[str, ...] | None]:
    """For each main and cam bearing the shortest way for oil to it, from the source on; None where there is none.

    Empty while the passages or the source are not yet known.
    """
    net = network(family)
    source = next((node for node in SOURCES if node in net.next), None)
    if source is None:
        return {}
    came_from = reach(net, source)
    consumers = [f"main {id}" for id in family.members.get("main", {})]
    consumers += [f"cam {id}" for id in family.members.get("cam_bearing", {})]
    return {consumer: _walk(came_from, consumer) for consumer in consumers}


def reach(net: Network, source: str) -> Mapping[str, str]:
    """Every node that oil from `source` comes to, in the order of its coming, with the node it comes from."""
    came_from = {source: ""}
    waiting = deque([source])
    while waiting:
        node = waiting.popleft()
        for following in () if node in net.ends and node != source else net.next[node]:
            if following not in came_from:
                came_from[following] = node
                waiting.append(following)
    return came_from


def without_oil(family: Family) -> Iterator[Finding]:
    """Every main and cam bearing has a way for oil to it. Not asked while a listed passage is not yet placed."""
    if family.members.get("passage", {}).keys() - family.passages.keys():
        return
    for consumer, route in routes(family).items():
        if route is None:
            kind, id = consumer.split()
            yield Finding(
                "no-oil",
                f"no passage brings oil to {kind} bearing {id}",
                (("cam_bearing" if kind == "cam" else kind, id),),
            )


def dead_ends(family: Family) -> tuple[str, ...]:
    """Passages that no oil flows through: at most one of their ends and crossings leads anywhere."""
    net = network(family)
    return tuple(id for id in family.passages if len(net.next[f"passage {id}"]) <= 1)


def differences(family: Family) -> tuple[frozenset[frozenset[str]], frozenset[frozenset[str]]]:
    """Pairs of passages said to meet that do not in the drawing, and pairs that meet there and are not said to."""
    stated, found = stated_meetings(family), found_meetings(family)
    return stated - found, found - stated


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


def _walk(came_from: Mapping[str, str], node: str) -> tuple[str, ...] | None:
    if node not in came_from:
        return None
    way = [node]
    while came_from[way[-1]]:
        way.append(came_from[way[-1]])
    return tuple(reversed(way))
