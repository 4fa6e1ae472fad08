"""Widths of columns, from the fonts' own metrics, so that tables can be fixed and nothing breaks inside a number."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from procgen.draw.fonts import FIGURE, HEAD, TEXT, Fonts
from procgen.model.card import Box, Figure, Hold, Row, plain
from procgen.paper.page import Line, Page
from procgen.paper.sizes import POINT, Sizes
from procgen.paper.words import is_words, tidy

BOX_ROWS_AT_MOST = 2
"""Readings that take more rows of boxes are taken on the reading sheet; the card only says what to read."""

BLANK_HEIGHT = 11.0
SHORT_WIDTH = 20.0  # of a box for one word or letter
INITIALS = (17.0, 11.0)


@dataclass(frozen=True)
class ValueTable:
    """`rows` with large figures; `lists` are figures too long for that, set as text. `widths`: label and figure, mm."""

    rows: tuple[Row, ...]
    lists: tuple[Row, ...]
    widths: tuple[float, float]


@dataclass(frozen=True)
class Fit:
    """What text takes in these fonts and sizes, on that page."""

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
        """mm, for a size in points; figures are set with digits equally wide."""
        return self.fonts.width(text, family, size * POINT, bold, tabular=family == FIGURE)

    def lines(self, text: str, family: str, size: float, width: float, bold: bool = False, used: float = 0.0) -> int:
        """How many lines a text takes in a column, filled word by word; `used` of the first is taken already."""
        space = self.width(" ", family, size, bold)
        count = 1
        for word in text.split():
            wide = self.width(word, family, size, bold)
            if used and used + space + wide > width:
                count, used = count + 1, wide
            else:
                used += wide + (space if used else 0.0)
        return count

    def figure(self, figure: Figure, large: bool = True, many: bool = False) -> float:
        """The width of a figure as it is set; where there are `many`, its other unit stands beside it."""
        if figure.state in ("blank", "wanting"):
            return self.blank_width
        if is_words(figure):
            return self.width(tidy(f"{figure.text}{figure.space}{figure.unit}"), TEXT, self.sizes.step, bold=True) + 0.5
        size = self.sizes.value if large else self.sizes.step
        text = figure.text if figure.state == "known" else "–"
        width = self.width(text, FIGURE, size)
        if figure.relation:
            width += self.width(figure.relation + " ", FIGURE, size * 0.9)
        if figure.unit:
            width += self.width(tidy(figure.space) + figure.unit, TEXT, self.sizes.step)
        if figure.variant:
            width += self.width(figure.variant + "  ", TEXT, self.sizes.step)
        also = self.width(f"({figure.also})", TEXT, self.sizes.step) if figure.also else 0.0
        return (width + also + 1.0 if many else max(width, also)) * 1.02 + 0.3

    def value_table(self, rows: Sequence[Row]) -> ValueTable:
        whole = self.text - self.line.number
        most = 0.7 * whole
        lists = tuple(row for row in rows if any(self.figure(f, many=len(row.figures) > 1) > most for f in row.figures))
        rest = tuple(row for row in rows if row not in lists)
        figures = [self.figure(figure, many=len(row.figures) > 1) for row in rest for figure in row.figures]
        width = max(figures, default=0.0)
        return ValueTable(rest, lists, (round(whole - width, 3), round(width, 3)))

    def hold_beside(self, hold: Hold) -> bool:
        """Whether the initials stand beside the text: where that leaves it a fair line, or where it is short anyway."""
        left = self.page.across - 2 * (INITIALS[0] + 2.0) - 1.0
        return left >= 16 * self.width("n", TEXT, self.sizes.step) or len(plain(hold.text)) < 24

    def reading_count(self, box: Box) -> int:
        return max(len(box.members), 1) * max(box.depths, len(box.stations), 1) * max(len(box.axes), 1)

    def boxes_at_most(self, box: Box) -> int:
        """How many boxes of that reading the rows hold that a card gives it; four where they stand two abreast."""
        blank = SHORT_WIDTH if box.choices else self.blank_width
        label = max((self.width(member, TEXT, self.sizes.step, True) + 1.0 for member in _labels(box)), default=0.0)
        abreast = int((self.text - self.line.number) / (label + blank + 3.5))
        return BOX_ROWS_AT_MOST * min(max(abreast, 1), 2)

    def box_beside(self, box: Box) -> bool:
        """Whether the box of a single reading stands beside its words: where that takes less height than beneath."""
        words = " ".join((box.title, "with", box.gauge, box.where, box.how, *box.stations, box.expect))
        whole, size, high = self.text - self.line.number, self.sizes.step, 1.24 * self.sizes.step * POINT
        beneath = high * self.lines(words, TEXT, size, whole) + BLANK_HEIGHT + 1.0
        beside = high * self.lines(words, TEXT, size, whole - self.blank_width - 2.0)
        return max(beside, BLANK_HEIGHT) < beneath

    def title(self, text: str, largest: float, least: float) -> float:
        """The title's size: on one line at the largest that fits, never under the least."""
        one = self.width(text, HEAD, 1.0)
        return max(min(largest, int(self.page.across / one * 20) / 20), least)


def _labels(box: Box) -> tuple[str, ...]:
    """What stands before its boxes."""
    return box.members or (() if box.stations else tuple(words for _, words in box.axes))
