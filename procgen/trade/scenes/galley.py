"""The galley map: passages as tubes, plugs as badges numbered in the order of cleaning, open ports as arrows."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import atan2, degrees, dist

from procgen.model.family import Family, Plug
from procgen.model.scene import Area, Badge, Entry, Label, Path, Scene, Shape, Spot, Tube
from procgen.trade.block import cam_centre
from procgen.trade.passages import axis, length
from procgen.trade.plug_order import plug_numbers
from procgen.trade.scenes.outline import LOOKS, Look, bearings, outline, side_look
from procgen.trade.scenes.parting import parted
from procgen.trade.scenes.ports import ports
from procgen.trade.scenes.view import Given, numbers
from procgen.trade.threads import printed

LENGTHWISE = 0.6  # of the block's length: a passage as long as that names its row


def galley_map(given: Given) -> tuple[Scene, ...]:
    """The two views that part the plugs best; every plug has its badge in one of them."""
    family = given.family
    if not family.plugs or any(outline(given, look) is None for look in LOOKS):
        return ()
    side = side_look(given)
    pairs = ((side, "front"), (side, "plan"), ("plan", "front"))
    found = {pair: parted(family, pair) for pair in pairs}
    pair = min(pairs, key=lambda each: found[each][0])
    _, where = found[pair]
    order = plug_numbers(family)
    shown = {look: [plug for plug in family.plugs.values() if where[plug.id] == look] for look in pair}
    looks = [look for look in pair if shown[look]]
    return tuple(_scene(given, LOOKS[look], shown[look], order, last=look == looks[-1], looks=looks) for look in looks)


def _scene(
    given: Given, look: Look, plugs: list[Plug], order: Mapping[str, int], *, last: bool, looks: list[str]
) -> Scene:
    family = given.family
    edge = outline(given, look.name)
    assert edge is not None
    badges = [_badge(family, look, plug, order[plug.id]) for plug in sorted(plugs, key=lambda plug: order[plug.id])]
    open_ends = list(ports(given, look, looks))
    words = look.words
    if look.name in ("left", "right") and family.layout.kind == "vee":
        words = words.replace("seen", "cut along the middle, seen")
    return Scene(
        id=f"galley-map-{look.name}",
        title="Oil galleys",
        view=words,
        describe=_describe(family, words, plugs, order, [label.words[0] for _, label in open_ends]),
        shapes=(
            *_iron(edge),
            *bearings(given, look.name),
            *_tubes(family, look),
            *(arrow for arrow, _ in open_ends if arrow is not None),
        ),
        labels=(*_rows(given, look, edge), *(label for _, label in open_ends)),
        badges=tuple(badges),
        metal=(edge,),
        legend=_legend(family, order) if last else (),
    )


def _badge(family: Family, look: Look, plug: Plug, number: int) -> Badge:
    """It comes out along the passage that it closes."""
    at = look.spot(plug.at)
    away = None
    for closed in (family.passages[id] for id in plug.closes if id in family.passages):
        far = max((look.spot(end) for end in axis(closed)), key=lambda end: dist(end, at))
        if dist(far, at) > closed.diameter:
            away = degrees(atan2(at[0] - far[0], at[1] - far[1]))
    return Badge(at, str(number), plug.id, away)


def _iron(edge: tuple[Spot, ...]) -> Iterator[Shape]:
    yield Area(edge, "iron")
    yield Path(edge, "outline", closed=True)


def _tubes(family: Family, look: Look) -> Iterator[Shape]:
    """Every passage once: those that lie behind one another are one."""
    seen = set()
    for passage in family.passages.values():
        start, end = (look.spot(point) for point in axis(passage))
        key = frozenset((_rounded(start), _rounded(end))), passage.diameter
        if key not in seen:
            seen.add(key)
            yield Tube(start, end, passage.diameter)


def _rounded(spot: Spot) -> tuple[int, int]:
    return round(spot[0]), round(spot[1])


def _rows(given: Given, look: Look, edge: tuple[Spot, ...]) -> Iterator[Label]:
    """Names of what runs lengthwise, at the left; numbers of bearings in a row; from the front, the banks."""
    family = given.family
    if look.name == "front":
        yield from _banks(given)
        return
    left, bottom, top = min(x for x, _ in edge), min(y for _, y in edge), max(y for _, y in edge)
    rows: dict[int, tuple[float, list[str]]] = {}
    long = given.size("block.length") or 0.0
    for passage in family.passages.values():
        if length(passage) > LENGTHWISE * long:
            height = look.spot(passage.start)[1]
            rows.setdefault(round(height), (height, []))[1].append(passage.id)
    centre = cam_centre(family)
    if centre is not None and family.members.get("cam_bearing"):
        height = look.spot((0.0, *centre))[1]
        rows.setdefault(round(height), (height, []))[1].append("cam")
    if look.name in ("left", "right"):
        housing = next((family.member("main", id, "housing_bore") for id in family.members.get("main", {})), None)
        rows[-1] = (housing / 4 if housing else 0.0, ["main"])
    for height, names in rows.values():
        yield Label((left, height), words=(", ".join(names),), place="left", dot=False, optional=True)
    plugs = [look.spot(plug.at)[1] for plug in family.plugs.values()]
    row, side = min(((bottom, "below"), (top, "above")), key=lambda end: sum(abs(up - end[0]) < 1 for up in plugs))
    for id in family.members.get("main", {}):
        x = family.member("main", id, "x")
        if x is not None:
            at = look.spot((x, 0.0, 0.0))[0], row
            yield Label(at, words=(id,), place="beside", sides=(side,), strong=True, optional=True)


def _banks(given: Given) -> Iterator[Label]:
    if given.family.layout.kind != "vee":
        return
    height, edge = given.size("geometry.block_height"), outline(given, "front")
    if height is None or edge is None:
        return
    for bank, side in (("A", 1), ("B", -1)):
        sine = max(abs(x) for x, _ in edge)
        yield Label((side * sine * 0.68, height * 0.52), figure=bank, place="on", optional=True)


def _legend(family: Family, order: Mapping[str, int]) -> tuple[Entry, ...]:
    """The count, then the numbers that share a thread."""
    threads: dict[str, list[str]] = {}
    for id, number in order.items():
        threads.setdefault(family.plugs[id].thread, []).append(str(number))
    entries = [Entry(str(len(order)), "plugs", large=True)]
    entries += [Entry(numbers(found), printed(thread)) for thread, found in threads.items()]
    return tuple(entries)


def _describe(family: Family, words: str, plugs: list[Plug], order: Mapping[str, int], open_ends: list[str]) -> str:
    shown = "all its" if len(plugs) == len(family.plugs) else f"{len(plugs)} of its {len(family.plugs)}"
    said = [f"The block {words}, with its oil passages and {shown} plugs."]
    said += [f"Plug {order[plug.id]} is {plug.id}, {plug.where}." for plug in sorted(plugs, key=lambda p: order[p.id])]
    said += [f"An open port: {end}." for end in open_ends]
    return " ".join(said)
