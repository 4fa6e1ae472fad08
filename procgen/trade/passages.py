"""Straight drillings as lines with a diameter: how long, how far apart, where and at what angle they meet; in mm."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from math import acos, degrees, dist, hypot, radians, sin, sqrt, tan

from procgen.model.family import Family, Passage, Point
from procgen.values import dataclass

Segment = tuple[Point, Point]

MEETS = 0.01  # mm: axes this near are drawn as meeting; coordinates are rounded to 0.001 mm or 0.0001 in


@dataclass(frozen=True, slots=True)
class Nearest:
    """Where two segments come nearest: `apart`, and how far along each from its start."""

    apart: float
    along_first: float
    along_second: float


@dataclass(frozen=True, slots=True)
class Crossing:
    """Another passage's opening in the wall of this one; distances along this one's axis from the end asked for."""

    other: str
    middle: float
    near_edge: float  # where the opening begins, anywhere round the wall
    far_edge: float


def axis(passage: Passage) -> Segment:
    return passage.start, passage.end


def length(passage: Passage) -> float:
    """Length of a passage's axis (mm), between the two points it is drilled between."""
    return dist(passage.start, passage.end)


def minus(a: Point, b: Point) -> Point:
    return a[0] - b[0], a[1] - b[1], a[2] - b[2]


def plus(a: Point, b: Point) -> Point:
    return a[0] + b[0], a[1] + b[1], a[2] + b[2]


def dot(a: Point, b: Point) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def along(segment: Segment, distance: float) -> Point:
    """The point `distance` (mm) from the start of a segment, on its line even beyond its ends."""
    (x, y, z), to = segment[0], minus(segment[1], segment[0])
    share = distance / hypot(*to)
    return x + share * to[0], y + share * to[1], z + share * to[2]


def nearest(first: Segment, second: Segment) -> Nearest:
    """Where two segments come nearest; either may be a single point.

    The squared distance is a convex quadratic in the two shares s, t along the segments: the best t for a given s,
    held within the segment, and then the best s for that t, is its least over the unit square. Written out in
    coordinates, since every passage is held against every other.
    """
    (x, y, z), (to_x, to_y, to_z) = first
    (other_x, other_y, other_z), (other_to_x, other_to_y, other_to_z) = second
    ux, uy, uz = to_x - x, to_y - y, to_z - z
    vx, vy, vz = other_to_x - other_x, other_to_y - other_y, other_to_z - other_z
    wx, wy, wz = x - other_x, y - other_y, z - other_z
    a, c = ux * ux + uy * uy + uz * uz, vx * vx + vy * vy + vz * vz
    b, d, e = ux * vx + uy * vy + uz * vz, ux * wx + uy * wy + uz * wz, vx * wx + vy * wy + vz * wz
    determinant = a * c - b * b
    s = _share(b * e - c * d, determinant) if determinant > 1e-12 * a * c else 0.0
    t = _share(b * s + e, c)
    s = _share(b * t - d, a)
    apart = dist((x + s * ux, y + s * uy, z + s * uz), (other_x + t * vx, other_y + t * vy, other_z + t * vz))
    return Nearest(apart, s * sqrt(a), t * sqrt(c))


def angle_between(first: Segment, second: Segment) -> float:
    """Acute angle (deg) between the directions of two segments, 0 to 90; 0 where one is a point, without direction."""
    u, v = minus(first[1], first[0]), minus(second[1], second[0])
    if not any(u) or not any(v):
        return 0.0
    return degrees(acos(min(1.0, abs(dot(u, v)) / (hypot(*u) * hypot(*v)))))


def metal_between(first: Passage, second: Passage) -> float:
    """Least metal (mm) between the walls of two passages; below 0 where they break into each other."""
    return nearest(axis(first), axis(second)).apart - (first.diameter + second.diameter) / 2


def stated_meetings(family: Family) -> frozenset[frozenset[str]]:
    """Pairs of passages that the author says are joined, by `crosses` or by an end that opens to the other."""
    pairs = {frozenset((p.id, other)) for p in family.passages.values() for other in p.crosses}
    pairs |= {
        frozenset((p.id, opening.of))
        for p in family.passages.values()
        for opening in p.opens
        if opening.kind == "passage"
    }
    return frozenset(pair for pair in pairs if len(pair) == 2 and pair <= family.passages.keys())


def found_meetings(family: Family) -> frozenset[frozenset[str]]:
    """Pairs of passages whose axes meet in the drawing, whatever the author says of them."""
    return frozenset(
        frozenset((p.id, q.id))
        for p, q in combinations(family.passages.values(), 2)
        if nearest(axis(p), axis(q)).apart <= MEETS
    )


def differences(family: Family) -> tuple[frozenset[frozenset[str]], frozenset[frozenset[str]]]:
    """Pairs of passages said to meet that do not in the drawing, and pairs that meet there and are not said to."""
    stated, found = stated_meetings(family), found_meetings(family)
    return stated - found, found - stated


def crossings(family: Family, passage: Passage, from_end: int = 0) -> tuple[Crossing, ...]:
    """The passages that open into this one's wall, from its start (`from_end` 0) or its end (1) on."""
    return tuple(sorted(_crossings(family, passage, from_end), key=lambda crossing: crossing.near_edge))


def _crossings(family: Family, passage: Passage, from_end: int) -> Iterator[Crossing]:
    line = axis(passage) if from_end == 0 else (passage.end, passage.start)
    for pair in stated_meetings(family):
        if passage.id not in pair:
            continue
        (other,) = pair - {passage.id}
        there = axis(family.passages[other])
        angle = angle_between(line, there)
        if angle < 1:
            continue  # one drilled on in the other's line opens at its end, not in its wall
        middle = nearest(line, there).along_first
        half = _half_width(angle, family.passages[other].diameter, passage.diameter)
        yield Crossing(other, middle, middle - half, middle + half)


def _half_width(angle: float, other_diameter: float, own_diameter: float) -> float:
    """Half the length that a passage takes along another's wall when it meets it at `angle` (deg)."""
    return other_diameter / 2 / sin(radians(angle)) + own_diameter / 2 / tan(radians(angle))


def _share(numerator: float, denominator: float) -> float:
    return max(0.0, min(1.0, numerator / denominator)) if denominator > 0 else 0.0
