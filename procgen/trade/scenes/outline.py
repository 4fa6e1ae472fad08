"""The block's outline from its figures, and how the engine is looked at from each side.

The walls beside the cylinders are not stated anywhere; they are drawn as thick as the iron between two bores.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from procgen.model.family import Point
from procgen.model.scene import Arc, Path, Shape, Spot
from procgen.trade.block import bank_up, cam_centre, lengths
from procgen.trade.scenes.view import Given, box
from procgen.values import dataclass


@dataclass(frozen=True, slots=True)
class Look:
    """One way to look at the engine: what of a point is to the right and up, and the words for it."""

    name: str
    words: str
    spot: Callable[[Point], Spot]


LOOKS: Mapping[str, Look] = {
    "right": Look("right", "seen from the right side, front end on the left", lambda p: (p[0], p[2])),
    "left": Look("left", "seen from the left side, front end on the right", lambda p: (-p[0], p[2])),
    "plan": Look("plan", "seen from above, front end on the left", lambda p: (p[0], p[1])),
    "front": Look("front", "seen from the front", lambda p: (-p[1], p[2])),
}


def front_outline(given: Given) -> tuple[Spot, ...] | None:
    """The block seen from the front, clockwise from its lower left; None while its sizes are not yet known."""
    low, high = _walls(given)
    height, rail = given.size("geometry.block_height"), given.size("block.pan_rail_z")
    if height is None or rail is None or low is None or high is None:
        return None
    if given.family.layout.kind == "inline":
        return box(-high, rail, -low, height)
    half, up = half_bank(given), bank_up(given.family, "B")
    if half is None or up is None:
        return None
    sine, cosine = up[1], up[2]
    deck = height * sine, height * cosine
    outer = deck[0] + half * cosine, deck[1] - half * sine
    inner = deck[0] - half * cosine, deck[1] + half * sine
    meets = max((high * cosine - half) / sine, rail)  # where the bank's outer wall comes down on the side wall
    right = [(high, rail), (high, meets), outer, inner, *_valley(given, inner)]
    left = [(-y, z) for y, z in right]
    return (*left, *right[::-1])


def side_look(given: Given) -> str:
    """The side on whose wall more plugs stand."""
    walls = lengths(given.family, "block.side_walls")
    left = sum(plug.at[1] == max(walls, default=0.0) for plug in given.family.plugs.values())
    right = sum(plug.at[1] == min(walls, default=0.0) for plug in given.family.plugs.values())
    return "left" if left > right else "right"


def valley_floor(given: Given) -> float | None:
    """Height (mm) of the valley between two banks; the deck's where there is one bank."""
    outline = front_outline(given)
    if outline is None:
        return None
    if given.family.layout.kind == "inline":
        return max(z for _, z in outline)
    half = len(outline) // 2
    return outline[half - 1][1]


def outline(given: Given, look: str) -> tuple[Spot, ...] | None:
    """The block as a polygon in one of the looks; a side view of a vee is cut along its middle."""
    if look == "front":
        return front_outline(given)
    long, seen = given.size("block.length"), front_outline(given)
    if long is None or seen is None:
        return None
    if look == "plan":
        widest = max(abs(y) for y, _ in seen)
        low, high = _walls(given)
        if given.family.layout.kind == "inline" and low is not None and high is not None:
            return box(0.0, low, long, high)
        return box(0.0, -widest, long, widest)
    reach = (0.0, long) if look == "right" else (-long, 0.0)
    top, rail = valley_floor(given), given.size("block.pan_rail_z")
    assert top is not None
    assert rail is not None
    highest = max((plug.at[2] for plug in given.family.plugs.values()), default=top)
    return box(reach[0], rail, reach[1], max(top, highest))


def bearings(given: Given, look: str) -> tuple[Shape, ...]:
    """Main and cam bearings: rings from the front; from the side and above, as wide as they are."""
    family = given.family
    centre = cam_centre(family)
    found: list[Shape] = []
    axes = {"main": ("housing_bore", (0.0, 0.0)), "cam_bearing": ("block_bore", centre)}
    for each, (size, at) in axes.items():
        for id in family.members.get(each, {}):
            x, width, bore = (family.member(each, id, name) for name in ("x", "width", size))
            if bore is None or at is None:
                continue
            if look == "front":
                start, end = (270.0, 450.0) if each == "main" and given.size("block.pan_rail_z") == 0 else (0.0, 360.0)
                found.append(Arc((-at[0], at[1]), bore / 2, "behind", start, end))
                break
            if x is None or width is None:
                continue
            corners = ((x + s * width / 2, at[0] + s * bore / 2, at[1] + s * bore / 2) for s in (-1, 1))
            low, high = map(LOOKS[look].spot, corners)
            rail = given.size("block.pan_rail_z") or 0.0
            bottom = max(low[1], min(rail, 0.0)) if look != "plan" else low[1]
            found.append(Path(box(min(low[0], high[0]), bottom, max(low[0], high[0]), high[1]), "behind", closed=True))
    return tuple(found)


def _walls(given: Given) -> tuple[float | None, float | None]:
    walls = lengths(given.family, "block.side_walls")
    return (min(walls), max(walls)) if len(walls) == 2 else (None, None)


def half_bank(given: Given) -> float | None:
    bore, spacing = given.size("geometry.bore"), given.family.layout.bore_spacing
    return None if bore is None or spacing is None else spacing - bore / 2


def _valley(given: Given, inner: Spot) -> list[Spot]:
    """From the deck's inner edge down to the middle, through the plugs that stand in the valley (both sides alike)."""
    centre = cam_centre(given.family)
    above = centre[1] if centre is not None else 0.0
    places = [plug.at for plug in given.family.plugs.values() if "valley" in plug.where]
    spots = {(abs(round(y, 3)), z) for _, y, z in places if z > above and abs(y) < inner[0]}
    floor = [spot for spot in sorted(spots, reverse=True) if spot[0] > 0]
    lowest = min((z for _, z in spots), default=inner[1] * 0.85)
    middle = next((z for y, z in sorted(spots) if y == 0), floor[-1][1] if floor else lowest)
    return [*floor, (0.0, middle)]
