"""Shapes as the few elements that every printer and browser draws alike: paths with attributes of their own."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from functools import lru_cache
from math import hypot

from procgen.draw.boxes import Spot
from procgen.draw.hatch import hatch
from procgen.draw.inks import HATCH_PITCH, PAPER, Inks, Pen
from procgen.draw.placed import Leader
from procgen.draw.sheet import MARK, Sheet, head
from procgen.model.scene import Arc, Area, Arrow, Band, Dimension, Mark, Path, Shape, Tube
from procgen.values import dataclass

DOT = 0.9  # mm across, at the end of a leader


@dataclass(frozen=True, slots=True)
class Element:
    """One path: `d` as SVG has it; colours, "none" for none; mm."""

    d: str
    fill: str = "none"
    stroke: str = "none"
    width: float = 0.0
    dash: tuple[float, ...] = ()
    cap: str = "butt"


class Strokes:
    def __init__(self, sheet: Sheet, inks: Inks) -> None:
        self._sheet, self._inks, self._weight = sheet, inks, sheet.weight

    def shapes(self) -> Iterator[Element]:
        """In the scene's order; of drillings in a row all edges first, so that they open into each other."""
        run: list[Tube] = []
        for shape in self._sheet.scene.shapes:
            if isinstance(shape, Tube):
                run.append(shape)
                continue
            yield from self._tubes(run)
            run = []
            yield from self._shape(shape)
        yield from self._tubes(run)

    def leaders(self, leaders: Sequence[Leader]) -> Iterator[Element]:
        for leader in leaders:
            pen = self._inks.pens["accent leader" if leader.accent else "leader"]
            yield self._line(leader.points, pen)
            if leader.dot:
                yield Element(circle(leader.points[0], DOT / 2 * self._weight), fill=pen.colour)

    def discs(self, discs: Sequence[tuple[Spot, float]], halo: float) -> Iterator[Element]:
        for at, radius in discs:
            yield Element(circle(at, radius + halo), fill=PAPER)
            yield Element(circle(at, radius), fill=self._inks.accent)

    def _shape(self, shape: Shape) -> Iterator[Element]:
        sheet, inks = self._sheet, self._inks
        match shape:
            case Path(points, role, closed):
                yield self._line(sheet.spots(points), inks.pens[role], closed)
            case Arc(centre, radius, role, start, end):
                yield self._stroked(arc(sheet, centre, radius, start, end), inks.pens[role])
            case Area(points, "hatch", holes):
                yield self._hatched([sheet.spots(ring) for ring in (points, *holes)])
            case Area(points, role, holes):
                d = " ".join(polyline(sheet.spots(ring), closed=True) for ring in (points, *holes))
                yield self._filled(d, role)
            case Band(centre, inner, outer, "hatch", start, end):
                rings = [sheet.ring(centre, radius, start, end) for radius in (inner, outer)]
                whole = end - start >= 360
                yield self._hatched([ring[:-1] for ring in rings] if whole else [(*rings[0], *rings[1][::-1])])
            case Band(centre, inner, outer, role, start, end):
                yield self._filled(band(sheet, centre, inner, outer, start, end), role)
            case Arrow(_, _, _, role):
                yield Element(polyline(sheet.arrow(shape), closed=True), fill=inks.pens[role].colour)
            case Dimension(start, end):
                yield from self._dimension(sheet.spot(start), sheet.spot(end))
            case Mark():
                yield self._mark(shape)

    def _filled(self, d: str, role: str) -> Element:
        if role in ("oil", "accent"):
            edge = self._inks.pens["behind"]
            return Element(d, self._inks.fills[role], edge.colour, edge.width * self._weight)
        return Element(d, fill=self._inks.fills[role])

    def _tubes(self, tubes: Sequence[Tube]) -> Iterator[Element]:
        edge = self._inks.pens["edge"].width * self._weight
        for tube in tubes:
            yield self._tube(tube, self._sheet.core(tube) + 2 * edge, self._inks.ink, 0.0)
        for tube in tubes:
            yield self._tube(tube, self._sheet.core(tube), PAPER, edge * 1.2)

    def _tube(self, tube: Tube, width: float, colour: str, beyond: float) -> Element:
        (x, y), (to_x, to_y) = self._sheet.spot(tube.start), self._sheet.spot(tube.end)
        long = hypot(to_x - x, to_y - y)
        if long < 1e-6:
            return Element(circle((x, y), width / 2), fill=colour)
        dx, dy = (to_x - x) / long * beyond, (to_y - y) / long * beyond
        return Element(polyline(((x - dx, y - dy), (to_x + dx, to_y + dy))), stroke=colour, width=width)

    def _hatched(self, rings: Sequence[Sequence[Spot]]) -> Element:
        lines = hatch(rings, HATCH_PITCH * self._weight)
        return self._stroked(" ".join(polyline(line) for line in lines), self._inks.pens["hatch"])

    def _dimension(self, start: Spot, end: Spot) -> Iterator[Element]:
        pen = self._inks.pens["dimension"]
        long = hypot(end[0] - start[0], end[1] - start[1])
        if long < 1e-6:
            return
        ahead = (end[0] - start[0]) / long, (end[1] - start[1]) / long
        size = min(2.6 * self._weight, long / 2)
        inset = ahead[0] * size / 2, ahead[1] * size / 2
        yield self._line(((start[0] + inset[0], start[1] + inset[1]), (end[0] - inset[0], end[1] - inset[1])), pen)
        for tip, way in ((end, ahead), (start, (-ahead[0], -ahead[1]))):
            yield Element(polyline(head(tip, way, size, size * 0.28), closed=True), fill=pen.colour)

    def _mark(self, mark: Mark) -> Element:
        x, y = self._sheet.spot(mark.at)
        colour = self._inks.pens[mark.role].colour
        r = MARK / 2 * self._weight
        if mark.kind == "square":
            corners = ((x - r, y - r), (x + r, y - r), (x + r, y + r), (x - r, y + r))
            return Element(polyline(corners, closed=True), fill=colour)
        if mark.kind == "ring":
            return Element(circle((x, y), r), PAPER, colour, self._inks.pens["behind"].width * self._weight)
        return Element(circle((x, y), r), fill=colour)

    def _line(self, points: Sequence[Spot], pen: Pen, closed: bool = False) -> Element:
        return self._stroked(polyline(points, closed), pen)

    def _stroked(self, d: str, pen: Pen) -> Element:
        dash = tuple(length * self._weight for length in pen.dash)
        cap = "round" if 0.0 in dash else "butt"  # a dash of no length is a dot
        return Element(d, stroke=pen.colour, width=pen.width * self._weight, dash=dash, cap=cap)


def joined(elements: Iterable[Element]) -> Iterator[Element]:
    """Lines that follow one another in the same pen as one path: the same ink in fewer bytes."""
    last: Element | None = None
    for element in elements:
        if last is not None and element.fill == "none" == last.fill and replace(element, d=last.d) == last:
            last = replace(last, d=last.d + element.d)
            continue
        if last is not None:
            yield last
        last = element
    if last is not None:
        yield last


@lru_cache(maxsize=10_000)
def number(value: float) -> str:
    """Two decimals of a millimetre, without what says nothing."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def polyline(points: Sequence[Spot], closed: bool = False) -> str:
    d = "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points)
    return d + "Z" if closed else d


def circle(at: Spot, radius: float) -> str:
    x, y, r = number(at[0] - radius), number(at[1]), number(radius)
    return f"M{x} {y}a{r} {r} 0 1 1 {number(2 * radius)} 0a{r} {r} 0 1 1 {number(-2 * radius)} 0Z"


def arc(sheet: Sheet, centre: Spot, radius: float, start: float, end: float) -> str:
    """Part of a circle from one clock angle clockwise to another, or all of it."""
    if end - start >= 360:
        return circle(sheet.spot(centre), radius * sheet.scale)
    first, *_, last = sheet.ring(centre, radius, start, end)
    r = number(radius * sheet.scale)
    return f"{polyline([first])}A{r} {r} 0 {int(end - start > 180)} 1 {number(last[0])} {number(last[1])}"


def band(sheet: Sheet, centre: Spot, inner: float, outer: float, start: float, end: float) -> str:
    """A ring, its inside wound the other way so that it stays open; or part of one."""
    x, y = sheet.spot(centre)
    if end - start >= 360:
        r = number(inner * sheet.scale)
        across = number(2 * inner * sheet.scale)
        hole = f"M{number(x - inner * sheet.scale)} {number(y)}a{r} {r} 0 1 0 {across} 0a{r} {r} 0 1 0 -{across} 0Z"
        return f"{circle((x, y), outer * sheet.scale)}{hole}"
    back = sheet.ring(centre, inner, start, end)
    r, large = number(inner * sheet.scale), int(end - start > 180)
    (x, y), (to_x, to_y) = back[-1], back[0]
    inside = f"L{number(x)} {number(y)}A{r} {r} 0 {large} 0 {number(to_x)} {number(to_y)}Z"
    return arc(sheet, centre, outer, start, end) + inside
