"""What is drawn on a sheet beside the cards: where to cut and fold, where the hole is, and a bar to measure.

Every mark lies outside the cards or along a cut, so that what is left of it after a careless cut is at the edge.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from procgen.model.workshop import Hole
from procgen.paper.imposing import Grid, Placed, folds_upright

Stroke = tuple[float, float, float, float]
"""From x, y to x, y; mm from the sheet's left top corner."""

BAR = 100.0
_OFF, _LONG = 2.0, 5.0
_INTO = 4.0  # along a cut where there is no room outside it; less than a seal


def cuts(one: Grid) -> Iterator[Stroke]:
    """Ticks along every edge of a cell."""
    xs = [(one.left(i), one.left(i) + one.cell[0]) for i in range(one.columns)]
    ys = [(one.top(i), one.top(i) + one.cell[1]) for i in range(one.rows)]
    for x in dict.fromkeys(x for pair in xs for x in pair):
        yield from ((x, a, x, b) for a, b in _ticks(ys, one.height))
    for y in dict.fromkeys(y for pair in ys for y in pair):
        yield from ((a, y, b, y) for a, b in _ticks(xs, one.width))


def folds(one: Grid) -> Iterator[Stroke]:
    """Ticks at the ends of the line between front and back; to be drawn dashed."""
    for column in range(one.columns):
        for row in range(one.rows):
            x, y = one.left(column), one.top(row)
            if folds_upright(one):
                x += one.card[0]
                yield from ((x, a, x, b) for a, b in ((y, y + _INTO), (y + one.cell[1] - _INTO, y + one.cell[1])))
            else:
                y += one.card[1]
                yield from ((a, y, b, y) for a, b in ((x, x + _INTO), (x + one.cell[0] - _INTO, x + one.cell[0])))


def hole(placed: Placed, hole: Hole, card: tuple[float, float]) -> tuple[Stroke, Stroke]:
    """A cross where it is punched. Seen from the back a hole off the middle lies on the other side."""
    x, y = hole.centre
    if placed.back:
        x = card[0] - x
    if placed.turned:
        x, y = card[0] - x, card[1] - y
    x, y = placed.x + x, placed.y + y
    return (x - 1, y, x + 1, y), (x, y - 1, x, y + 1)


def bar(one: Grid) -> Iterator[Stroke]:
    """A bar of 100 mm with a tick each 10 mm, beneath or beside the cards; nothing where they fill the sheet."""
    below, beside = one.top(0), one.left(0)
    if below >= 16.0:
        yield from _ruler((one.width - BAR) / 2, one.height - below / 2 + 1.0, False)
    elif beside >= 16.0:
        yield from _ruler((one.height - BAR) / 2, one.width - beside / 2 + 1.0, True)


def _ruler(start: float, level: float, upright: bool) -> Iterator[Stroke]:
    yield _stroke(start, level, start + BAR, level, upright)
    for i in range(11):
        tall = 3.0 if i % 5 == 0 else 1.5
        yield _stroke(start + 10 * i, level, start + 10 * i, level - tall, upright)


def _stroke(a: float, b: float, c: float, d: float, upright: bool) -> Stroke:
    return (b, a, d, c) if upright else (a, b, c, d)


def _ticks(spans: Sequence[tuple[float, float]], end: float) -> Iterator[tuple[float, float]]:
    """Where along a cut ticks stand: in each gap before, between and after the cells that it passes."""
    edges = [0.0, *(edge for span in spans for edge in span), end]
    for a, b in zip(edges[::2], edges[1::2], strict=True):
        first, last = a == 0.0, b == end
        room = b - a - _OFF * (1 if first or last else 2)
        if room >= 1.0:
            long = min(_LONG, room)
            if first:
                yield b - _OFF - long, b - _OFF
            elif last:
                yield a + _OFF, a + _OFF + long
            else:
                yield a + _OFF, b - _OFF
        else:
            yield max(a - _INTO, 0.0), min(b + _INTO, end)
