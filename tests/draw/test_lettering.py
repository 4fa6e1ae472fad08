"""Labels on every drawing of every family, on every stock: none on another, over the frame or under a leader."""

from itertools import combinations, pairwise
from pathlib import Path

import numpy as np
import pytest
from drawings import ROOMS, Drawn
from PIL import ImageFont

from procgen.draw.fonts import Fonts
from procgen.draw.lettering import Text
from procgen.draw.svg import Arranged, Drawer

TOUCH = 1e-6  # mm


@pytest.fixture(scope="module", params=ROOMS)
def arranged(request: pytest.FixtureRequest, drawer: Drawer, scenes: tuple[Drawn, ...]) -> list[tuple[Drawn, Arranged]]:
    width, size = ROOMS[request.param]
    return [(drawn, drawer.arrange(drawn.scene, width, size)) for drawn in scenes]


def test_there_are_drawings(scenes: tuple[Drawn, ...]) -> None:
    assert len({drawn.view for drawn in scenes}) == 15
    assert {drawn.family.id for drawn in scenes} >= {"avocet", "bittern", "curlew", "dunlin", "plover"}


def test_no_lettering_overlaps_another(arranged: list[tuple[Drawn, Arranged]]) -> None:
    for drawn, one in arranged:
        for a, b in combinations(one.placed.boxes, 2):
            across = min(a.right, b.right) - max(a.left, b.left)
            down = min(a.bottom, b.bottom) - max(a.top, b.top)
            assert across <= TOUCH or down <= TOUCH, (str(drawn), a, b)


def test_all_stays_inside_the_frame(arranged: list[tuple[Drawn, Arranged]], fonts: Fonts) -> None:
    for drawn, one in arranged:
        for box in (*one.placed.boxes, one.extent):
            assert box.left >= -TOUCH, str(drawn)
            assert box.right <= one.width + TOUCH, str(drawn)
            assert box.top >= -TOUCH, str(drawn)
            assert box.bottom <= one.height + TOUCH, str(drawn)
        for text in one.under:
            assert 0 <= text.at[0] <= one.width - _measured(text, fonts) * 0.995, (str(drawn), text.text)
            assert text.at[1] <= one.height


def test_what_is_under_the_drawing_is_under_all_of_it(arranged: list[tuple[Drawn, Arranged]]) -> None:
    for drawn, one in arranged:
        lowest = max([one.extent.bottom, *(box.bottom for box in one.placed.boxes)])
        assert min(text.at[1] - text.size for text in one.under) >= lowest - 1.0, str(drawn)


def test_no_leader_runs_under_lettering(arranged: list[tuple[Drawn, Arranged]]) -> None:
    shares = np.linspace(0.0, 0.98, 120)
    for drawn, one in arranged:
        for leader in one.placed.leaders:
            for (x, y), (to_x, to_y) in pairwise(leader.points):
                xs, ys = x + shares * (to_x - x), y + shares * (to_y - y)
                for box in one.placed.boxes:
                    inside = (xs > box.left) & (xs < box.right) & (ys > box.top) & (ys < box.bottom)
                    own = box.left - 1 <= leader.points[-1][0] <= box.right + 1
                    own = own and box.top - 1 <= leader.points[-1][1] <= box.bottom + 1
                    assert own or not inside.any(), (str(drawn), leader, box)


def test_leaders_are_straight_or_bend_once(arranged: list[tuple[Drawn, Arranged]]) -> None:
    for drawn, one in arranged:
        assert all(len(leader.points) in (2, 3) for leader in one.placed.leaders), str(drawn)


def test_nothing_is_smaller_than_the_step_size(arranged: list[tuple[Drawn, Arranged]]) -> None:
    for drawn, one in arranged:
        step = one.sheet.weight * 15 * 25.4 / 72
        assert all(text.size >= step - 1e-9 for text in (*one.placed.texts, *one.under)), str(drawn)


def test_texts_are_as_wide_as_another_library_measures_them(
    arranged: list[tuple[Drawn, Arranged]], fonts: Fonts
) -> None:
    """FreeType, through Pillow, kerning off: what an SVG sets letter by letter."""
    for _, one in arranged[:12]:
        for text in one.placed.texts:
            own = fonts.width(text.text, text.family, text.size, text.bold)
            assert own == pytest.approx(_measured(text, fonts), rel=0.01, abs=0.02), text.text


def test_what_must_be_said_is_said(arranged: list[tuple[Drawn, Arranged]]) -> None:
    for drawn, one in arranged:
        set_texts = " ".join(text.text for text in one.placed.texts).split()
        for label in drawn.scene.labels:
            if not label.optional:
                wanted = " ".join((label.figure, *label.words)).split()
                assert all(word in set_texts for word in wanted), (str(drawn), label)
        numbers = [text.text for text in one.placed.texts if text.white]
        assert sorted(numbers) == sorted(badge.number for badge in drawn.scene.badges)


_opened: dict[Path, ImageFont.FreeTypeFont] = {}


def _measured(text: Text, fonts: Fonts) -> float:
    path = fonts.face(text.family, text.bold).path
    face = _opened.setdefault(path, ImageFont.truetype(str(path), 1000, layout_engine=ImageFont.Layout.BASIC))
    return sum(face.getlength(sign) for sign in text.text) * text.size / 1000
