"""Card stocks that nobody can print on."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.check.context import Context
from procgen.files.problems import Problem, error
from procgen.model.workshop import Hole, Stock

SEAL_MIN = 3.0
"""mm of film round a card. Source: makers of pouches ask for 2 mm and more; common practice, no source."""

LEAST = (50.0, 60.0)
"""mm across and down, inside the seal: a short line of words and a few of them, at the nearest distance."""

CORNER_MAX = 15.0
DEEPEST = 4
"""A hole may take away the outer fourth of the shorter side, no more."""


def stocks(context: Context) -> Iterator[Problem]:
    """A seal margin too narrow to hold, a stock that its margins leave no room on, corners or a hole that cut into the
    text, a hole off the card."""
    for stock in context.workshop.stocks.values():
        across, down = stock.width - 2 * stock.seal_margin, stock.height - 2 * stock.seal_margin
        if stock.seal_margin < SEAL_MIN:
            yield error(
                "narrow-seal",
                f"stock {stock.id}: a seal margin of {stock.seal_margin:g} mm does not hold; at least {SEAL_MIN:g} mm",
                stock.place,
                "make `seal_margin` 5 mm, which holds where it is oily",
            )
        elif across < LEAST[0] or down < LEAST[1]:
            yield error(
                "small-stock",
                f"stock {stock.id}: its margins leave {max(across, 0):g} × {max(down, 0):g} mm of "
                f"{stock.width:g} × {stock.height:g} mm; a card needs {LEAST[0]:g} × {LEAST[1]:g} mm",
                stock.place,
                "make `size` larger or `seal_margin` narrower",
            )
        elif stock.corner_radius > CORNER_MAX:
            yield error(
                "round-corners",
                f"stock {stock.id}: corners of {stock.corner_radius:g} mm radius cut into the text",
                stock.place,
                f"make `corner_radius` {CORNER_MAX:g} mm at most",
            )
        elif stock.hole is not None:
            yield from _hole(stock, stock.hole)


def _hole(stock: Stock, hole: Hole) -> Iterator[Problem]:
    half = max(hole.across, hole.length) / 2, hole.across / 2
    x, y = hole.centre
    edges = (x - half[0], y - half[1], stock.width - x - half[0], stock.height - y - half[1])
    if min(edges) < SEAL_MIN:
        yield error(
            "hole-at-edge",
            f"stock {stock.id}: its hole comes to {min(edges):g} mm from the edge; film holds from {SEAL_MIN:g} mm",
            stock.place,
            "`centre` is measured from the left top corner of the front; move it in",
        )
        return
    taken = min(edge + 2 * h + hole.keep_clear for edge, h in zip(edges, (*half, *half), strict=True))
    most = min(stock.width, stock.height) / DEEPEST
    if taken > most:
        yield error(
            "hole-over-text",
            f"stock {stock.id}: its hole, with {hole.keep_clear:g} mm kept clear, stands over the text: it reaches "
            f"{taken:g} mm in from the nearest edge, and {most:g} mm may be taken",
            stock.place,
            "move `centre` nearer to an edge, or make the hole smaller",
        )
