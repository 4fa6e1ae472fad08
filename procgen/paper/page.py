"""Where things lie on a card: margins, the hole's keep-out, the columns of the line of work. Millimetres throughout."""

from __future__ import annotations

from dataclasses import dataclass, replace

from procgen.model.workshop import Stock
from procgen.paper.sizes import Sizes

Span = tuple[float, float]


@dataclass(frozen=True)
class Page:
    """One face of a stock. `row` are the two stretches of the header's row that the hole leaves free, from the left."""

    width: float
    height: float
    side: float
    top: float
    foot: float
    row: tuple[Span, Span]
    row_bottom: float  # what the hole asks to be kept clear ends here, from the top edge; 0 without a hole

    @property
    def across(self) -> float:
        """The width between the side margins."""
        return self.width - 2 * self.side


@dataclass(frozen=True)
class Line:
    """The measures of the line of work, all from the step size (pt)."""

    column: float  # from the left margin to the text
    thick: float
    thin: float
    box: float
    stroke: float  # of everything that a pen fills
    number: float
    bend: float
    gap: float  # between steps
    part: float  # between parts

    @property
    def x(self) -> float:
        """The left edge of the line, from the left margin."""
        return (self.box - self.thick) / 2


def page(stock: Stock) -> Page:
    """Margins clear of the seal, and of a hole: the margin that it takes least of goes round it.

    A hole off the middle is mirrored on the back, so the mirrored place is kept clear too, on every face.
    """
    side = max(6.5 if stock.width < 120 else 8.0, stock.seal_margin + 1.5)
    top, foot = max(5.5, stock.seal_margin + 0.5), max(6.0, stock.seal_margin + 1.0)
    hole = stock.hole
    row_bottom = 0.0
    row: tuple[Span, Span] = ((side, stock.width / 2 - 1), (stock.width / 2 + 1, stock.width - side))
    if hole is not None:
        x, y = hole.centre
        half = max(hole.across, hole.length) / 2 + hole.keep_clear
        high = hole.across / 2 + hole.keep_clear
        x = min(x, stock.width - x)
        above, below, beside = y + high, stock.height - y + high, x + half
        if above <= min(below, beside):
            row_bottom = above
            row = _free(side, stock.width, x - half, x + half)
        elif below <= beside:
            foot = max(foot, below + 1.0)
        else:
            side = max(side, x + half)
            row = ((side, stock.width / 2 - 1), (stock.width / 2 + 1, stock.width - side))
    return Page(stock.width, stock.height, side, top, foot, row, row_bottom)


def _free(side: float, width: float, start: float, end: float) -> tuple[Span, Span]:
    """The two stretches beside a keep-out and its mirror image: outside both when there is room, else between them."""
    if start - side >= 20:
        return (side, start), (width - start, width - side)
    middle = width / 2
    return (max(side, end), middle - 1), (middle + 1, width - max(side, end))


def line(sizes: Sizes) -> Line:
    b = sizes.step
    thick = 0.085 * b
    return Line(
        column=0.82 * b,
        thick=thick,
        thin=0.4 * thick,
        box=max(0.5 * b, 6.0),
        stroke=0.6,
        number=0.55 * b,  # two digits
        bend=0.2 * b,
        gap=0.16 * b,
        part=min(max(0.2 * b, 2.0), 3.0),
    )


def glance_line(sizes: Sizes) -> Line:
    """Nothing is ticked on a glance card, so its line runs down the margin and leaves the width to the words."""
    full = line(sizes)
    return replace(full, column=full.thick + 0.12 * sizes.step, box=full.thick, number=0.0, bend=0.12 * sizes.step)
