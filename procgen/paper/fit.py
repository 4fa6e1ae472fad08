"""Widths of columns, from the fonts' own metrics, so that tables can be fixed and nothing breaks inside a number."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from procgen.draw.fonts import FIGURE, HEAD, SUB, TEXT, Fonts
from procgen.model.card import Arm, Box, Figure, Grid, Hold, Path, Prose, Row, plain
from procgen.paper.page import Line, Page
from procgen.paper.sizes import Sizes

_MM = 25.4 / 72
BOXES_AT_MOST = 4
"""More readings than this are taken on the reading sheet; the card only says what to read."""

BLANK_HEIGHT = 11.0
INITIALS = (17.0, 11.0)
_CELL_GAP = 1.5


@dataclass(frozen=True)
class GridPiece:
    head: tuple[str, ...]
    rows: tuple[tuple[str, tuple[Figure, ...]], ...]
    widths: tuple[float, ...]
    large: bool  # figures at value size; else at step size


@dataclass(frozen=True)
class Clause:
    """One line of a condition. `alternative`: begins another way to take the arm; `more`: another clause must hold too."""

    words: Prose
    alternative: bool
    more: bool


@dataclass(frozen=True)
class ArmRow:
    """An arm with its condition's lines: the last sits on the arm, the rest stand above it across the card."""

    arm: Arm
    lines: tuple[Clause, ...]
    classes: str


@dataclass(frozen=True)
class Fit:
    fonts: Fonts
    sizes: Sizes
    page: Page
    line: Line

    @property
    def text(self) -> float:
        """Width of the text column, mm."""
        return self.page.across - self.line.column

    @property
    def blank_width(self) -> float:
        """Of a box to write a figure in: five digits by hand at 8 mm, or what there is room for."""
        return min(40.0, 0.42 * self.text)

    def width(self, text: str, family: str, size: float, bold: bool = False) -> float:
        return self.fonts.width(text, family, size * _MM, bold)

    def figure(self, figure: Figure, large: bool = True) -> float:
        if figure.state in ("blank", "wanting"):
            return self.blank_width
        size = self.sizes.value if large else self.sizes.step
        text = figure.text if figure.state == "known" else "–"
        width = self.width(text, FIGURE, size)
        if figure.relation:
            width += self.width(figure.relation + " ", FIGURE, size * 0.9)
        if figure.unit:
            width += self.width(" " + figure.unit, TEXT, self.sizes.step)
        if figure.variant:
            width += self.width(figure.variant + "  ", TEXT, self.sizes.step)
        also = self.width(f"({figure.also})", TEXT, self.sizes.step) if figure.also else 0.0
        return max(width, also) * 1.02 + 0.3

    def value_widths(self, rows: Sequence[Row]) -> tuple[float, float]:
        """Label and figure columns of a table of values."""
        whole = self.text - self.line.number
        figures = min(max(self.figure(figure) for row in rows for figure in row.figures), whole * 0.75)
        return whole - figures, figures

    def grid_pieces(self, grid: Grid) -> tuple[GridPiece, ...]:
        """The table at value size if it fits across; else at step size; else as several, each with the members' column.

        A table with more rows than a face is likely to hold is cut between rows too.
        """
        for large in (True, False):
            widths = self._columns(grid, large)
            if sum(widths) <= self.text:
                break
        tall = self._rows_at_most(grid, large)
        pieces, start = [], 1
        while start < len(widths):
            end = start + 1
            while end < len(widths) and widths[0] + sum(widths[start : end + 1]) <= self.text:
                end += 1
            pieces += [
                self._piece(grid, range(start, end), slice(row, row + tall), widths, large)
                for row in range(0, len(grid.rows), tall)
            ]
            start = end
        return tuple(pieces)

    def _rows_at_most(self, grid: Grid, large: bool) -> int:
        figures = [figure for _, figures in grid.rows for figure in figures]
        line = (1.12 * self.sizes.value if large else 1.24 * self.sizes.step) * _MM
        if any(figure.state in ("blank", "wanting") for figure in figures):
            line = max(line, BLANK_HEIGHT)
        if any(figure.also for figure in figures):
            line += 1.24 * self.sizes.step * _MM
        row = line + 0.06 * self.sizes.step + 0.25
        around = 45.0 + 4 * 1.24 * self.sizes.step * _MM  # header, foot, arrow and the table's own head
        return max(int((self.page.height - around) / row), 1)

    def _columns(self, grid: Grid, large: bool) -> list[float]:
        def head(text: str) -> float:
            return max(self.width(word, SUB, self.sizes.step) for word in text.split() or [""])

        first = max(
            [head(grid.head[0])] + [self.width(member, TEXT, self.sizes.step, bold=True) for member, _ in grid.rows]
        )
        columns = [first + _CELL_GAP + 1]
        for index, text in enumerate(grid.head[1:]):
            figures = [self.figure(figures[index], large) for _, figures in grid.rows]
            columns.append(max([head(text), *figures]) + _CELL_GAP)
        return columns

    def _piece(self, grid: Grid, columns: range, rows: slice, widths: list[float], large: bool) -> GridPiece:
        chosen = [widths[0], *(widths[i] for i in columns)]
        spare = max(self.text - sum(chosen), 0.0) / len(chosen)
        return GridPiece(
            (grid.head[0], *(grid.head[i] for i in columns)),
            tuple((member, tuple(figures[i - 1] for i in columns)) for member, figures in grid.rows[rows]),
            tuple(round(width + spare, 3) for width in chosen),
            large,
        )

    def arm_columns(self, path: Path) -> tuple[float, float, float]:
        """Bend, condition and action columns: all bars stand in one column."""
        bend = self.line.x + self.line.thick + self.line.bend
        rest = self.page.across - bend
        pad = self.line.thick * 1.15 + 0.1 * self.sizes.step + 0.5
        wanted = max(self.width(arm.action, HEAD, self.sizes.value) for arm in path.arms) + pad
        words = [word for arm in path.arms for word in arm.action.split()]
        least = max(self.width(word, HEAD, self.sizes.value) for word in words) + pad
        then = max(min(wanted, 0.52 * rest), least, 0.4 * rest)
        return round(bend, 3), round(rest - then, 3), round(then, 3)

    def arm_rows(self, path: Path) -> tuple[ArmRow, ...]:
        taken = next((i for i, arm in enumerate(path.arms) if arm.taken), None)
        rows = []
        for i, arm in enumerate(path.arms):
            names = [] if taken is None else ["taken" if i == taken else "before" if i < taken else "beyond"]
            names += ["last"] if i == len(path.arms) - 1 else []
            lines = [
                Clause(words, n > 0 and k == 0, k < len(clauses) - 1)
                for n, clauses in enumerate(arm.conditions)
                for k, words in enumerate(clauses)
            ]
            rows.append(ArmRow(arm, tuple(lines), " ".join(names)))
        return tuple(rows)

    def initials_room(self, hold: Hold) -> float:
        return len(hold.signers) * (INITIALS[0] + 2.0) + 1.0

    def hold_beside(self, hold: Hold) -> bool:
        """Whether the initials stand beside the text: where that leaves it a fair line, or where it is short anyway."""
        left = self.page.across - 2 * (INITIALS[0] + 2.0) - 1.0
        return left >= 16 * self.width("n", TEXT, self.sizes.step) or len(plain(hold.text)) < 24

    def reading_count(self, box: Box) -> int:
        return max(len(box.members), 1) * max(len(box.stations), 1) * max(len(box.axes), 1)

    def title(self, text: str, largest: float, least: float) -> float:
        """The title's size: on one line at the largest that fits, never under the least."""
        one = self.width(text, HEAD, 1.0)
        return max(min(largest, int(self.page.across / one * 20) / 20), least)
