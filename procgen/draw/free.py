"""Labels and badges that find their own place: each as near to its thing as there is room."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import cos, hypot, radians, sin

from procgen.draw.boxes import Box, Spot, first_crossed, lines_cross
from procgen.draw.fixed import CLEAR, LEVEL
from procgen.draw.grid import Grid
from procgen.draw.lettering import Letters
from procgen.draw.placed import Leader, Piece, Placed, apart, straightened
from procgen.draw.sheet import Sheet
from procgen.draw.stands import Stands, nearest
from procgen.model.scene import Badge, Label

THROUGH_METAL = 0.5  # as much further off as a leader runs through metal, times this
ON_METAL = 6.0  # mm that a badge may stand further off to be clear of the metal; other labels always are
ASIDE = 0.4  # share by which a badge may stand further off to be where its plug comes out
TRIES = 3  # orders in which things choose their places
DOT = 0.7  # mm round a thing that is kept for the end of its leader

Thing = Label | Badge


class Free:
    """`crowded`: badges have their place already, and leaders may run across one another."""

    def __init__(self, sheet: Sheet, letters: Letters, placed: Placed, frame: Box, crowded: bool) -> None:
        self._sheet, self._letters, self._frame, self._crowded = sheet, letters, frame, crowded
        self._settled = placed
        self._known: dict[int, list[Stands]] = {}  # by the id of a thing
        self._clear = CLEAR * sheet.weight
        self.placed = placed

    def set_all(self) -> bool:
        """False where there is not room for all."""
        things = self._in_order()
        if not things:
            return True
        self._inked, self._metal = Grid(self._frame), Grid(self._frame)
        self._inked.lines(self._sheet.lines)
        for polygon in self._sheet.scene.metal:
            self._metal.polygon(self._sheet.spots(polygon))
        for _ in range(TRIES):
            self.placed = self._settled.copy()
            tried = enumerate(self._set_nearest(thing, things) for thing in things)
            stuck = next((n for n, is_set in tried if not is_set), None)
            if stuck is None:
                self._set_names([thing for thing in things if isinstance(thing, Badge)])
                return True
            if stuck == 0:  # it would find none again
                break
            things.insert(0, things.pop(stuck))  # what found no room chooses first
        return False

    def _in_order(self) -> list[Thing]:
        """What must be matched first, then other labels, then badges from the outside in."""
        scene, middle = self._sheet.scene, self._sheet.extent.middle
        labels = sorted((each for each in scene.labels if each.place == "free"), key=lambda label: not label.accent)
        if self._crowded:
            return [*labels]
        badges = sorted(scene.badges, key=lambda badge: -apart(self._sheet.spot(badge.anchor), middle))
        return [*labels, *badges]

    def _set_nearest(self, thing: Thing, things: Sequence[Thing]) -> bool:
        anchor, weight = self._sheet.spot(thing.anchor), self._sheet.weight
        spots = [self._sheet.spot(other.anchor) for other in things if other is not thing]
        dots = [_dot(spot, weight) for spot in spots if apart(spot, anchor) > 2 * weight]
        kept = [box.grown(self._clear / 2) for box in self.placed.boxes]
        if not self._crowded:
            kept += dots
        best: tuple[float, Stands, Box, tuple[Spot, ...]] | None = None
        for at, stands in nearest(self._stands(thing, dots)):
            far, form = at.far * weight, stands.form
            if best is not None and far >= best[0]:
                break
            turned = ASIDE * (1 - _along(thing, at.right, at.down)) if isinstance(thing, Badge) else 0.0
            cost = far * (1 + turned) + form.cost
            if form.disc is not None and not stands.is_off_metal(at):
                cost += ON_METAL
            if (best is not None and cost >= best[0]) or not stands.is_off_lines(at):
                continue
            path = self._leader(anchor, (anchor[0] + at.right * weight, anchor[1] + at.down * weight), stands)
            if not self._may_run(path, kept):
                continue
            cost += THROUGH_METAL * self._metal.length_taken(path)
            if best is None or cost < best[0]:
                best = cost, stands, stands.box(at), path
        if best is None:
            return isinstance(thing, Label) and thing.optional
        _, stands, box, path = best
        leader = Leader(path, isinstance(thing, Label) and thing.accent, isinstance(thing, Badge) or thing.dot)
        self.placed.set(stands.form, box.left, box.top, leader)
        return True

    def _stands(self, thing: Thing, dots: Sequence[Box]) -> list[Stands]:
        """All ways to set it among what is placed."""
        if id(thing) not in self._known:
            self._known[id(thing)] = list(self._alone(thing, dots))
        found = [stands.copy() for stands in self._known[id(thing)]]
        for stands in found:
            stands.close_on(self.placed.boxes)
            stands.keep_off(self.placed.lines)
        return found

    def _alone(self, thing: Thing, dots: Sequence[Box]) -> Iterator[Stands]:
        """All ways to set it if nothing were placed yet: the same in each order in which things choose."""
        anchor, weight = self._sheet.spot(thing.anchor), self._sheet.weight
        forms = [self._letters.badge(thing)] if isinstance(thing, Badge) else self._letters.forms(thing)
        for form in forms:
            for port in form.ports:
                stands = Stands(form, port, anchor, weight, self._clear)
                stands.open_in(self._frame, self._inked, self._metal)
                stands.close_on(dots)
                yield stands

    def _may_run(self, path: Sequence[Spot], kept: list[Box]) -> bool:
        """Whether a leader runs through nothing that it may not run through. The box that stands in its way is put
        first in `kept`: leaders near one another, as they are tried, run through the same.
        """
        lines = tuple(pairwise(path))
        for line in lines:
            crossed = first_crossed(line, kept)
            if crossed is not None:
                kept.insert(0, kept.pop(crossed))
                return False
        if not lines:
            return False
        return self._crowded or not any(lines_cross(line, other) for line in lines for other in self.placed.lines)

    def _leader(self, anchor: Spot, port: Spot, stands: Stands) -> tuple[Spot, ...]:
        """From the thing to the label, level at the label; () where a badge stands on its thing."""
        form, side, weight = stands.form, stands.side, self._sheet.weight
        if form.disc is not None:
            far = apart(anchor, port)
            share = 1 - form.disc[1] / far
            way = anchor, (anchor[0] + (port[0] - anchor[0]) * share, anchor[1] + (port[1] - anchor[1]) * share)
            return way if share > 0 else ()
        x, y = port
        if side in ("above", "below"):
            return anchor, (x, y - self._clear if side == "above" else y + self._clear)
        back = -1 if side == "left" else 1
        near = x + back * self._clear
        return straightened((anchor, (near + back * LEVEL * weight, y), (near, y)))

    def _set_names(self, badges: Sequence[Badge]) -> None:
        """Names beside their badges, where there is room."""
        discs = self.placed.discs[len(self._settled.discs) :]
        dots = [_dot(self._sheet.spot(badge.anchor), self._sheet.weight) for badge in badges]
        for badge, disc in zip(badges, discs, strict=True):
            for box, text in self._letters.names(badge, disc):
                kept = box.grown(self._clear * 0.6)
                taken = any(kept.overlaps(dot) for dot in dots)
                if self._frame.holds(box) and self._inked.is_free(box) and not taken and self.placed.is_clear(kept):
                    self.placed.add(Piece(box, (text,), None, None, optional=True))
                    break


def _along(badge: Badge, right: float, down: float) -> float:
    """How far a step goes the way that the plug comes out: 1 all of it, -1 the other way."""
    if badge.away is None:
        return 1.0
    return (right * sin(radians(badge.away)) - down * cos(radians(badge.away))) / hypot(right, down)


def _dot(at: Spot, weight: float) -> Box:
    return Box(*at, *at).grown(DOT * weight)
