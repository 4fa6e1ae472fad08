"""Lettering that has its place, and the tests that keep anything else off it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import field
from itertools import pairwise
from math import hypot

from procgen.draw.boxes import Box, Line, Spot
from procgen.draw.lettering import Form, Text
from procgen.values import dataclass


@dataclass(frozen=True, slots=True)
class Leader:
    """A line from lettering to its thing; with a `dot` at its end, if asked for."""

    points: tuple[Spot, ...]
    accent: bool
    dot: bool


@dataclass(frozen=True, slots=True)
class Piece:
    """One label, badge or name with its leader. `optional`: it may give way."""

    box: Box
    texts: tuple[Text, ...]
    disc: tuple[Spot, float] | None
    leader: Leader | None
    optional: bool

    def moved(self, right: float, down: float) -> Piece:
        def shifted(spot: Spot) -> Spot:
            return spot[0] + right, spot[1] + down

        return Piece(
            self.box.moved(right, down),
            tuple(text.moved(right, down) for text in self.texts),
            None if self.disc is None else (shifted(self.disc[0]), self.disc[1]),
            self.leader and Leader(tuple(map(shifted, self.leader.points)), self.leader.accent, self.leader.dot),
            self.optional,
        )


@dataclass
class Placed:
    """Lettering on paper, mm: its pieces, and the same by kind for quick looking. Only `add` changes it."""

    pieces: list[Piece] = field(default_factory=list)
    boxes: list[Box] = field(default_factory=list)
    texts: list[Text] = field(default_factory=list)
    discs: list[tuple[Spot, float]] = field(default_factory=list)
    leaders: list[Leader] = field(default_factory=list)
    lines: list[Line] = field(default_factory=list)  # of all leaders

    def add(self, piece: Piece) -> None:
        self.pieces.append(piece)
        self.boxes.append(piece.box)
        self.texts += piece.texts
        if piece.disc is not None:
            self.discs.append(piece.disc)
        if piece.leader is not None:
            self.leaders.append(piece.leader)
            self.lines += pairwise(piece.leader.points)

    def set(self, form: Form, left: float, top: float, leader: Leader | None = None, optional: bool = False) -> None:
        """A form at its place."""
        texts = tuple(text.moved(left, top) for text in form.texts)
        disc = None if form.disc is None else ((form.disc[0][0] + left, form.disc[0][1] + top), form.disc[1])
        self.add(Piece(form.box(left, top), texts, disc, leader, optional))

    def copy(self) -> Placed:
        return placed(self.pieces)

    def given_way(self, gap: float) -> Placed:
        """Without the optional pieces that others' leaders run through."""

        def stands(piece: Piece) -> bool:
            own = () if piece.leader is None else tuple(pairwise(piece.leader.points))
            kept = piece.box.grown(gap)
            return not any(kept.crossed_by(line) for line in self.lines if line not in own)

        return placed([piece for piece in self.pieces if not piece.optional or stands(piece)])

    def is_clear(self, box: Box) -> bool:
        """Whether the box lies on no lettering and on no leader."""
        return not any(box.overlaps(other) for other in self.boxes) and not any(map(box.crossed_by, self.lines))

    def moved(self, right: float, down: float) -> Placed:
        return placed([piece.moved(right, down) for piece in self.pieces])


def placed(pieces: Sequence[Piece]) -> Placed:
    found = Placed()
    for piece in pieces:
        found.add(piece)
    return found


def apart(one: Spot, other: Spot) -> float:
    return hypot(one[0] - other[0], one[1] - other[1])


def straightened(points: tuple[Spot, Spot, Spot]) -> tuple[Spot, ...]:
    """A leader without a bend that is none."""
    (ax, ay), (bx, by), (cx, cy) = points
    return (points[0], points[2]) if abs((bx - ax) * (cy - ay) - (by - ay) * (cx - ax)) < 0.3 else points
