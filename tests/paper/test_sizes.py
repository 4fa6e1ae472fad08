"""Sizes from distance, held to the rules' own numbers and to the outlines in the font files."""

from __future__ import annotations

import math

import pytest
from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont
from samples import READ_FROM

from procgen.draw.fonts import HEAD, TEXT, Fonts
from procgen.paper.sizes import FLOOR, LADDER, letter_height, points, sizes

MM = 25.4 / 72


@pytest.mark.parametrize(
    ("minutes", "heights"),
    [  # H = 2 D tan(angle / 2) at 0.5, 0.7, 1, 1.5 and 2 m, worked by hand to 0.01 mm. Source: geometry
        (16, (2.33, 3.26, 4.65, 6.98, 9.31)),
        (20, (2.91, 4.07, 5.82, 8.73, 11.64)),
        (22, (3.20, 4.48, 6.40, 9.60, 12.80)),
    ],
)
def test_letter_heights(minutes: float, heights: tuple[float, ...]) -> None:
    found = [letter_height(distance, minutes) for distance in (500, 700, 1000, 1500, 2000)]
    assert found == pytest.approx(heights, abs=0.006)


@pytest.mark.parametrize("distance", [500.0, 700.0, 1000.0, 2000.0])
@pytest.mark.parametrize("minutes", LADDER)
def test_letter_height_agrees_with_nureg_0700(distance: float, minutes: float) -> None:
    # Source: NUREG-0700 gives H = 6.283 D MA / 21600, the small-angle form with pi to four figures
    assert letter_height(distance, minutes) == pytest.approx(6.283 * distance * minutes / 21600, rel=1e-4)


def test_wanted_height_lies_where_the_german_workplace_rule_puts_far_text() -> None:
    # Source: ASR A6, after ISO 9241-303: at 500 mm 3.2 to 4.5 mm; farther, H >= D / 155
    assert 3.195 < letter_height(500, LADDER[0]) < 4.5
    assert letter_height(2000, LADDER[0]) == pytest.approx(2000 / 155, rel=0.01)


@pytest.mark.parametrize(("family", "pt"), [(TEXT, 9.9), (HEAD, 8.93)])
def test_points_at_half_a_metre(fonts: Fonts, family: str, pt: float) -> None:
    # 2.33 mm of capital over 0.668 and 0.740 of the em. Source: geometry and the fonts' own tables
    assert points(500, FLOOR, fonts.face(family).cap) == pytest.approx(pt, abs=0.03)


def test_cap_heights_are_those_of_the_outlines(fonts: Fonts) -> None:
    for face in fonts.faces:
        font = TTFont(face.path)
        pen = BoundsPen(font.getGlyphSet())
        font.getGlyphSet()[font.getBestCmap()[ord("H")]].draw(pen)
        assert pen.bounds[3] / font["head"].unitsPerEm == pytest.approx(face.cap, abs=0.002), face.family


def test_every_tier_keeps_the_floor(fonts: Fonts) -> None:
    for minutes in LADDER:
        found = sizes(fonts, READ_FROM, minutes)
        for size, distance, family in (
            (found.title, READ_FROM.title, HEAD),
            (found.value, READ_FROM.values, HEAD),
            (found.step, READ_FROM.steps, TEXT),
            (found.hand, READ_FROM.hand, TEXT),
        ):
            capital = size * MM * fonts.face(family).cap
            seen = math.degrees(2 * math.atan(capital / (2 * distance))) * 60
            assert seen >= FLOOR
