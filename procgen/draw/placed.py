"""Lettering that has its place, and the tests that keep anything else off it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from math import hypot

from procgen.draw.boxes import Box, Line, Spot, lines_cross
from procgen.draw.lettering import Form, Text


@dataclass(frozen=True, slots=True)
class Leader:
    points: tuple[Spot, ...]
    accent: bool
    dot: bool


@dataclass
class Placed:
    """Lettering on paper, mm. `boxes`: one for each label, badge and name that is set."""

    boxes: list[Box] = field(default_factory=list)
    texts: list[Text] = field(default_factory=list)
    discs: list[tuple[Spot, float]] = field(default_factory=list)
    leaders: list[Leader] = field(default_factory=list)
    lines: list[Line] = field(default_factory=list)  # of all leaders

    def set(self, form: Form, left: float, top: float, leader: Leader | None = None) -> None:
        self.boxes.append(form.box(left, top))
        self.texts += [text.moved(left, top) for text in form.texts]
        if form.disc is not None:
            (x, y), radius = form.disc
            self.discs.append(((x + left, y + top), radius))
        if leader is not None:
            self.leaders.append(leader)
            self.lines += pairwise(leader.points)

    def copy(self) -> Placed:
        return Placed([*self.boxes], [*self.texts], [*self.discs], [*self.leaders], [*self.lines])

    def is_clear(self, box: Box) -> bool:
        """Whether the box lies on no lettering and on no leader."""
        return not any(box.overlaps(other) for other in self.boxes) and not any(map(box.crossed_by, self.lines))

    def lets_pass(self, lines: Sequence[Line], gap: float, crossing: bool) -> bool:
        """Whether lines run through no lettering, `gap` round it kept; and across no leader, unless `crossing`."""
        return not any(other.grown(gap).crossed_by(line) for other in self.boxes for line in lines) and (
            crossing or not any(lines_cross(line, other) for line in lines for other in self.lines)
        )

    def moved(self, right: float, down: float) -> Placed:
        def shifted(spot: Spot) -> Spot:
            return spot[0] + right, spot[1] + down

        leaders = [Leader(tuple(map(shifted, each.points)), each.accent, each.dot) for each in self.leaders]
        return Placed(
            [box.moved(right, down) for box in self.boxes],
            [text.moved(right, down) for text in self.texts],
            [(shifted(at), radius) for at, radius in self.discs],
            leaders,
            [line for each in leaders for line in pairwise(each.points)],
        )


def apart(one: Spot, other: Spot) -> float:
    return hypot(one[0] - other[0], one[1] - other[1])


def straightened(points: tuple[Spot, Spot, Spot]) -> tuple[Spot, ...]:
    """A leader without a bend that is none."""
    (ax, ay), (bx, by), (cx, cy) = points
    return (points[0], points[2]) if abs((bx - ax) * (cy - ay) - (by - ay) * (cx - ax)) < 0.3 else points
