"""Where labels and badges stand: never on one another, on a leader or over the frame, and clear of the metal.

First what has its place (on a thing, beside it, in a column); then the rest, each as near to its thing as there is room.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import pairwise
from math import cos, hypot, radians, sin

from procgen.draw.boxes import Box, Line, Spot, around, lines_cross
from procgen.draw.grid import Grid
from procgen.draw.lettering import Form, Letters, Text
from procgen.draw.sheet import Sheet
from procgen.model.scene import Badge, Label

CLEAR = 0.7  # mm between lettering and anything else, at 15 pt
BESIDE = 1.4  # mm between a thing and what stands beside it
LEVEL = 2.4  # mm that a leader runs level at its label
REACH = 60.0  # mm that a label may stand from its thing
MARGIN = 50.0  # mm above and below the metal in which labels may stand
STEP = 2.0  # mm between places that are tried
ASIDE = 0.4  # share by which a badge is as good as further off, for each step aside of where its plug comes out
TRIES = 5  # orders in which free labels are placed, before a smaller scale
ON_METAL = 6.0  # mm that a badge may stand further off to be clear of the metal; other labels always are


@dataclass(frozen=True, slots=True)
class Leader:
    points: tuple[Spot, ...]
    accent: bool
    dot: bool


@dataclass
class Placed:
    """Lettering on paper, mm. `boxes`: one for each label and badge that is set."""

    boxes: list[Box] = field(default_factory=list)
    texts: list[Text] = field(default_factory=list)
    discs: list[tuple[Spot, float]] = field(default_factory=list)
    leaders: list[Leader] = field(default_factory=list)
    cost: float = 0.0

    def set(self, form: Form, left: float, top: float, leader: Leader | None = None) -> None:
        self.boxes.append(form.box(left, top))
        self.texts += [text.moved(left, top) for text in form.texts]
        if form.disc is not None:
            (x, y), radius = form.disc
            self.discs.append(((x + left, y + top), radius))
        if leader is not None:
            self.leaders.append(leader)

    def copy(self) -> Placed:
        return Placed([*self.boxes], [*self.texts], [*self.discs], [*self.leaders], self.cost)

    @property
    def lines(self) -> Iterator[Line]:
        for leader in self.leaders:
            yield from pairwise(leader.points)


class Placer:
    """One scene at one scale and type size, in a frame `width` mm wide."""

    def __init__(self, sheet: Sheet, letters: Letters, width: float) -> None:
        self._sheet, self._letters, self._width = sheet, letters, width
        self._clear = CLEAR * sheet.weight
        self.placed = Placed()

    def place(self) -> Placed | None:
        """None where there is not room for all of it. The scene's origin stays where the sheet has it."""
        scene = self._sheet.scene
        extent = self._sheet.extent()
        marked = Grid(extent.grown(1.0))
        for shape in scene.shapes:
            for line in self._sheet.lines(shape):
                marked.line(line)
        for label in scene.labels:
            if label.place == "on":
                self._set_on(label, marked)
        for label in scene.labels:
            if label.place == "beside" and not self._set_beside(label, marked):
                return None
        for side in ("left", "right"):
            content = around([extent, *self.placed.boxes])
            column = [label for label in scene.labels if label.place == side]
            if column and not self._set_column(column, side, content):
                return None
        content = around([extent, *self.placed.boxes])
        spare = self._width - (content.right - content.left)
        if spare < 0:
            return None
        frame = Box(content.left - spare / 2, extent.top - MARGIN, content.right + spare / 2, extent.bottom + MARGIN)
        return self.placed if self._set_free(frame) else None

    def _set_on(self, label: Label, marked: Grid) -> None:
        form = self._centred(label)
        x, y = self._sheet.spot(label.anchor)
        box = form.box(x - form.width / 2, y - form.height / 2)
        taken = any(box.overlaps(other.grown(self._clear)) for other in self.placed.boxes)
        inked = Box(box.left, box.middle[1] - form.height * 0.3, box.right, box.middle[1] + form.height * 0.3)
        if label.optional and (taken or not marked.is_free(inked)):
            return
        self.placed.set(form, box.left, box.top)

    def _centred(self, label: Label) -> Form:
        return next(form for form in self._letters.forms(label) if len(form.ports) == 2)

    def _set_beside(self, label: Label, marked: Grid) -> bool:
        x, y = self._sheet.spot(label.anchor)
        gap = BESIDE * self._sheet.weight
        for form in self._letters.forms(label):
            for side in label.sides:
                places = {
                    "right": (x + gap, y - form.ports[0][0][1]),
                    "left": (x - gap - form.width, y - form.ports[0][0][1]),
                    "above": (x - form.width / 2, y - gap - form.height),
                    "below": (x - form.width / 2, y + gap),
                }
                box = form.box(*places[side])
                fits = {"right": "left", "left": "right"}.get(side, "")
                if (form.ports[0][1] if len(form.ports) == 1 else "") != fits:
                    continue
                if marked.is_free(box.grown(-0.2)) and not any(box.overlaps(o.grown(self._clear)) for o in self.placed.boxes):
                    self.placed.set(form, box.left, box.top)
                    return True
        return label.optional

    def _set_column(self, column: Sequence[Label], side: str, content: Box) -> bool:
        """One under the other at the heights of their things, pushed apart as far as they must be."""
        weight = self._sheet.weight
        ordered = sorted(column, key=lambda label: -label.anchor[1])
        chosen: list[Form] = []
        for label in ordered:
            port = "left" if side == "right" else "right"
            chosen.append(next(form for form in self._letters.forms(label) if form.ports[0][1] == port))
        wanted = [self._sheet.spot(label.anchor)[1] - form.ports[0][0][1] for label, form in zip(ordered, chosen, strict=True)]
        tops = spread(wanted, [form.height + self._clear for form in chosen])
        room = ((LEVEL * 2 + 1.0) if any(label.leader for label in column) else BESIDE) * weight
        for label, form, top in zip(ordered, chosen, tops, strict=True):
            anchor = self._sheet.spot(label.anchor)
            edge = content.right + room if side == "right" else content.left - room
            left = edge if side == "right" else edge - form.width
            (px, py), _ = form.ports[0]
            port_at = left + px, top + py
            run = (-1 if side == "right" else 1) * LEVEL * weight
            near = port_at[0] + (-1 if side == "right" else 1) * self._clear, port_at[1]
            path = _straight((anchor, (near[0] + run, near[1]), near))
            self.placed.set(form, left, top, Leader(path, label.accent, label.dot) if label.leader else None)
        return True

    def _set_free(self, frame: Box) -> bool:
        scene, sheet = self._sheet.scene, self._sheet
        things: list[Label | Badge] = [label for label in scene.labels if label.place == "free"]
        things.sort(key=lambda label: not label.accent if isinstance(label, Label) else True)
        middle = sheet.extent().middle
        things += sorted(scene.badges, key=lambda badge: -_apart(sheet.spot(badge.anchor), middle))
        if not things:
            return True
        taken = Grid(frame)
        for shape in scene.shapes:
            for line in sheet.lines(shape):
                taken.line(line)
        metal = Grid(frame)
        for polygon in scene.metal:
            metal.polygon(sheet.spots(polygon))
        settled = self.placed.copy()
        for _ in range(TRIES):
            stuck = next((n for n, thing in enumerate(things) if not self._set_nearest(thing, things, frame, taken, metal)), None)
            if stuck is None:
                self._set_names([thing for thing in things if isinstance(thing, Badge)], frame, taken)
                return True
            things.insert(0, things.pop(stuck))  # what found no room chooses first
            self.placed = settled.copy()
        return False

    def _set_names(self, badges: Sequence[Badge], frame: Box, taken: Grid) -> None:
        """Names beside their badges, where there is room."""
        discs = self.placed.discs[-len(badges) :]
        dots = [_dot(self._sheet.spot(badge.anchor), self._sheet.weight) for badge in badges]
        for badge, disc in zip(badges, discs, strict=True) if badges else ():
            for box, text in self._letters.names(badge, disc):
                kept = box.grown(self._clear * 0.6)
                if (
                    frame.holds(box)
                    and taken.is_free(box)
                    and not any(kept.overlaps(other) for other in (*self.placed.boxes, *dots) if not _is_disc(other, disc))
                    and not any(kept.crossed_by(line) for line in self.placed.lines)
                ):
                    self.placed.boxes.append(box)
                    self.placed.texts.append(text)
                    break

    def _set_nearest(
        self, thing: Label | Badge, things: Sequence[Label | Badge], frame: Box, taken: Grid, metal: Grid
    ) -> bool:
        anchor = self._sheet.spot(thing.anchor)
        weight = self._sheet.weight
        spots = [self._sheet.spot(other.anchor) for other in things if other is not thing]
        dots = [_dot(spot, weight) for spot in spots if _apart(spot, anchor) > 2 * weight]
        forms = [self._letters.badge(thing)] if isinstance(thing, Badge) else list(self._letters.forms(thing))
        best: tuple[float, Form, Box, Leader] | None = None
        for right, down, far in _offsets():
            far *= weight
            if best is not None and far >= best[0]:
                break
            port_at = anchor[0] + right * weight, anchor[1] + down * weight
            for form in forms:
                if best is not None and far + form.cost >= best[0]:
                    continue
                for (px, py), side in form.ports:
                    box = form.box(port_at[0] - px, port_at[1] - py)
                    if not frame.holds(box) or not taken.is_free(box.grown(self._clear / 2)):
                        continue
                    off = metal.is_free(box)
                    if not off and form.disc is None:
                        continue
                    path = self._path(anchor, port_at, side, form)
                    if path is None or not self._clear_of_others(box, path, dots):
                        continue
                    turned = ASIDE * (1 - _along(thing, right, down)) if isinstance(thing, Badge) else 0.0
                    cost = far * (1 + turned) + form.cost + 0.5 * _length_inside(path, metal) + (0.0 if off else ON_METAL)
                    if best is None or cost < best[0]:
                        accent = isinstance(thing, Label) and thing.accent
                        dot = isinstance(thing, Badge) or thing.dot
                        best = cost, form, box, Leader(path, accent, dot)
        if best is None:
            return isinstance(thing, Label) and thing.optional
        self.placed.cost += best[0]
        self.placed.set(best[1], best[2].left, best[2].top, best[3])
        return True

    def _path(self, anchor: Spot, port: Spot, side: str, form: Form) -> tuple[Spot, ...] | None:
        """The leader from the thing to the label; None where it would have to double back."""
        weight = self._sheet.weight
        if form.disc is not None:
            far = _apart(anchor, port)
            if far <= form.disc[1]:
                return None
            share = (far - form.disc[1]) / far
            return anchor, (anchor[0] + (port[0] - anchor[0]) * share, anchor[1] + (port[1] - anchor[1]) * share)
        x, y = port
        if side in ("above", "below"):
            # "above": the leader comes down to the top of the label, so the label is under its thing
            up = 1 if side == "above" else -1
            if (y - anchor[1]) * up < abs(x - anchor[0]) + 1.5 * weight:
                return None
            return anchor, (x, y - up * self._clear)
        back = -1 if side == "left" else 1
        near = x + back * self._clear
        bend = near + back * LEVEL * weight
        if (anchor[0] - bend) * back < 0:
            return None
        return _straight((anchor, (bend, y), (near, y)))

    def _clear_of_others(self, box: Box, path: tuple[Spot, ...], dots: list[Box]) -> bool:
        kept = box.grown(self._clear)
        lines = list(pairwise(path))
        return (
            not any(kept.overlaps(other) for other in self.placed.boxes)
            and not any(kept.overlaps(dot) for dot in dots)
            and not any(kept.crossed_by(line) for line in self.placed.lines)
            and not any(other.grown(self._clear / 2).crossed_by(line) for other in self.placed.boxes for line in lines)
            and not any(lines_cross(line, other) for line in lines for other in self.placed.lines)
            and not any(dot.crossed_by(line) for dot in dots for line in lines)
        )


def _along(badge: Badge, right: float, down: float) -> float:
    """How far a step goes the way that the plug comes out: 1 all of it, -1 the other way."""
    if badge.away is None:
        return 1.0
    return (right * sin(radians(badge.away)) - down * cos(radians(badge.away))) / hypot(right, down)


def spread(wanted: Sequence[float], heights: Sequence[float]) -> list[float]:
    """Tops nearest (by squares) to those wanted, in order, such that none overlaps the next: pooled like an isotonic fit."""
    offsets, total = [], 0.0
    for height in heights:
        offsets.append(total)
        total += height
    pools: list[list[float]] = []  # sum and count of what is shared
    for want, offset in zip(wanted, offsets, strict=True):
        pools.append([want - offset, 1])
        while len(pools) > 1 and pools[-2][0] / pools[-2][1] > pools[-1][0] / pools[-1][1]:
            shared, count = pools.pop()
            pools[-1][0] += shared
            pools[-1][1] += count
    shifts = [shared / count for shared, count in pools for _ in range(int(count))]
    return [shift + offset for shift, offset in zip(shifts, offsets, strict=True)]


def _straight(points: tuple[Spot, ...]) -> tuple[Spot, ...]:
    """Without a bend that is none."""
    (ax, ay), (bx, by), (cx, cy) = points
    return (points[0], points[2]) if abs((bx - ax) * (cy - ay) - (by - ay) * (cx - ax)) < 0.3 else points


def _apart(one: Spot, other: Spot) -> float:
    return hypot(one[0] - other[0], one[1] - other[1])


def _dot(at: Spot, weight: float) -> Box:
    return Box(*at, *at).grown(0.7 * weight)


def _is_disc(box: Box, disc: tuple[Spot, float]) -> bool:
    return _apart(box.middle, disc[0]) < 0.01


def _length_inside(path: tuple[Spot, ...], grid: Grid) -> float:
    found = 0.0
    for (x, y), (to_x, to_y) in pairwise(path):
        long = hypot(to_x - x, to_y - y)
        steps = max(1, int(long))
        inside = sum(grid.is_taken((x + (to_x - x) * n / steps, y + (to_y - y) * n / steps)) for n in range(steps))
        found += inside * long / steps
    return found


@lru_cache(maxsize=1)
def _offsets() -> tuple[tuple[float, float, float], ...]:
    """Steps right and down from a thing, and how far that is, nearest first."""
    count = int(REACH / STEP)
    steps = [(n * STEP, m * STEP) for n in range(-count, count + 1) for m in range(-count, count + 1)]
    found = ((right, down, hypot(right, down)) for right, down in steps)
    return tuple(sorted((o for o in found if 1.5 * STEP <= o[2] <= REACH), key=lambda o: (o[2], o[1], o[0])))
