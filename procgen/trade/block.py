"""The block as the family's figures place it: cylinders, bearings, clock positions; None where not yet known.

Seen from the front, clock positions run from 12:00 at the top and the frame's y points left.
"""

from __future__ import annotations

from math import atan2, cos, degrees, radians, sin
from statistics import median

from procgen.model.family import Family, Point, Variant
from procgen.trade.passages import Segment
from procgen.units.quantity import Quantity
from procgen.values import dataclass


@dataclass(frozen=True, slots=True)
class Cylinder:
    """One cylinder: its axis leaves the crank centreline at `x` and points along `up` (a unit vector)."""

    id: str
    bank: str
    x: float
    up: Point

    def at(self, height: float) -> Point:
        """The point on the axis `height` (mm) from the crank centreline."""
        return self.x + height * self.up[0], height * self.up[1], height * self.up[2]


def variants_of(family: Family) -> tuple[Variant | None, ...]:
    """The variants; the family itself where it states none."""
    return family.variants or (None,)


def word(family: Family, each: str, id: str, name: str) -> str | None:
    """A word that a member states ("cut"), or None."""
    fact = family.members.get(each, {}).get(id, {}).get(name)
    return fact.value if fact is not None and isinstance(fact.value, str) else None


def lengths(family: Family, name: str) -> tuple[float, ...]:
    """A stated list of lengths (mm); empty while not yet known."""
    fact = family.facts.get(name)
    return tuple(q.value for q in fact.value) if fact is not None and isinstance(fact.value, tuple) else ()


def member_lengths(family: Family, each: str, id: str, name: str) -> tuple[float, ...]:
    """A list of lengths (mm) that a member states; empty while not yet known."""
    fact = family.members.get(each, {}).get(id, {}).get(name)
    return tuple(q.value for q in fact.value) if fact is not None and isinstance(fact.value, tuple) else ()


def bank_up(family: Family, bank: str, angle: float | None = None) -> Point | None:
    """The unit vector along a bank's cylinders, or its direction at `angle` (deg) from upright.

    Bank A leans to the right seen from the front, which is -y; bank B to the left.
    """
    if angle is None:
        if family.layout.kind == "inline":
            return 0.0, 0.0, 1.0
        if family.layout.kind != "vee" or family.layout.bank_angle is None:
            return None
        angle = family.layout.bank_angle / 2
    if bank not in ("A", "B"):
        return None
    side = -1.0 if bank == "A" else 1.0
    return 0.0, side * sin(radians(angle)), cos(radians(angle))


def cylinders(family: Family) -> tuple[Cylinder, ...]:
    """The cylinders whose bank and place are known."""
    found = []
    for id in family.members.get("cylinder", {}):
        bank, x = word(family, "cylinder", id, "bank"), family.member("cylinder", id, "x")
        up = bank_up(family, bank or "A")
        if x is not None and up is not None and (bank is not None or family.layout.kind == "inline"):
            found.append(Cylinder(id, bank or "A", x, up))
    return tuple(found)


def cam_centre(family: Family) -> tuple[float, float] | None:
    """y and z (mm) of the cam's axis."""
    y, z = family.millimetres("cam.centre.y"), family.millimetres("cam.centre.z")
    return None if y is None or z is None else (y, z)


def cam_radius(family: Family, bearing: str) -> float | None:
    """Radius (mm) of the block's bore at a cam bearing."""
    bore = family.member("cam_bearing", bearing, "block_bore")
    return None if bore is None else bore / 2


def cam_axis(family: Family) -> Segment | None:
    """The cam's axis from the front face to the rear face, or over its bearings where the block's length is unknown."""
    centre = cam_centre(family)
    places = [
        x for id in family.members.get("cam_bearing", {}) if (x := family.member("cam_bearing", id, "x")) is not None
    ]
    rear = family.millimetres("block.length")
    ends = (0.0, rear) if rear is not None else (min(places), max(places)) if places else None
    if centre is None or ends is None:
        return None
    return (ends[0], *centre), (ends[1], *centre)


def clock_at(centre: tuple[float, float], point: Point) -> float:
    """The clock position (deg, 0 to 360) at which a point lies about the axis through `centre` (y, z)."""
    return degrees(atan2(centre[0] - point[1], point[2] - centre[1])) % 360


def clock_gap(first: float, second: float) -> float:
    """The lesser angle (deg, 0 to 180) between two clock positions."""
    return abs((first - second + 180) % 360 - 180)


def clock_text(clock: float) -> str:
    """A clock position (deg) as h:mm to the nearest minute."""
    minutes = round(clock * 2) % 720
    return f"{minutes // 60 or 12}:{minutes % 60:02d}"


def clock(family: Family, bearing: str, name: str) -> float | None:
    """A stated clock position (deg): `block_hole`, `second_hole`, `shell_hole`, `blind_stub`, `loaded`."""
    fact = family.members.get("cam_bearing", {}).get(bearing, {}).get(f"{name}_clock")
    return fact.value.value if fact is not None and isinstance(fact.value, Quantity) else None


def shells(family: Family) -> str | None:
    """The trait `cam.shells`: fitted, none, or None while the author has not said."""
    typed = family.traits.get("cam.shells")
    return typed[0] if typed is not None else None


def middle(name: str, family: Family) -> float | None:
    """The family's own figure, or the middle one of its members'; None while it is not yet known."""
    if (alone := family.millimetres(name)) is not None:
        return alone
    each, _, what = name.partition(".")
    sizes = [size for id in family.members.get(each, {}) if (size := family.member(each, id, what)) is not None]
    return median(sizes) if sizes else None
