"""Where one form of a label may stand round its thing: on a lattice of places, of which a row is one integer, a bit a
place. What is in the way closes the same columns in all the rows that it reaches, so that the many places which lie
under other lettering are never asked for one by one.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Sequence
from copy import copy
from functools import lru_cache, reduce
from math import hypot
from operator import or_

from procgen.draw.boxes import Box, Line, Spot, bounds
from procgen.draw.fixed import CLEAR, LEVEL
from procgen.draw.grid import Grid
from procgen.draw.lettering import Form
from procgen.values import dataclass

REACH = 50.0  # mm that a label may stand from its thing, at 15 pt
STEP = 2.0  # mm between places that are tried
STEEP = 1.5  # mm that a leader to the middle of a label falls more than it runs
_COUNT = int(REACH / STEP)
_STEPS = tuple(n * STEP for n in range(-_COUNT, _COUNT + 1))


@dataclass(frozen=True, slots=True)
class Place:
    """`far` from the thing, to the `right` and `down` from it: mm at 15 pt."""

    far: float
    right: float
    down: float
    row: int
    column: int


@dataclass(frozen=True, slots=True)
class Spans:
    """From where to where something reaches in each column or row of the lattice; both rise."""

    starts: list[float]
    ends: list[float]

    def grown(self, by: float) -> Spans:
        return Spans([start - by for start in self.starts], [end + by for end in self.ends])

    def over(self, start: float, end: float) -> range:
        """Which of them lie over something, by more than their edges."""
        return range(bisect_right(self.ends, start), bisect_left(self.starts, end))

    def inside(self, start: float, end: float) -> range:
        return range(bisect_left(self.starts, start), bisect_right(self.ends, end))


class Clear:
    """The places in some columns at which boxes have nothing of a grid under them, worked out for such rows as are
    asked for.
    """

    def __init__(self, grid: Grid, columns: Spans, rows: Spans, some: range) -> None:
        self._grid, self._columns, self._rows, self._some = grid, columns, rows, some
        self._cells: list[tuple[int, int]] = []
        self._known: dict[int, int] = {}

    def row(self, row: int) -> int:
        if row not in self._known:
            self._known[row] = self._row(self._grid.taken(self._rows.starts[row], self._rows.ends[row]))
        return self._known[row]

    def _row(self, taken: int) -> int:
        if not taken:
            return -1
        if not self._cells:
            some, spans = self._some, self._columns
            across = self._grid.each_across(spans.starts[some.start : some.stop], spans.ends[some.start : some.stop])
            self._cells = [(1 << n, cells) for n, cells in zip(some, across, strict=True)]
        return sum([column for column, cells in self._cells if not cells & taken])


class Stands:
    """For one of a form's ports round `anchor`: the lattice is `weight` times as wide as at 15 pt; `gap` mm are kept
    from other lettering, half of that from lines of the drawing.
    """

    def __init__(self, form: Form, port: tuple[Spot, str], anchor: Spot, weight: float, gap: float) -> None:
        (x, y), self.side = port
        self.form, self._gap = form, gap
        lefts = [anchor[0] + step * weight - x for step in _STEPS]
        tops = [anchor[1] + step * weight - y for step in _STEPS]
        self._columns = Spans(lefts, [left + form.width for left in lefts])
        self._rows = Spans(tops, [top + form.height for top in tops])
        self._kept = self._columns.grown(gap), self._rows.grown(gap)
        self._open = [0] * len(_STEPS)
        self._doubtful = [0] * len(_STEPS)
        self._lines: list[Line] = []

    def open_in(self, frame: Box, inked: Grid, metal: Grid) -> None:
        """The places inside the frame that a leader can come to, clear of the drawing; badges may stand on metal."""
        columns, ways = self._columns.inside(frame.left, frame.right), _ways(self.side)
        for row in self._rows.inside(frame.top, frame.bottom):
            self._open[row] = _bits(columns) & ways[row]
        half = self._gap / 2
        self._inked = Clear(inked, self._columns.grown(half), self._rows.grown(half), columns)
        self._metal = Clear(metal, self._columns, self._rows, columns)

    def copy(self) -> Stands:
        """One on which more may be closed; what is known of the drawing is shared."""
        new = copy(self)
        new._open, new._doubtful, new._lines = self._open[:], self._doubtful[:], self._lines[:]
        return new

    def close_on(self, boxes: Iterable[Box]) -> None:
        """The places that lie on a box."""
        for box in boxes:
            columns, rows = self._near(box)
            for row in rows:
                self._open[row] &= ~columns

    def keep_off(self, lines: Sequence[Line]) -> None:
        """Places that may lie on a line are held against it only where that matters: see `is_off_lines`."""
        self._lines += lines
        for line in lines:
            columns, rows = self._near(bounds(line))
            for row in rows:
                self._doubtful[row] |= columns

    def may_be_open(self, row: int) -> int:
        """The same as `row` but for the drawing, which takes longer to ask."""
        return self._open[row]

    def row(self, row: int) -> int:
        """The places of a row that are open, as bits."""
        found = self._open[row]
        if found and self.form.disc is None:
            found &= self._metal.row(row)
        return found and found & self._inked.row(row)

    def is_off_lines(self, at: Place) -> bool:
        if not self._doubtful[at.row] >> at.column & 1:
            return True
        return not any(map(self.box(at).grown(self._gap).crossed_by, self._lines))

    def is_off_metal(self, at: Place) -> bool:
        return self._metal.row(at.row) >> at.column & 1 == 1

    def box(self, at: Place) -> Box:
        columns, rows = self._columns, self._rows
        return Box(columns.starts[at.column], rows.starts[at.row], columns.ends[at.column], rows.ends[at.row])

    def _near(self, box: Box) -> tuple[int, range]:
        columns, rows = self._kept
        return _bits(columns.over(box.left, box.right)), rows.over(box.top, box.bottom)


def nearest(stands: Sequence[Stands]) -> Iterator[tuple[Place, Stands]]:
    """Whatever is open to any of them, the places that are nearest to the thing first."""
    rows: list[tuple[int, ...]] = [()] * len(_STEPS)
    any_open = [reduce(or_, [stand.may_be_open(row) for stand in stands]) for row in range(len(_STEPS))]
    for at in _places():
        row, column = at.row, at.column
        if not any_open[row] >> column & 1:
            continue
        if not rows[row]:
            rows[row] = tuple(stand.row(row) for stand in stands)
            any_open[row] = reduce(or_, rows[row])
        for stand, columns in zip(stands, rows[row], strict=True):
            if columns >> column & 1:
                yield at, stand


@lru_cache(maxsize=10)
def _ways(side: str) -> tuple[int, ...]:
    """The places from which a leader comes to the thing without doubling back, where it meets the label at `side`."""
    rows = [0] * len(_STEPS)
    for at in _places():
        right, down = at.right, at.down
        comes = {
            "": True,
            "left": right >= CLEAR + LEVEL,
            "right": -right >= CLEAR + LEVEL,
            "above": down >= abs(right) + STEEP,
            "below": -down >= abs(right) + STEEP,
        }
        if comes[side]:
            rows[at.row] |= 1 << at.column
    return tuple(rows)


@lru_cache(maxsize=1)
def _places() -> tuple[Place, ...]:
    found = (
        Place(hypot(right, down), right, down, row, column)
        for column, right in enumerate(_STEPS)
        for row, down in enumerate(_STEPS)
    )
    near = (place for place in found if 1.5 * STEP <= place.far <= REACH)
    return tuple(sorted(near, key=lambda place: (place.far, place.down, place.right)))


def _bits(columns: range) -> int:
    return (1 << columns.stop) - (1 << columns.start) if columns else 0
