"""Which parts of the paper are taken by lines and metal, on a fine grid: so that a box is tested in four look-ups."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate, pairwise
from math import ceil, floor, hypot

from procgen.draw.boxes import Box, Spot


class Grid:
    """Cells of `cell` mm over `frame`; what lies outside it counts as free."""

    def __init__(self, frame: Box, cell: float = 0.8) -> None:
        self._frame, self._cell = frame, cell
        self._across = max(1, ceil((frame.right - frame.left) / cell))
        self._down = max(1, ceil((frame.bottom - frame.top) / cell))
        self._rows = [bytearray(self._across) for _ in range(self._down)]
        self._sums: list[list[int]] = []

    def line(self, points: Sequence[Spot]) -> None:
        for (x, y), (to_x, to_y) in pairwise(points):
            steps = max(1, ceil(hypot(to_x - x, to_y - y) / self._cell * 1.5))
            for n in range(steps + 1):
                self._take(x + (to_x - x) * n / steps, y + (to_y - y) * n / steps)

    def polygon(self, points: Sequence[Spot]) -> None:
        """Its inside and its edge."""
        edges = list(pairwise((*points, points[0])))
        for row in range(self._down):
            y = self._frame.top + (row + 0.5) * self._cell
            cuts = sorted(
                x + (y - from_y) / (to_y - from_y) * (to_x - x)
                for (x, from_y), (to_x, to_y) in edges
                if (from_y > y) != (to_y > y)
            )
            for start, end in zip(cuts[::2], cuts[1::2], strict=True):
                first, last = self._column(start), self._column(end)
                if last >= 0 and first < self._across:
                    first, last = max(first, 0), min(last, self._across - 1)
                    self._rows[row][first : last + 1] = b"\x01" * (last - first + 1)
        self.line((*points, points[0]))

    def is_free(self, box: Box) -> bool:
        """Whether no cell under the box is taken. Nothing may be marked after the first question."""
        if not self._sums:
            self._add_up()
        frame, cell = self._frame, self._cell
        left = min(max(int((box.left - frame.left) / cell), 0), self._across)
        right = min(max(int((box.right - frame.left) / cell) + 1, 0), self._across)
        low = self._sums[min(max(int((box.bottom - frame.top) / cell) + 1, 0), self._down)]
        high = self._sums[min(max(int((box.top - frame.top) / cell), 0), self._down)]
        return low[right] - high[right] - low[left] + high[left] == 0

    def is_taken(self, spot: Spot) -> bool:
        column, row = self._column(spot[0]), self._row(spot[1])
        return 0 <= column < self._across and 0 <= row < self._down and bool(self._rows[row][column])

    def _take(self, x: float, y: float) -> None:
        column, row = self._column(x), self._row(y)
        if 0 <= column < self._across and 0 <= row < self._down:
            self._rows[row][column] = 1

    def _add_up(self) -> None:
        self._sums = [[0] * (self._across + 1)]
        for row in self._rows:
            above = self._sums[-1]
            self._sums.append([up + own for up, own in zip(above, accumulate(row, initial=0), strict=True)])

    def _column(self, x: float) -> int:
        return floor((x - self._frame.left) / self._cell)

    def _row(self, y: float) -> int:
        return floor((y - self._frame.top) / self._cell)
