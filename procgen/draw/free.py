"""Labels and badges that find their own place: each as near to its thing as there is room."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise
from math import cos, hypot, radians, sin

from procgen.draw.boxes import Box, Spot
from procgen.draw.fixed import CLEAR, LEVEL
from procgen.draw.grid import Grid
from procgen.draw.lettering import Form, Letters
from procgen.draw.placed import Leader, Piece, Placed, apart, straightened
from procgen.draw.sheet import Sheet
from procgen.model.scene import Badge, Label

REACH = 50.0  # mm that a label may stand from its thing, at 15 pt
STEP = 2.0  # mm between places that are tried
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
        self._clear = CLEAR * sheet.weight
        self.placed = placed

    def set_all(self) -> bool:
        """False where there is not room for all."""
        things = self._in_order()
        if not things:
            return True
        self._inked, self._metal = Grid(self._frame), Grid(self._frame)
        for shape in self._sheet.scene.shapes:
            for line in self._sheet.lines(shape):
                self._inked.line(line)
        for polygon in self._sheet.scene.metal:
            self._metal.polygon(self._sheet.spots(polygon))
        for _ in range(TRIES):
            self.placed = self._settled.copy()
            tried = enumerate(self._set_nearest(thing, things) for thing in things)
            stuck = next((n for n, is_set in tried if not is_set), None)
            if stuck is None:
                self._set_names([thing for thing in things if isinstance(thing, Badge)])
                return True
            things.insert(0, things.pop(stuck))  # what found no room chooses first
        return False

    def _in_order(self) -> list[Thing]:
        """What must be matched first, then other labels, then badges from the outside in."""
        scene, middle = self._sheet.scene, self._sheet.extent().middle
        labels = sorted((each for each in scene.labels if each.place == "free"), key=lambda label: not label.accent)
        if self._crowded:
            return [*labels]
        badges = sorted(scene.badges, key=lambda badge: -apart(self._sheet.spot(badge.anchor), middle))
        return [*labels, *badges]

    def _set_nearest(self, thing: Thing, things: Sequence[Thing]) -> bool:
        anchor, weight = self._sheet.spot(thing.anchor), self._sheet.weight
        spots = [self._sheet.spot(other.anchor) for other in things if other is not thing]
        dots = [_dot(spot, weight) for spot in spots if apart(spot, anchor) > 2 * weight]
        forms = [self._letters.badge(thing)] if isinstance(thing, Badge) else list(self._letters.forms(thing))
        best: tuple[float, Form, Box, tuple[Spot, ...]] | None = None
        for right, down, steps in _offsets():
            far = steps * weight
            if best is not None and far >= best[0]:
                break
            port_at = anchor[0] + right * weight, anchor[1] + down * weight
            turned = ASIDE * (1 - _along(thing, right, down)) if isinstance(thing, Badge) else 0.0
            for form in forms:
                least = far * (1 + turned) + form.cost
                if best is not None and least >= best[0]:
                    continue
                for (px, py), side in form.ports:
                    box = form.box(port_at[0] - px, port_at[1] - py)
                    path = self._way(box, anchor, port_at, side, form, dots)
                    if path is None:
                        continue
                    cost = least + (0.0 if self._metal.is_free(box) else ON_METAL)
                    cost += THROUGH_METAL * _length_inside(path, self._metal)
                    if best is None or cost < best[0]:
                        best = cost, form, box, path
        if best is None:
            return isinstance(thing, Label) and thing.optional
        _, form, box, path = best
        leader = Leader(path, isinstance(thing, Label) and thing.accent, isinstance(thing, Badge) or thing.dot)
        self.placed.set(form, box.left, box.top, leader)
        return True

    def _way(
        self, box: Box, anchor: Spot, port: Spot, side: str, form: Form, dots: Sequence[Box]
    ) -> tuple[Spot, ...] | None:
        """The leader to a label that stands in that box; None where the box or the leader may not be there."""
        if not self._frame.holds(box) or not self._inked.is_free(box.grown(self._clear / 2)):
            return None
        if form.disc is None and not self._metal.is_free(box):
            return None
        kept = box.grown(self._clear)
        if any(kept.overlaps(dot) for dot in dots) or not self.placed.is_clear(kept):
            return None
        path = self._leader(anchor, port, side, form)
        lines = tuple(pairwise(path))
        if not lines or not self.placed.lets_pass(lines, self._clear / 2, self._crowded):
            return None
        return None if not self._crowded and any(dot.crossed_by(line) for dot in dots for line in lines) else path

    def _leader(self, anchor: Spot, port: Spot, side: str, form: Form) -> tuple[Spot, ...]:
        """From the thing to the label, level at the label; () where it would have to double back."""
        weight = self._sheet.weight
        if form.disc is not None:
            far = apart(anchor, port)
            share = 1 - form.disc[1] / far
            way = anchor, (anchor[0] + (port[0] - anchor[0]) * share, anchor[1] + (port[1] - anchor[1]) * share)
            return way if share > 0 else ()
        x, y = port
        if side in ("above", "below"):  # above: the leader comes down to the top of the label
            down = 1 if side == "above" else -1
            steep = (y - anchor[1]) * down >= abs(x - anchor[0]) + 1.5 * weight
            return (anchor, (x, y - down * self._clear)) if steep else ()
        back = -1 if side == "left" else 1
        near = x + back * self._clear
        bend = near + back * LEVEL * weight
        return straightened((anchor, (bend, y), (near, y))) if (anchor[0] - bend) * back >= 0 else ()

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


def _length_inside(path: Sequence[Spot], grid: Grid) -> float:
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
