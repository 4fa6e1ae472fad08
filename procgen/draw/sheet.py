"""A scene at a scale: its shapes as lines and rings on paper, mm, right and down from the scene's origin."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property, lru_cache
from math import ceil, cos, hypot, radians, sin

from procgen.draw.boxes import Box, Spot
from procgen.draw.grid import Grid
from procgen.model.scene import Arc, Area, Arrow, Band, Dimension, Mark, Path, Scene, Shape, Tube
from procgen.values import dataclass

ARROW = 4.2  # mm long at 15 pt, half as wide
LEAST_CORE = 0.8  # mm: a drilling is never drawn thinner
MARK = 2.0  # mm across


@dataclass(frozen=True)
class Sheet:
    """`scale`: paper to iron. `weight`: how much heavier than at 15 pt of type. What is worked out of them is kept."""

    scene: Scene
    scale: float
    weight: float
    shift: Spot = (0.0, 0.0)

    def spot(self, at: Spot) -> Spot:
        return at[0] * self.scale + self.shift[0], -at[1] * self.scale + self.shift[1]

    def spots(self, points: tuple[Spot, ...]) -> tuple[Spot, ...]:
        return tuple(map(self.spot, points))

    def ring(self, centre: Spot, radius: float, start: float = 0.0, end: float = 360.0) -> tuple[Spot, ...]:
        """A circle or part of one as short lines, a spot at least every 5 degrees."""
        (x, y), r = self.spot(centre), radius * self.scale
        return tuple((x + r * right, y - r * up) for right, up in _round(start, end))

    def core(self, tube: Tube) -> float:
        """How wide a drilling is drawn inside its edges."""
        return max(tube.diameter * self.scale, LEAST_CORE * self.weight)

    def arrow(self, arrow: Arrow) -> tuple[Spot, Spot, Spot]:
        """Tip and foot of a small arrow's head."""
        x, y = self.spot(arrow.at)
        ahead = sin(radians(arrow.towards)), -cos(radians(arrow.towards))
        long = ARROW * self.weight
        tip = (x + ahead[0] * long, y + ahead[1] * long) if arrow.from_spot else (x, y)
        return head(tip, ahead, long, long * 0.42)

    @cached_property
    def lines(self) -> tuple[tuple[Spot, ...], ...]:
        """What its shapes take of the paper, as lines to keep clear of."""
        return tuple(line for shape in self.scene.shapes for line in self._lines(shape))

    def _lines(self, shape: Shape) -> Iterator[tuple[Spot, ...]]:
        match shape:
            case Path(points, _, closed):
                yield self.spots((*points, points[0]) if closed else points)
            case Arc(centre, radius, _, start, end):
                yield self.ring(centre, radius, start, end)
            case Band(centre, inner, outer, _, start, end):
                yield self.ring(centre, inner, start, end)
                yield self.ring(centre, outer, start, end)
            case Area(points, _, holes):
                for ring in (points, *holes):
                    yield self.spots((*ring, ring[0]))
            case Tube(start, end, _):
                yield from self.tube_edges(shape)
            case Arrow():
                tip, left, right = self.arrow(shape)
                yield (tip, left, right, tip)
            case Dimension(start, end):
                yield self.spots((start, end))
            case Mark(at):
                x, y = self.spot(at)
                r = MARK / 2 * self.weight
                yield ((x - r, y), (x + r, y))
                yield ((x, y - r), (x, y + r))

    def tube_edges(self, tube: Tube) -> Iterator[tuple[Spot, ...]]:
        (x, y), (to_x, to_y) = self.spot(tube.start), self.spot(tube.end)
        half, long = self.core(tube) / 2, hypot(to_x - x, to_y - y)
        if long < 1e-6:
            yield self.ring(tube.start, half / self.scale)
            return
        aside = (y - to_y) / long * half, (to_x - x) / long * half
        for side in (1, -1):
            yield ((x + side * aside[0], y + side * aside[1]), (to_x + side * aside[0], to_y + side * aside[1]))

    @cached_property
    def extent(self) -> Box:
        """The smallest box round all shapes."""
        spots = [spot for line in self.lines for spot in line]
        across, down = [x for x, _ in spots], [y for _, y in spots]
        return Box(min(across), min(down), max(across), max(down))

    @cached_property
    def inked(self) -> Grid:
        """What its lines take of the paper just round it."""
        grid = Grid(self.extent.grown(1.0))
        grid.lines(self.lines)
        return grid


@lru_cache(maxsize=1000)
def _round(start: float, end: float) -> tuple[Spot, ...]:
    """From one clock angle to another on a circle of radius 1, to the right and up."""
    pieces = max(1, ceil((end - start) / 5))
    angles = [radians(start + (end - start) * n / pieces) for n in range(pieces + 1)]
    return tuple((sin(a), cos(a)) for a in angles)


def head(tip: Spot, ahead: Spot, long: float, half: float) -> tuple[Spot, Spot, Spot]:
    """An arrowhead as a triangle; `ahead` is a unit vector."""
    back = tip[0] - ahead[0] * long, tip[1] - ahead[1] * long
    aside = -ahead[1] * half, ahead[0] * half
    return tip, (back[0] + aside[0], back[1] + aside[1]), (back[0] - aside[0], back[1] - aside[1])
