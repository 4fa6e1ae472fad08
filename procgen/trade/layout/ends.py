"""Whether the ends of passages lie on what they are said to open to."""

from __future__ import annotations

from collections.abc import Iterator
from math import dist, hypot, radians

from procgen.model.family import Family, Opening, Passage, Point
from procgen.trade.block import bank_up, cam_centre, cam_radius, clock, clock_at, clock_gap, clock_text
from procgen.trade.finding import Finding, said
from procgen.trade.passages import MEETS, Segment, axis, dot, nearest

SURFACE = 0.05  # mm: half the last digit of a coordinate drawn to 0.1 mm
HOLES = ("block_hole", "second_hole", "blind_stub")
HOLE = 0.3  # mm along the bore: one minute of clock on the largest cam bore is 0.25 mm


def ends_of(family: Family, *kinds: str) -> Iterator[tuple[Passage, Opening, Point, Point]]:
    """Every passage end that opens to one of `kinds`: the passage, the opening, that end and the other end."""
    for passage in family.passages.values():
        for opening, here, there in zip(passage.opens, axis(passage), axis(passage)[::-1], strict=True):
            if opening.kind in kinds:
                yield passage, opening, here, there


def main_ends(family: Family) -> Iterator[Finding]:
    """An end at a main bearing lies on the housing's radius, in the saddle half, within the bearing's width."""
    for passage, opening, here, _ in ends_of(family, "main"):
        subject = (("passage", passage.id), ("main", opening.of))
        if (bore := family.member("main", opening.of, "housing_bore")) is not None:
            off = hypot(here[1], here[2]) - bore / 2
            if abs(off) > SURFACE:
                message = f"{passage.id} ends {said(off, family)} off the housing of main {opening.of}"
                yield Finding("main-end", message, subject)
        if here[2] < 0:
            yield Finding("main-end", f"{passage.id} ends in the cap of main {opening.of}, not in the saddle", subject)
        yield from _within_width(family, passage, here, "main", opening.of)


def cam_ends(family: Family) -> Iterator[Finding]:
    """An end at a cam bearing lies on the block bore (in the groove, where it opens to one), and comes from outside."""
    centre = cam_centre(family)
    for passage, opening, here, there in ends_of(family, "cam", "groove"):
        yield from _within_width(family, passage, here, "cam_bearing", opening.of)
        radius = cam_radius(family, opening.of)
        if radius is None or centre is None:
            continue
        depth = family.member("cam_bearing", opening.of, "groove_depth") if opening.kind == "groove" else 0.0
        off = hypot(here[1] - centre[0], here[2] - centre[1]) - radius
        where = "the groove" if opening.kind == "groove" else "the bore"
        subject = (("passage", passage.id), ("cam_bearing", opening.of))
        if depth is not None and not -SURFACE <= off <= depth + SURFACE:
            message = f"{passage.id} ends {said(off, family)} off {where} of cam bearing {opening.of}"
            yield Finding("cam-end", message, subject)
        line: Segment = ((min(here[0], there[0]), *centre), (max(here[0], there[0]), *centre))
        if nearest((here, there), line).apart < radius - SURFACE and off >= -SURFACE:
            yield Finding("cam-end", f"{passage.id} runs through the bore of cam bearing {opening.of}", subject)


def block_holes(family: Family) -> Iterator[Finding]:
    """Each oil hole of a cam bore is where a passage ends; without a groove, each such end is at a stated hole."""
    centre = cam_centre(family)
    for bearing in family.members.get("cam_bearing", {}):
        radius = cam_radius(family, bearing)
        holes = {name: at for name in HOLES if (at := clock(family, bearing, name)) is not None}
        if radius is None or centre is None or not holes:
            continue
        here = [
            (p, o.kind, clock_at(centre, end)) for p, o, end, _ in ends_of(family, "cam", "groove") if o.of == bearing
        ]
        stray = [
            (passage, end)
            for passage, kind, end in here
            if kind == "cam" and not any(radius * radians(clock_gap(at, end)) <= HOLE for at in holes.values())
        ]
        unmet = [
            (name.replace("_", " "), at)
            for name, at in holes.items()
            if here and not any(radius * radians(clock_gap(at, end)) <= HOLE for _, _, end in here)
        ]
        ends = ", ".join(f"{passage.id} ends at {clock_text(end)}" for passage, end in stray)
        for name, at in unmet:
            said = f"no passage ends at the {name} of cam bearing {bearing}, {clock_text(at)}"
            subject = (("cam_bearing", bearing), *(("passage", passage.id) for passage, _ in stray))
            yield Finding("block-hole", said, subject, f"{ends}: state that, or move it" if ends else "")
        for passage, end in stray if not unmet else ():
            said = f"{passage.id} ends at {clock_text(end)} of cam bearing {bearing}, where no hole is stated"
            yield Finding("block-hole", said, (("passage", passage.id), ("cam_bearing", bearing)))


def deck_ends(family: Family) -> Iterator[Finding]:
    """An end at the deck lies on the plane of one bank's deck."""
    height = family.millimetres("geometry.block_height")
    ups = [up for bank in ("A", "B") if (up := bank_up(family, bank)) is not None]
    for passage, _, here, _ in ends_of(family, "deck"):
        if height is None or not ups:
            continue
        off = min((dot(here, up) - height for up in ups), key=abs)
        if abs(off) > SURFACE:
            message = f"{passage.id} ends {said(off, family)} above the deck"
            yield Finding("deck-end", message, (("passage", passage.id),))


def plug_ends(family: Family) -> Iterator[Finding]:
    """A plug sits on the end of the passage that it closes, and that end says so."""
    for plug in family.plugs.values():
        for closed in plug.closes:
            if (passage := family.passages.get(closed)) is None:
                continue
            subject = (("plug", plug.id), ("passage", closed))
            off, opening = min(
                (dist(plug.at, end), o.kind + o.of) for end, o in zip(axis(passage), passage.opens, strict=True)
            )
            if off > MEETS:
                message = f"plug {plug.id} stands {said(off, family, 3)} off the end of {closed}"
                yield Finding("plug-off-end", message, subject)
            elif opening != "plug" + plug.id:
                yield Finding(
                    "plug-not-named",
                    f"plug {plug.id} stands on an end of {closed} that does not name it",
                    subject,
                    f'write "plug {plug.id}" in the passage\'s opens',
                )


def _within_width(family: Family, passage: Passage, end: Point, each: str, id: str) -> Iterator[Finding]:
    x, width = family.member(each, id, "x"), family.member(each, id, "width")
    if x is not None and width is not None and abs(end[0] - x) > width / 2 + SURFACE:
        yield Finding(
            "end-beside-bearing",
            f"{passage.id} ends {said(abs(end[0] - x), family)} from the middle of {each.replace('_', ' ')} {id}, "
            f"which is {said(width, family)} wide",
            (("passage", passage.id), (each, id)),
        )
