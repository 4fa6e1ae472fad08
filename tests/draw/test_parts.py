"""The small parts that drawings are made with, against brute force and plain geometry."""

import random
from itertools import pairwise
from math import sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as some

from procgen.draw.boxes import Box, first_crossed, lines_cross
from procgen.draw.fixed import spread
from procgen.draw.grid import Grid
from procgen.draw.hatch import hatch

RING = tuple(
    (20 + 10 * float(np.cos(a)), 20 + 10 * float(np.sin(a))) for a in np.linspace(0, 2 * np.pi, 120, endpoint=False)
)
INNER = tuple(
    (20 + 6 * float(np.cos(a)), 20 + 6 * float(np.sin(a))) for a in np.linspace(0, 2 * np.pi, 120, endpoint=False)
)


@pytest.mark.parametrize(
    ("rings", "area"),
    [([((0.0, 0.0), (40.0, 0.0), (40.0, 30.0), (0.0, 30.0))], 1200.0), ([RING, INNER], np.pi * (100 - 36))],
)
def test_hatch_covers_its_area(rings: list[tuple[tuple[float, float], ...]], area: float) -> None:
    """Lines a pitch apart are together as long as the area over the pitch."""
    lines = list(hatch(rings, 0.5))
    total = sum(sqrt((x - to_x) ** 2 + (y - to_y) ** 2) for (x, y), (to_x, to_y) in lines)
    assert total == pytest.approx(area / 0.5, rel=0.02)
    slopes = {round((to_y - y) / (to_x - x), 6) for (x, y), (to_x, to_y) in lines}
    assert slopes == {-1.0}  # down is positive: they rise to the right at 45°


def test_hatch_leaves_a_hole_open() -> None:
    for (x, y), (to_x, to_y) in hatch([RING, INNER], 0.7):
        middle = np.hypot((x + to_x) / 2 - 20, (y + to_y) / 2 - 20)
        assert 5.99 <= middle <= 10.0


numbers = some.floats(-50, 50)


@given(some.lists(some.tuples(numbers, some.floats(1, 20)), min_size=1, max_size=7), some.integers(0, 10**6))
def test_spread_is_the_nearest_order_without_overlap(rows: list[tuple[float, float]], seed: int) -> None:
    chance = random.Random(seed)
    wanted, heights = [row[0] for row in rows], [row[1] for row in rows]
    found = spread(wanted, heights)
    assert all(b - a >= height - 1e-6 for a, b, height in zip(found, found[1:], heights, strict=False))
    cost = sum((a - b) ** 2 for a, b in zip(found, wanted, strict=True))
    for _ in range(30):  # no other order without overlap comes nearer
        other = [chance.uniform(-60, 60)]
        for height in heights[:-1]:
            other.append(other[-1] + height + chance.expovariate(1))
        assert cost <= sum((a - b) ** 2 for a, b in zip(other, wanted, strict=True)) + 1e-6


@given(some.tuples(numbers, numbers), some.tuples(numbers, numbers))
def test_line_through_a_box(start: tuple[float, float], end: tuple[float, float]) -> None:
    """Against points along the line: one that is well inside means a crossing, none near means no crossing."""
    box = Box(-10, -5, 12, 9)
    shares = np.linspace(0, 1, 400)
    x, y = start[0] + shares * (end[0] - start[0]), start[1] + shares * (end[1] - start[1])
    deep = ((x > -9.99) & (x < 11.99) & (y > -4.99) & (y < 8.99)).any()
    near = ((x > -10.5) & (x < 12.5) & (y > -5.5) & (y < 9.5)).any()
    if deep:
        assert box.crossed_by((start, end))
    if not near:
        assert not box.crossed_by((start, end))


boxes_about = some.tuples(numbers, numbers, some.floats(0, 30), some.floats(0, 30)).map(
    lambda at: Box(at[0], at[1], at[0] + at[2], at[1] + at[3])
)


@given(some.tuples(numbers, numbers), some.tuples(numbers, numbers), some.lists(boxes_about, max_size=6).map(tuple))
def test_the_first_box_that_a_line_crosses(
    start: tuple[float, float], end: tuple[float, float], boxes: tuple[Box, ...]
) -> None:
    crossed = [n for n, box in enumerate(boxes) if box.crossed_by((start, end))]
    assert first_crossed((start, end), boxes) == (crossed[0] if crossed else None)


def test_lines_that_cross() -> None:
    assert lines_cross(((0, 0), (10, 10)), ((0, 10), (10, 0)))
    assert not lines_cross(((0, 0), (10, 10)), ((0, 10), (4, 6)))
    assert not lines_cross(((0, 0), (10, 0)), ((0, 0), (5, 5)))  # they share an end


@given(some.lists(some.tuples(some.floats(0, 40), some.floats(0, 30)), min_size=2, max_size=5),
       some.tuples(some.floats(0, 35), some.floats(0, 25), some.floats(0.5, 6)))  # fmt: skip
def test_a_box_on_the_grid_is_free_only_off_all_lines(
    points: list[tuple[float, float]], asked: tuple[float, float, float]
) -> None:
    grid = Grid(Box(0, 0, 40, 30))
    grid.lines([points])
    left, top, side = asked
    box = Box(left, top, left + side, top + side)
    if grid.is_free(box):
        assert not any(box.crossed_by(line) for line in pairwise(points))


def test_grid_fills_polygons() -> None:
    grid = Grid(Box(0, 0, 40, 40))
    grid.polygon(RING)
    for x in np.arange(1, 39, 1.7):
        for y in np.arange(1, 39, 1.7):
            far = np.hypot(x - 20, y - 20)
            if far < 9:
                assert not grid.is_free(Box(x, y, x, y))
            if far > 11.5:
                assert grid.is_free(Box(x, y, x, y))
    assert grid.length_taken(((0.5, 20), (20, 20))) == pytest.approx(9.5, abs=1.5)
