"""Boxes and straight lines on paper: do they touch? Millimetres, down and to the right."""

from __future__ import annotations

from collections.abc import Sequence

from procgen.values import dataclass

Spot = tuple[float, float]
Line = tuple[Spot, Spot]


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle on paper."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def middle(self) -> Spot:
        return (self.left + self.right) / 2, (self.top + self.bottom) / 2

    def grown(self, by: float) -> Box:
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)

    def moved(self, right: float, down: float) -> Box:
        return Box(self.left + right, self.top + down, self.right + right, self.bottom + down)

    def overlaps(self, other: Box) -> bool:
        """Whether they share any area; edges may touch."""
        return (
            self.left < other.right and other.left < self.right and self.top < other.bottom and other.top < self.bottom
        )

    def holds(self, other: Box) -> bool:
        return (
            self.left <= other.left
            and self.top <= other.top
            and other.right <= self.right
            and other.bottom <= self.bottom
        )

    def crossed_by(self, line: Line) -> bool:
        """Whether a line runs through the inside (Liang and Barsky: what lies between each pair of edges)."""
        (x, y), (to_x, to_y) = line
        if (x if x > to_x else to_x) <= self.left or (x if x < to_x else to_x) >= self.right:
            return False
        if (y if y > to_y else to_y) <= self.top or (y if y < to_y else to_y) >= self.bottom:
            return False
        enters, leaves = 0.0, 1.0
        for start, run, low, high in ((x, to_x - x, self.left, self.right), (y, to_y - y, self.top, self.bottom)):
            if abs(run) < 1e-12:
                if not low < start < high:
                    return False
                continue
            near, far = (low - start) / run, (high - start) / run
            if near > far:
                near, far = far, near
            enters, leaves = enters if enters > near else near, leaves if leaves < far else far
        return enters < leaves


def around(boxes: list[Box]) -> Box:
    """The smallest box that holds them all; at least one."""
    return Box(
        min(box.left for box in boxes),
        min(box.top for box in boxes),
        max(box.right for box in boxes),
        max(box.bottom for box in boxes),
    )


def bounds(line: Line) -> Box:
    """The smallest box that holds a line."""
    (x, y), (to_x, to_y) = line
    return Box(min(x, to_x), min(y, to_y), max(x, to_x), max(y, to_y))


def first_crossed(line: Line, boxes: Sequence[Box]) -> int | None:
    """Which of the boxes is the first that a line runs through the inside of; None where it runs through none."""
    (x, y), (to_x, to_y) = line
    left, right = (x, to_x) if x < to_x else (to_x, x)
    top, bottom = (y, to_y) if y < to_y else (to_y, y)
    for n, box in enumerate(boxes):
        if box.left < right and left < box.right and box.top < bottom and top < box.bottom and box.crossed_by(line):
            return n
    return None


def lines_cross(one: Line, other: Line) -> bool:
    """Whether two lines cross inside both; those that share an end do not."""
    (a, b), (c, d) = one, other
    return _side(a, b, c) * _side(a, b, d) < -1e-9 and _side(c, d, a) * _side(c, d, b) < -1e-9


def _side(a: Spot, b: Spot, c: Spot) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
