"""What it costs when one plug is left out: what starves, and where the oil comes out.

A plug hole is as wide as its passage, so nothing beyond it keeps its pressure; what is fed past it shares the leak.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping

from procgen.model.family import Family, Plug, Point
from procgen.trade.galleys import network, reach, source
from procgen.trade.routes import consumers, in_short, is_placed
from procgen.values import dataclass

ON_FACE = 1.0  # mm that a plug's place may be off the face that it stands on
LONGEST = 8  # words in a table's cell


@dataclass(frozen=True, slots=True)
class Outlet:
    """Where oil comes out, in a few words and in one or two."""

    words: str
    short: str


TIMING = Outlet("behind the timing cover", "timing cover")
FLYWHEEL = Outlet("behind the flywheel", "flywheel")
VALLEY = Outlet("into the valley", "valley")
CHEST = Outlet("into the tappet chest", "tappet chest")
PAN = Outlet("under the pan gasket", "pan gasket")
FRONT = Outlet("at the front", "front")
LEFT, RIGHT = Outlet("outside, left", "outside"), Outlet("outside, right", "outside")
ANYWHERE = Outlet("from its hole", "hole")

COVERS = {
    "timing cover": TIMING, "bell housing": FLYWHEEL, "flywheel": FLYWHEEL, "rear face": FLYWHEEL, "valley": VALLEY,
    "intake": VALLEY, "tappet chest": CHEST, "pan rail": PAN, "pan-rail": PAN, "oil pan": PAN,
}  # fmt: skip
"""What an author says of a plug's place, when it names what covers it; geometry cannot tell what is bolted on."""


@dataclass(frozen=True, slots=True)
class Cost:
    """`starves`: consumers that no other way feeds. `shares`: those fed past the hole, at less pressure.

    `flows`: whether oil comes there at all; from a drilling that ends blind, only what seeps.
    """

    starves: tuple[str, ...]
    shares: tuple[str, ...]
    outlet: Outlet
    flows: bool
    relief: bool = False

    @property
    def is_total(self) -> bool:
        return bool(self.starves) and not self.shares


def cost_of(family: Family, passages: Collection[str], at: Point, where: str = "") -> Cost | None:
    """What a hole in these passages costs; None while the layout does not say."""
    net = network(family)
    start = source(net)
    if start is None or not is_placed(family):
        return None
    holed = {f"passage {id}" for id in passages}
    fed = reach(net, start)
    left = reach(net, start, holed)
    alive = [consumer for consumer in consumers(family) if consumer in fed]
    return Cost(
        tuple(consumer for consumer in alive if consumer not in left),
        tuple(consumer for consumer in alive if consumer in left),
        outlet(family, at, where),
        not holed.isdisjoint(fed),
    )


def forgotten(family: Family, plug: Plug) -> Cost | None:
    """What it costs to leave this plug out. None for one that closes nothing, and while the layout does not say."""
    closed = [id for id in plug.closes if id in family.passages]
    found = cost_of(family, closed, plug.at, plug.where) if closed else None
    if found is None or plug.kind != "relief_valve":
        return found
    return Cost(found.starves, found.shares, found.outlet, found.flows, relief=True)


def if_forgotten(family: Family) -> Mapping[str, str]:
    """For each plug, in at most eight words: "main 1, cam 1 starve; outside, left"."""
    found = {id: forgotten(family, plug) for id, plug in family.plugs.items()}
    return {id: in_words(cost) for id, cost in found.items() if cost is not None}


def in_words(cost: Cost) -> str:
    """The cost in at most eight words."""
    if not cost.flows:
        return f"seepage only; {cost.outlet.words}"
    if cost.is_total:
        return f"no pressure{', no relief' if cost.relief else ' anywhere'}; {cost.outlet.words}"
    many = len(cost.starves)
    alone = many == 1 and not cost.starves[0].startswith("lifters")
    starve = "starves" if alone else "starve"
    said = f"{in_short(cost.starves)} {starve}" if many else "all share the leak"
    said = f"no relief; {said}" if cost.relief else said
    few = f"{many} of {many + len(cost.shares)} {starve}"
    tried = (f"{said}; {cost.outlet.words}", f"{said}; {cost.outlet.short}", f"{few}; {cost.outlet.short}")
    return next((text for text in tried if len(text.split()) <= LONGEST), tried[-1])


def in_a_sentence(cost: Cost) -> str:
    """The cost for a message."""
    if not cost.flows:
        return f"oil would seep out {cost.outlet.words}"
    if cost.is_total:
        return f"nothing would have oil pressure, and oil would come out {cost.outlet.words}"
    starved = f"{in_short(cost.starves)} would starve" if cost.starves else "everything would share the leak"
    return f"{starved}, and oil would come out {cost.outlet.words}"


def outlet(family: Family, at: Point, where: str = "") -> Outlet:
    """Where oil from a hole comes out: by what its author says covers it, else by the face that it stands on."""
    said = where.lower()
    covers = [cover for words, cover in COVERS.items() if words in said]
    return covers[0] if covers else _by_face(family, at)


def _by_face(family: Family, at: Point) -> Outlet:
    x, y, z = at
    rear, rail = family.millimetres("block.length"), family.millimetres("block.pan_rail_z")
    if x < ON_FACE:
        return FRONT
    if rear is not None and x > rear - ON_FACE:
        return FLYWHEEL
    if rail is not None and z < rail + ON_FACE:
        return PAN
    walls = family.facts.get("block.side_walls")
    if walls is not None and isinstance(walls.value, tuple):
        right, left = (wall.value for wall in walls.value)
        if y > left - ON_FACE:
            return LEFT
        if y < right + ON_FACE:
            return RIGHT
    floor = family.millimetres("block.tappet_chest_floor_z")
    if floor is not None and abs(z - floor) < ON_FACE:
        return CHEST
    cam = family.millimetres("cam.centre.z")
    return VALLEY if family.layout.kind == "vee" and cam is not None and z > cam else ANYWHERE
