"""Cam bearings as clock faces: where oil comes in, where the shell's hole must stand, where the load is."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import atan2, degrees, hypot

from procgen.model.family import Family, Opening, Passage
from procgen.model.scene import Arc, Area, Arrow, Band, Label, Mark, Path, Scene, Shape, Spot, Tube
from procgen.trade.block import cam_centre, cam_radius, clock, clock_at, clock_gap, clock_text, shells
from procgen.trade.galleys import SOURCES, is_blind, network, reach
from procgen.trade.layout.ends import ends_of
from procgen.trade.oiling import clock_error_max
from procgen.trade.scenes.view import Given, around, disc, numbers
from procgen.trade.traits import BOTTOM
from procgen.values import dataclass

IRON = 8.0  # mm of the block shown round the bore
BEYOND = 4.0  # mm that a drilling is shown beyond that
SAME = 3.0  # degrees within which a drawn end and a stated hole are one
CENTRE = (0.0, 0.0)
HOURS = {"12": 0, "3": 90, "6": 180, "9": 270}


@dataclass(frozen=True, slots=True)
class Mouth:
    """Where a drilling opens into the bore. `away`: clock angle in which it leaves."""

    clock: float
    diameter: float
    away: float
    words: str


@dataclass(frozen=True, slots=True)
class Face:
    """One bearing as the card needs it; sizes mm, angles deg."""

    bearing: str
    bore: float
    journal_bore: float | None  # inside the shell
    groove: float  # depth behind the shell, 0 for none
    mouths: tuple[Mouth, ...]
    hole: tuple[float, float] | None  # the shell's: clock, diameter
    loaded: float
    slack: float | None  # degrees that the shell may be off

    @property
    def alike(self) -> tuple[object, ...]:
        """What must be the same for two positions to share a drawing: everything but their sizes."""
        mouths = tuple((round(mouth.clock), mouth.words) for mouth in self.mouths)
        hole = None if self.hole is None else round(self.hole[0])
        return mouths, hole, round(self.loaded), self.groove > 0, self.slack is None


def cam_clock(given: Given) -> tuple[Scene, ...]:
    """One face for all positions that are alike."""
    net = network(given.family)
    source = next((node for node in SOURCES if node in net.next), None)
    came_from = reach(net, source) if source is not None else {}
    alike: dict[tuple[object, ...], list[Face]] = {}
    for bearing in given.family.members.get("cam_bearing", {}):
        if (face := _face(given, bearing, came_from)) is not None:
            alike.setdefault(face.alike, []).append(face)
    return tuple(_scene(faces) for faces in alike.values())


def _face(given: Given, bearing: str, came_from: Mapping[str, str]) -> Face | None:
    family = given.family
    radius = cam_radius(family, bearing)
    mouths = tuple(_mouths(family, bearing, came_from))
    if radius is None or not mouths:
        return None
    fitted = shells(family) == "fitted"
    at, across = clock(family, bearing, "shell_hole"), family.member("cam_bearing", bearing, "shell_hole_diameter")
    depth = family.member("cam_bearing", bearing, "groove_depth") or 0.0
    hole = (at, across) if fitted and at is not None and across is not None else None
    stated = clock(family, bearing, "loaded")
    inside = family.member("cam_bearing", bearing, "bore_installed")
    slack = None if depth else _slack(given, bearing, radius, across if hole else None)
    return Face(bearing, 2 * radius, inside if fitted else None, depth, mouths, hole,
                BOTTOM if stated is None else stated, slack)  # fmt: skip


def _slack(given: Given, bearing: str, radius: float, across: float | None) -> float | None:
    """How far the shell may be turned off, to a tenth of a degree; None where the shop states no least overlap."""
    block, overlap = given.family.member("cam_bearing", bearing, "block_hole_diameter"), given.rules.get("overlap_min")
    if across is None or block is None or overlap is None:
        return None
    return round(clock_error_max(block, across, radius, overlap), 1)


def _mouths(family: Family, bearing: str, came_from: Mapping[str, str]) -> Iterator[Mouth]:
    """Ends of drillings in this bore; then holes that the family states and no drilling shows yet."""
    centre = cam_centre(family)
    stated = {name: clock(family, bearing, name) for name in ("block_hole", "second_hole", "blind_stub")}
    seen: list[float] = []
    for passage, opening, end, far in ends_of(family, "cam", "groove"):
        if opening.of != bearing or centre is None:
            continue
        found = clock_at(centre, end)
        at = next((s for s in stated.values() if s is not None and clock_gap(s, found) <= SAME), found)
        aside, up = end[1] - far[1], far[2] - end[2]
        away = at if hypot(aside, up) < passage.diameter else degrees(atan2(aside, up))
        seen.append(at)
        blind = is_blind(family, opening, end)
        yield Mouth(at, passage.diameter, away, "blind hole" if blind else _purpose(passage, opening, came_from))
    for name, stated_clock in stated.items():
        across = family.member("cam_bearing", bearing, f"{name}_diameter")
        if stated_clock is not None and across and all(clock_gap(stated_clock, at) > SAME for at in seen):
            words = {"block_hole": "oil in", "second_hole": "oil on"}.get(name, "blind hole")
            yield Mouth(stated_clock, across, stated_clock, words)


def _purpose(passage: Passage, opening: Opening, came_from: Mapping[str, str]) -> str:
    """What a drilling that opens into the bore does there, in the words of the card."""
    own = f"passage {passage.id}"
    if came_from.get(own) != str(opening):
        return "oil in"
    return _whither({node for node in came_from if own in _way(came_from, node)})


def _way(came_from: Mapping[str, str], node: str) -> Iterator[str]:
    while node := came_from.get(node, ""):
        yield node


def _whither(beyond: set[str]) -> str:
    kinds = {node.split()[0] for node in beyond}
    if "main" in kinds:
        return "on to the main"
    lifters = sorted(node for node in beyond if node.startswith("lifters"))
    if lifters:
        return f"to {lifters[0]}"
    return "up to the deck" if "deck" in kinds else "oil on"


def _scene(faces: list[Face]) -> Scene:
    face = faces[0]
    positions = numbers(each.bearing for each in faces)
    one_size = len({round(each.bore, 2) for each in faces}) == 1
    slack = min((each.slack for each in faces if each.slack is not None), default=None)
    title = f"Cam bearing {positions}" if len(faces) == 1 else f"Cam bearings {positions}"
    drawn = "" if one_size else f" (drawn: {face.bearing})"
    return Scene(
        id=f"cam-clock-{face.bearing}",
        title=title + drawn,
        view="seen from the front",
        describe=_describe(face, title + drawn),
        shapes=tuple(_shapes(face)),
        labels=(*_hour_labels(face), *_labels(face, slack)),
        metal=(disc(CENTRE, face.bore / 2 + IRON + BEYOND / 2),),
        lay_on="Lay a shell on it." if face.hole and one_size else "",
    )


def _shapes(face: Face) -> Iterator[Shape]:
    radius = face.bore / 2
    wall = radius + face.groove
    inside = radius if face.journal_bore is None else face.journal_bore / 2
    yield Band(CENTRE, wall, radius + IRON + face.groove, "hatch")
    yield Arc(CENTRE, wall, "outline")
    for mouth in face.mouths:
        start = around(CENTRE, wall, mouth.clock)
        yield Tube(start, _out(start, mouth.away, radius + face.groove + IRON + BEYOND), mouth.diameter)
    if face.groove:
        yield Band(CENTRE, radius, wall, "oil")
    yield from _dial(inside)
    if face.hole is None:
        yield from _load(face.loaded, inside)
        return
    at, across = face.hole
    half = degrees(across / 2 / radius)
    yield Band(CENTRE, inside, radius, "solid", at + half, at - half + 360)
    if face.slack:
        rim = tuple(around(CENTRE, inside, at + face.slack * share / 4) for share in range(-4, 5))
        yield Area((CENTRE, *rim), "oil")
    yield from _load(face.loaded, inside)
    yield Path((CENTRE, around(CENTRE, inside, at)), "accent")
    yield Mark(CENTRE, "dot", "accent")


def _out(start: Spot, away: float, reach_to: float) -> Spot:
    """From `start` in that direction until `reach_to` from the centre: a quadratic's positive root."""
    dx, dy = around(CENTRE, 1.0, away)
    along = start[0] * dx + start[1] * dy
    far = -along + (along**2 - (start[0] ** 2 + start[1] ** 2) + reach_to**2) ** 0.5
    return start[0] + far * dx, start[1] + far * dy


def _dial(inside: float) -> Iterator[Shape]:
    for hour in range(12):
        long = hour % 3 == 0
        ends = (around(CENTRE, inside * (0.82 if long else 0.87), hour * 30), around(CENTRE, inside * 0.95, hour * 30))
        yield Path(ends, "outline" if long else "behind")


def _load(loaded: float, inside: float) -> Iterator[Shape]:
    for aside in (-17, 17):
        yield Arrow(around(CENTRE, inside, loaded + aside), loaded)


def _hour_labels(face: Face) -> Iterator[Label]:
    inside = (face.journal_bore or face.bore) / 2
    for name, angle in HOURS.items():
        yield Label(around(CENTRE, inside * 0.62, angle), words=(name,), place="on", strong=True, optional=True)
    busy = face.hole is not None and clock_gap(face.hole[0], face.loaded + 38) < 40
    aside = face.loaded + (-38 if busy else 38)
    yield Label(around(CENTRE, inside * 0.42, aside), words=("load",), place="on", optional=True)


def _labels(face: Face, slack: float | None) -> Iterator[Label]:
    radius = face.bore / 2
    out = radius + face.groove + IRON
    shell = face.hole[0] if face.hole is not None else None
    over = []
    for mouth in face.mouths:
        if shell is not None and clock_gap(mouth.clock, shell) <= SAME:
            over.append(f"over {mouth.words}")
            continue
        start = around(CENTRE, radius + face.groove, mouth.clock)
        anchor = _out(start, mouth.away, out)
        yield Label(anchor, clock_text(mouth.clock), (mouth.words,))
    if shell is not None:
        inside = (face.journal_bore or face.bore) / 2
        within = [f"±\u202f{slack:.1f}°"] if slack else []
        words = ("hole in shell", *over, *within)
        yield Label(around(CENTRE, (inside + radius) / 2, shell), clock_text(shell), words, accent=True)


def _describe(face: Face, title: str) -> str:
    said = [f"{title}, seen from the front, as a clock face."]
    said += [f"{mouth.words[0].upper()}{mouth.words[1:]} at {clock_text(mouth.clock)}." for mouth in face.mouths]
    if face.groove:
        said.append("A groove runs right round behind the shell.")
    if face.hole is not None:
        said.append(f"The hole in the shell stands at {clock_text(face.hole[0])}.")
    if face.slack:
        said.append(f"It may be off by {face.slack:.1f} degrees each way.")
    said.append(f"The valve springs load the bearing at {clock_text(face.loaded)}.")
    return " ".join(said)
