"""The way of the oil to everything that needs it, from where it comes into the block."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from procgen.model.family import Family
from procgen.trade.block import word
from procgen.trade.finding import Finding
from procgen.trade.galleys import network, reach, source
from procgen.trade.once import once
from procgen.trade.passages import differences

Route = tuple[str, ...]
KINDS = {"main": "main", "cam": "cam_bearing", "lifters": "bank", "deck": "passage"}
"""What needs oil, and what it is one of in a family's file."""


def consumers(family: Family) -> tuple[str, ...]:
    """All that must get oil: "main 1", "cam 1", "lifters A" for a bank's lifter galley, "deck DF" for an outlet."""
    found = [f"main {id}" for id in family.members.get("main", {})]
    found += [f"cam {id}" for id in family.members.get("cam_bearing", {})]
    found += [f"lifters {id}" for id in family.members.get("bank", {}) if word(family, "bank", id, "galley")]
    found += [f"deck {p.id}" for p in family.passages.values() if any(o.kind == "deck" for o in p.opens)]
    return tuple(found)


@once
def routes(family: Family) -> Mapping[str, Route | None]:
    """For each consumer the way with the fewest turns, from the pick-up, pump or filter on; None where there is none.

    Empty while the passages, or where oil comes in, are not yet known.
    """
    net = network(family)
    start = source(net)
    if start is None:
        return {}
    came_from = reach(net, start)
    return {consumer: _walk(came_from, consumer) for consumer in consumers(family)}


def is_placed(family: Family) -> bool:
    """Whether every listed passage is drawn, so that what is not joined is truly not joined."""
    return bool(family.passages) and not family.members.get("passage", {}).keys() - family.passages.keys()


def without_oil(family: Family) -> Iterator[Finding]:
    """Everything that needs oil has a way for it. Not asked while a listed passage is not yet placed, nor where the
    drawing joins passages that the file does not: that is to be settled first.
    """
    _, unsaid = differences(family)
    if unsaid or not is_placed(family):
        return
    for consumer, route in routes(family).items():
        if route is None:
            kind, id = consumer.split()
            yield Finding("no-oil", f"no passage brings oil to {_called(family, kind, id)}", ((KINDS[kind], id),))


def fed_by(family: Family, consumer: str) -> str | None:
    """The route in short, from the filter on: "FO, MG, M1, main 1, C1"; None where there is none."""
    route = routes(family).get(consumer)
    if route is None:
        return None
    after = route.index("filter_out") + 1 if "filter_out" in route else 1
    return ", ".join(node.removeprefix("passage ") for node in route[after:-1])


def in_short(all_of_them: Iterable[str]) -> str:
    """Consumers as people list them: "mains 1–5, cam 2, lifters A, B, DF"."""
    by_kind: dict[str, list[str]] = {}
    for consumer in all_of_them:
        kind, _, id = consumer.partition(" ")
        by_kind.setdefault(kind, []).append(id)
    return ", ".join(_kind_in_short(kind, ids) for kind, ids in by_kind.items())


def _kind_in_short(kind: str, ids: list[str]) -> str:
    numbers = [int(id) for id in ids if id.isdigit()]
    run = len(ids) > 2 and numbers == list(range(numbers[0], numbers[0] + len(ids)))
    listed = f"{ids[0]}–{ids[-1]}" if run else ", ".join(ids)
    if kind == "deck":
        return listed
    return f"{kind}s {listed}" if len(ids) > 1 and kind in ("main", "cam") else f"{kind} {listed}"


def _called(family: Family, kind: str, id: str) -> str:
    match kind:
        case "lifters":
            return f"the lifters of bank {id}, by {word(family, 'bank', id, 'galley')}"
        case "deck":
            return f"{id}, which opens at the deck"
        case _:
            return f"{kind} bearing {id}"


def _walk(came_from: Mapping[str, str], node: str) -> Route | None:
    if node not in came_from:
        return None
    way = [node]
    while came_from[way[-1]]:
        way.append(came_from[way[-1]])
    return tuple(reversed(way))
