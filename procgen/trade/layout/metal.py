"""Whether enough metal stands between a passage and what it must not open into."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from math import hypot

from procgen.model.family import Family, Passage
from procgen.trade.block import (
    Cylinder,
    bank_up,
    cam_axis,
    cam_centre,
    cam_radius,
    cylinders,
    lengths,
    member_lengths,
    variants_of,
    word,
)
from procgen.trade.finding import Finding, said
from procgen.trade.passages import (
    Segment,
    along,
    axis,
    dot,
    found_meetings,
    length,
    metal_between,
    minus,
    nearest,
    plus,
    stated_meetings,
)
from procgen.units.compare import less
from procgen.units.dimension import LENGTH

BETWEEN_PASSAGES = 2.0  # mm of metal: a drill that wanders 1 mm in a long hole leaves half of it
TO_CYLINDER = 3.0  # mm: the water jacket's wall or the liner lies between, and the bore may be bored off centre
TO_CAM_TUNNEL = 2.0  # mm, as between passages
TO_ROD = 2.0  # mm of air: rods stretch and bearings wear
BIG_END = 8.0  # mm of rod and bolt outside its housing bore; common practice, no source
TO_LIFTER = 1.5  # mm: lifter bores are short and reamed, not drilled long
LIFTER_BITE = 1.0  # mm that a galley must reach into the bores it feeds: less closes with the first varnish


def passages_apart(family: Family) -> Iterator[Finding]:
    """Passages that do not open into each other keep their metal. Those whose axes meet are asked about elsewhere."""
    joined = stated_meetings(family) | found_meetings(family)
    for first, second in combinations(family.passages.values(), 2):
        if frozenset((first.id, second.id)) in joined:
            continue
        metal = metal_between(first, second)
        if less(metal, BETWEEN_PASSAGES, LENGTH):
            hint = "say that they cross, or move one" if metal < 0 else ""
            yield Finding(
                "passages-close",
                f"{_left(metal, family)} between {first.id} and {second.id}, not said to meet",
                (("passage", first.id), ("passage", second.id)),
                hint,
            )


def cylinders_apart(family: Family) -> Iterator[Finding]:
    """No passage comes near a cylinder at its largest oversize, between deck and foot of the bore."""
    bore, height = family.millimetres("geometry.bore"), family.millimetres("geometry.block_height")
    foot = family.millimetres("geometry.bore_bottom")
    if bore is None or height is None or foot is None:
        return
    radius = (bore + max(lengths(family, "oversizes"), default=0.0)) / 2
    for cylinder in cylinders(family):
        for passage in family.passages.values():
            metal = _to_cylinder(passage, cylinder, radius, height - foot, height) - passage.diameter / 2
            if less(metal, TO_CYLINDER, LENGTH):
                yield Finding(
                    "cylinder-close",
                    f"{_left(metal, family)} between {passage.id} and cylinder {cylinder.id} at the largest oversize",
                    (("passage", passage.id), ("cylinder", cylinder.id)),
                )


def cam_tunnel_apart(family: Family) -> Iterator[Finding]:
    """No passage that does not feed the cam comes near its tunnel, taken at the largest bore all along."""
    line = cam_axis(family)
    radii = [r for id in family.members.get("cam_bearing", {}) if (r := cam_radius(family, id)) is not None]
    if line is None or not radii:
        return
    for passage in family.passages.values():
        if any(opening.kind in ("cam", "groove") for opening in passage.opens):
            continue
        metal = nearest(axis(passage), line).apart - passage.diameter / 2 - max(radii)
        if less(metal, TO_CAM_TUNNEL, LENGTH):
            yield Finding(
                "cam-tunnel-close",
                f"{_left(metal, family)} between {passage.id} and the cam tunnel",
                (("passage", passage.id),),
            )


def rod_swing_clear(family: Family) -> Iterator[Finding]:
    """No passage lies where a big end swings: a disc about the crank, as wide as the rod, at each cylinder."""
    strokes = [s for v in variants_of(family) if (s := family.millimetres("geometry.stroke", v)) is not None]
    housing, width = family.millimetres("rods.housing_bore"), family.millimetres("rods.width")
    if not strokes or housing is None or width is None:
        return
    reach = max(strokes) / 2 + housing / 2 + BIG_END
    for cylinder in cylinders(family):
        for passage in family.passages.values():
            ends = sorted(
                (cylinder.x - width / 2 - passage.diameter / 2, cylinder.x + width / 2 + passage.diameter / 2)
            )
            part = _between(axis(passage), *ends)
            if part is None:
                continue
            air = nearest(part, ((ends[0], 0.0, 0.0), (ends[1], 0.0, 0.0))).apart - passage.diameter / 2 - reach
            if less(air, TO_ROD, LENGTH):
                yield Finding(
                    "rod-close",
                    f"{said(air, family)} between {passage.id} and the swing of rod {cylinder.id}",
                    (("passage", passage.id), ("cylinder", cylinder.id)),
                )


def lifters_fed(family: Family) -> Iterator[Finding]:
    """Each lifter bore is cut by its bank's galley, and keeps clear of every other passage."""
    bore, centre = family.millimetres("lifters.bore"), cam_centre(family)
    angle = family.millimetres("lifters.angle")
    for bank in family.members.get("bank", {}):
        galley = family.passages.get(word(family, "bank", bank, "galley") or "")
        up = bank_up(family, bank, angle) if angle is not None else None
        if bore is None or centre is None or galley is None or up is None:
            continue
        # From the cam bore out to a bore's width past the galley: as far as the lifter must be held.
        first = max(
            (r for id in family.members.get("cam_bearing", {}) if (r := cam_radius(family, id)) is not None),
            default=0.0,
        )
        last = dot(minus(galley.start, (galley.start[0], *centre)), up) + bore
        for x in member_lengths(family, "bank", bank, "x"):
            cam = Cylinder("", bank, x, up)
            line = (plus((0.0, *centre), cam.at(first)), plus((0.0, *centre), cam.at(last)))
            subject = ("bank", bank)
            if nearest(axis(galley), line).apart > (bore + galley.diameter) / 2 - LIFTER_BITE:
                yield Finding(
                    "lifter-not-fed",
                    f"{galley.id} misses the lifter bore of bank {bank} at x {said(x, family)}",
                    (("passage", galley.id), subject),
                )
            for passage in family.passages.values():
                metal = nearest(axis(passage), line).apart - (bore + passage.diameter) / 2
                if passage.id != galley.id and less(metal, TO_LIFTER, LENGTH):
                    yield Finding(
                        "lifter-close",
                        f"{_left(metal, family)} between {passage.id} and the lifter bore of bank {bank} "
                        f"at x {said(x, family)}",
                        (("passage", passage.id), subject),
                    )


def _left(metal: float, family: Family) -> str:
    return f"{said(metal, family)} of metal" if metal >= 0 else f"no metal ({said(-metal, family)} cut away)"


def _between(line: Segment, low: float, high: float) -> Segment | None:
    """The part of a segment whose x lies between two planes."""
    start, end = line
    run = end[0] - start[0]
    if abs(run) < 1e-9:
        return line if low <= start[0] <= high else None
    shares = sorted(((low - start[0]) / run, (high - start[0]) / run))
    first, last = max(0.0, shares[0]), min(1.0, shares[1])
    if first > last:
        return None
    whole = hypot(*minus(end, start))
    return along(line, first * whole), along(line, last * whole)


def _to_cylinder(passage: Passage, cylinder: Cylinder, radius: float, low: float, high: float) -> float:
    """Distance (mm) from a passage's axis to a solid cylinder; convex along the axis, so ever closer bounds find it."""
    rough = nearest(axis(passage), (cylinder.at(low), cylinder.at(high))).apart - radius
    if rough > TO_CYLINDER + passage.diameter:
        return rough  # the cylinder lies within this capsule: far enough without a closer look

    def away(distance: float) -> float:
        point = minus(along(axis(passage), distance), cylinder.at(0.0))
        height = dot(point, cylinder.up)
        side = hypot(*minus(point, minus(cylinder.at(height), cylinder.at(0.0))))
        return hypot(max(0.0, side - radius), max(0.0, height - high, low - height))

    left, right = 0.0, length(passage)
    while right - left > 1e-6:
        third = (right - left) / 3
        if away(left + third) <= away(right - third):
            right -= third
        else:
            left += third
    return away(left)
