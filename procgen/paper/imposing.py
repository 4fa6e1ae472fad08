"""Where cards lie on a sheet of paper, and where their backs must be printed to end up behind them. Millimetres."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from procgen.model.workshop import Sheets, Stock

PAPERS = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
"""Width and height upright. Source: ISO 216; ANSI/ASME Y14.1, size A."""

GUTTER = 6.0
"""Between cards where there is room for it: two cuts are surer than one."""

_LOOSE = 0.05  # inch sizes in millimetres round


@dataclass(frozen=True)
class Grid:
    """Cards in rows and columns on a sheet. A fold has two cards, front and back, in each of its cells."""

    paper: str
    width: float  # of the sheet as it lies
    height: float
    card: tuple[float, float]
    cell: tuple[float, float]
    columns: int
    rows: int
    gutter: tuple[float, float]

    @property
    def landscape(self) -> bool:
        return self.width > self.height

    @property
    def count(self) -> int:
        return self.columns * self.rows

    def left(self, column: int) -> float:
        across = self.columns * self.cell[0] + (self.columns - 1) * self.gutter[0]
        return (self.width - across) / 2 + column * (self.cell[0] + self.gutter[0])

    def top(self, row: int) -> float:
        down = self.rows * self.cell[1] + (self.rows - 1) * self.gutter[1]
        return (self.height - down) / 2 + row * (self.cell[1] + self.gutter[1])


@dataclass(frozen=True)
class Placed:
    """Face number `face` (from 0) of the deck with its left top corner at `x`, `y` from the sheet's left top corner;
    `turned`: upside down. `back`: it is a card's back, so that a hole off the middle is mirrored."""

    face: int
    x: float
    y: float
    turned: bool
    back: bool


@dataclass(frozen=True)
class Sheet:
    """What lies on the two sides of a sheet of paper."""

    front: tuple[Placed, ...]
    back: tuple[Placed, ...]


def grid(stock: Stock, sheets: Sheets) -> Grid | None:
    """The layout with the most cards on a sheet; of several the first paper's, and of those the one with most room
    round the cards. None where the stock fits on no paper."""
    found = [
        one
        for paper in ([sheets.paper] if sheets.paper else PAPERS)
        for cell in _cells(stock, sheets.duplex)
        for size in (PAPERS[paper], PAPERS[paper][::-1])
        if (one := _grid(paper, size, (stock.width, stock.height), cell)).count
    ]
    order = list(PAPERS)
    return max(found, key=lambda one: (one.count, -order.index(one.paper), min(one.left(0), one.top(0))), default=None)


def back_of(row: int, column: int, one: Grid, duplex: str) -> tuple[int, int, bool]:
    """Row, column and whether upside down, for the back of the card in a cell of the front.

    The sheet turns about its long or its short edge, which stand up or lie as the sheet does; the card must turn like
    the page of a book. Source: geometry.
    """
    if (duplex == "short") == one.landscape:  # about an upright edge
        return row, one.columns - 1 - column, False
    return one.rows - 1 - row, column, True


def impose(faces: tuple[int, ...], one: Grid, duplex: str) -> Iterator[Sheet]:
    """Sheets for cards of so many faces each, in order; a card begins on a leaf of its own."""
    leaves: list[tuple[int, int | None]] = []
    first = 0
    for count in faces:
        last = first + count
        leaves += [(face, face + 1 if face + 1 < last else None) for face in range(first, last, 2)]
        first = last
    for start in range(0, len(leaves), one.count):
        front: list[Placed] = []
        back: list[Placed] = []
        for at, (face, behind) in enumerate(leaves[start : start + one.count]):
            row, column = divmod(at, one.columns)
            if duplex == "fold":
                front += _folded(face, behind, one.left(column), one.top(row), one)
                continue
            front.append(Placed(face, one.left(column), one.top(row), False, False))
            if behind is not None:
                row, column, turned = back_of(row, column, one, duplex)
                back.append(Placed(behind, one.left(column), one.top(row), turned, True))
        yield Sheet(tuple(front), tuple(back))


def folds_upright(one: Grid) -> bool:
    """Whether the fold between front and back is an upright line."""
    return one.cell[0] > one.card[0]


def _folded(face: int, behind: int | None, x: float, y: float, one: Grid) -> Iterator[Placed]:
    """Beside its front a back folds behind it upright; above it, upside down."""
    upright = folds_upright(one)
    yield Placed(face, x, y if upright else y + one.card[1], False, False)
    if behind is not None:
        yield Placed(behind, x + one.card[0] if upright else x, y, not upright, True)


def _cells(stock: Stock, duplex: str) -> list[tuple[float, float]]:
    if duplex == "fold":
        return [(2 * stock.width, stock.height), (stock.width, 2 * stock.height)]
    return [(stock.width, stock.height)]


def _grid(paper: str, size: tuple[float, float], card: tuple[float, float], cell: tuple[float, float]) -> Grid:
    columns, rows = (int((have + _LOOSE) / need) for have, need in zip(size, cell, strict=True))
    gutters = [
        GUTTER if count > 1 and count * need + (count - 1) * GUTTER <= have + _LOOSE else 0.0
        for have, need, count in zip(size, cell, (columns, rows), strict=True)
    ]
    return Grid(paper, *size, card, cell, columns, rows, (gutters[0], gutters[1]))
