"""Section hatch as lines of its own, cut to the area: patterns come out differently from printer to printer."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import ceil, floor, sqrt

from procgen.draw.boxes import Line, Spot


def hatch(rings: Sequence[Sequence[Spot]], pitch: float) -> Iterator[Line]:
    """Lines rising to the right at 45°, `pitch` mm apart, inside the rings by the even-odd rule.

    Along such a line x + y (downward) is the same: that sum numbers the lines.
    """
    edges = [edge for ring in rings for edge in pairwise((*ring, ring[0]))]
    sums = [x + y for ring in rings for x, y in ring]
    step = pitch * sqrt(2)
    for n in range(ceil(min(sums) / step), floor(max(sums) / step) + 1):
        level = n * step
        cuts = sorted(_cuts(edges, level))
        for (x, y), (to_x, to_y) in zip(cuts[::2], cuts[1::2], strict=False):
            if to_x - x > 0.15:
                yield (x, y), (to_x, to_y)


def _cuts(edges: Sequence[Line], level: float) -> Iterator[Spot]:
    for (x, y), (to_x, to_y) in edges:
        before, after = x + y - level, to_x + to_y - level
        if (before > 0) != (after > 0):
            share = before / (before - after)
            yield x + share * (to_x - x), y + share * (to_y - y)
