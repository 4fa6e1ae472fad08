"""Open ends of oil passages: ports to the pump, the filter and the head."""

from __future__ import annotations

from collections.abc import Iterator
from math import atan2, degrees, dist

from procgen.model.family import Opening, Point
from procgen.model.scene import Arrow, Label
from procgen.trade.galleys import network, reach
from procgen.trade.passages import axis
from procgen.trade.scenes.outline import LOOKS, Look
from procgen.trade.scenes.view import Given

PORTS = {
    ("pump", True): "from pump",
    ("pump", False): "to pump",
    ("pickup", True): "from pick-up",
    ("filter_in", False): "to filter",
    ("filter_out", True): "from filter",
    ("deck", False): "to head",
}


def ports(given: Given, look: Look, looks: list[str]) -> Iterator[tuple[Arrow | None, Label]]:
    """Open ends, each in the first of the looks that does not see it end on; where all do, it has no arrow."""
    net = network(given.family)
    sucks = reach(net, "pickup") if "pickup" in net.next else {}
    for passage in given.family.passages.values():
        for opening, here, there in zip(passage.opens, axis(passage), axis(passage)[::-1], strict=True):
            inward = _runs_in(opening, f"passage {passage.id}" in sucks)
            if (opening.kind, inward) not in PORTS:
                continue
            words = PORTS[opening.kind, inward]
            long = [each for each in looks if dist(*map(LOOKS[each].spot, (here, there))) >= passage.diameter / 2]
            if look.name == next(iter(long), looks[0]):
                plain = None, Label(look.spot(here), words=(words,), optional=True)
                yield _port(look, here, there, inward, words) if long else plain


def _runs_in(opening: Opening, sucks: bool) -> bool:
    return opening.kind in ("pickup", "filter_out") or (opening.kind == "pump" and not sucks)


def _port(look: Look, here: Point, there: Point, inward: bool, words: str) -> tuple[Arrow, Label]:
    at, far = look.spot(here), look.spot(there)
    outward = degrees(atan2(at[0] - far[0], at[1] - far[1]))
    arrow = Arrow(at, outward + 180 if inward else outward, from_spot=not inward)
    return arrow, Label(at, words=(words,), dot=False, optional=True)
