"""Which parts of the paper are taken by lines and metal, on a fine grid: a row is one integer, a bit a cell, so that a
box is tested by three operations.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise
from math import ceil, floor, hypot

from procgen.draw.boxes import Box, Spot


class Grid:
    """Cells of `cell` mm over `frame`; what lies outside it counts as free. Nothing may be marked after the first
    question.
    """

    def __init__(self, frame: Box, cell: float = 0.8) -> None:
        self._frame, self._cell = frame, cell
        self._across = max(1, ceil((frame.right - frame.left) / cell))
        self._down = max(1, ceil((frame.bottom - frame.top) / cell))
        self._rows = [0] * self._down
        self._stacks = [self._rows]  # of 1, 2, 4, ... rows from each row downwards, what is taken in any of them

    def lines(self, lines: Iterable[Sequence[Spot]]) -> None:
        left, top, cell = self._frame.left, self._frame.top, self._cell
        for points in lines:
            cells = [(floor((x - left) / cell), floor((y - top) / cell)) for x, y in points]
            for n, (start, end) in enumerate(pairwise(cells)):
                if start[0] == end[0] or start[1] == end[1]:
                    self._straight(start, end)
                else:
                    self._slanting(points[n], points[n + 1])

    def polygon(self, points: Sequence[Spot]) -> None:
        """Its inside and its edge."""
        edges = list(pairwise((*points, points[0])))
        cuts: dict[int, list[float]] = {}
        for (x, from_y), (to_x, to_y) in edges:
            for row in self._rows_between(from_y, to_y):
                y = self._frame.top + (row + 0.5) * self._cell
                if (from_y > y) != (to_y > y):
                    cuts.setdefault(row, []).append(x + (y - from_y) / (to_y - from_y) * (to_x - x))
        for row, found in cuts.items():
            found.sort()
            for start, end in zip(found[::2], found[1::2], strict=True):
                self._rows[row] |= self._cells(self._column(start), self._column(end))
        self.lines([(*points, points[0])])

    def is_free(self, box: Box) -> bool:
        """Whether no cell under the box is taken."""
        return not self.across(box.left, box.right) & self.taken(box.top, box.bottom)

    def across(self, left: float, right: float) -> int:
        """The cells of a row from left to right, as bits."""
        return self.each_across([left], [right])[0]

    def each_across(self, lefts: Sequence[float], rights: Sequence[float]) -> list[int]:
        """The same for many, which are asked for together in the innermost loop of all drawing."""
        start, cell, across = self._frame.left, self._cell, self._across
        firsts = [int((left - start) / cell) for left in lefts]
        ends = [int((right - start) / cell) + 1 for right in rights]
        clipped = [
            (0 if first < 0 else first, across if end > across else end)
            for first, end in zip(firsts, ends, strict=True)
        ]
        return [(1 << end) - (1 << first) if end > first else 0 for first, end in clipped]

    def taken(self, top: float, bottom: float) -> int:
        """The cells that are taken in any row from top to bottom, as bits."""
        start, cell = self._frame.top, self._cell
        first = min(max(int((top - start) / cell), 0), self._down)
        end = min(max(int((bottom - start) / cell) + 1, 0), self._down)
        if end <= first:
            return 0
        level = (end - first).bit_length() - 1
        while len(self._stacks) <= level:
            last, half = self._stacks[-1], 1 << len(self._stacks) - 1
            self._stacks.append([one | other for one, other in zip(last, last[half:], strict=False)])
        stack = self._stacks[level]
        return stack[first] | stack[end - (1 << level)]

    def length_taken(self, path: Sequence[Spot]) -> float:
        """How much of a way is taken, looked at every millimetre or so."""
        left, top, cell, found = self._frame.left, self._frame.top, self._cell, 0.0
        for (x, y), (to_x, to_y) in pairwise(path):
            run, fall = to_x - x, to_y - y
            long = hypot(run, fall)
            steps, inside = max(1, int(long)), 0
            for n in range(steps):
                column, row = floor((x + run * n / steps - left) / cell), floor((y + fall * n / steps - top) / cell)
                if 0 <= column < self._across and 0 <= row < self._down:
                    inside += self._rows[row] >> column & 1
            found += inside * long / steps
        return found

    def _straight(self, start: tuple[int, int], end: tuple[int, int]) -> None:
        """The cells between two of a row or a column."""
        (column, row), (to_column, to_row) = start, end
        cells = self._cells(min(column, to_column), max(column, to_column))
        for n in range(max(min(row, to_row), 0), min(max(row, to_row), self._down - 1) + 1):
            self._rows[n] |= cells

    def _slanting(self, start: Spot, end: Spot) -> None:
        """The cells of spots so near to one another that none is passed over in a row or a column."""
        left, top, cell, rows = self._frame.left, self._frame.top, self._cell, self._rows
        (x, y), (to_x, to_y) = start, end
        run, fall = to_x - x, to_y - y
        steps = max(1, ceil(hypot(run, fall) / cell * 1.5))
        for n in range(steps + 1):
            column, row = floor((x + run * n / steps - left) / cell), floor((y + fall * n / steps - top) / cell)
            if 0 <= column < self._across and 0 <= row < self._down:
                rows[row] |= 1 << column

    def _cells(self, first: int, last: int) -> int:
        """The cells from the first to the last of two columns, as bits."""
        first, last = max(first, 0), min(last, self._across - 1)
        return (2 << last) - (1 << first) if first <= last else 0

    def _rows_between(self, y: float, to_y: float) -> range:
        """The rows whose middles may lie between two heights."""
        low, high = (y, to_y) if y < to_y else (to_y, y)
        return range(max(self._row(low), 0), min(self._row(high), self._down - 1) + 1)

    def _column(self, x: float) -> int:
        return floor((x - self._frame.left) / self._cell)

    def _row(self, y: float) -> int:
        return floor((y - self._frame.top) / self._cell)
