"""Type sizes that follow from how far away people stand, by the fonts' own cap heights."""

from __future__ import annotations

import math
from dataclasses import dataclass

from procgen.draw.fonts import HEAD, TEXT, Fonts
from procgen.model.workshop import ReadFrom

WANTED = 22.0
"""Minutes of arc that a capital should fill: ISO 9241-303 prefers 20 to 22; oil and glare ask for the top of it."""

FLOOR = 16.0
"""The least that ISO 9241-303 allows. Nothing on a card is smaller."""

LADDER = (WANTED, 20.0, 18.0, FLOOR)

POINT = 25.4 / 72
"""mm."""

_POINTS_PER_MM = 72 / 25.4


def letter_height(distance: float, minutes: float) -> float:
    """The height, mm, that fills an angle of that many minutes of arc at that distance, mm. Source: geometry."""
    return 2 * distance * math.tan(math.radians(minutes / 60) / 2)


def points(distance: float, minutes: float, cap: float) -> float:
    """The type size whose capitals, `cap` of the em high, fill that angle at that distance."""
    return letter_height(distance, minutes) / cap * _POINTS_PER_MM


@dataclass(frozen=True)
class Sizes:
    """The four tiers, pt, each read from its own distance, and the angle that they were found for.

    `hand` stays at the floor: who made a card is asked with the card in the hand, nearer than its stated distance.
    """

    minutes: float
    title: float
    value: float
    step: float
    hand: float


def sizes(fonts: Fonts, read_from: ReadFrom, minutes: float) -> Sizes:
    """Sizes rounded up to a twentieth of a point, so that the floor holds after rounding."""
    head, text = fonts.face(HEAD).cap, fonts.face(TEXT).cap

    def up(distance: float, cap: float, angle: float = minutes) -> float:
        return math.ceil(points(distance, angle, cap) * 20) / 20

    return Sizes(
        minutes,
        title=up(read_from.title, head),
        value=up(read_from.values, head),
        step=up(read_from.steps, text),
        hand=up(read_from.hand, text, FLOOR),
    )
