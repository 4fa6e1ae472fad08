"""A text that was drawn before is drawn, to the byte, as if it were drawn anew."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from samples import CAM, READ_FROM, SHOP, STOCKS, SURVEY
from weasyprint import draw
from weasyprint.draw.text import draw_first_line, draw_text

from procgen.draw.fonts import Fonts
from procgen.files.home import resources
from procgen.model.card import Card
from procgen.paper.press import Press, Printed
from procgen.paper.quicker import glyphs


@pytest.mark.parametrize("card", [CAM, SURVEY])
def test_a_card_is_the_same_with_every_text_drawn_anew(
    fonts: Fonts, printed: Callable[..., Printed], monkeypatch: pytest.MonkeyPatch, card: Card
) -> None:
    ours = printed(card).pdf
    press = Press(fonts, [resources("templates")])
    asked = []

    def anew(*given: object) -> None:
        asked.append(given)
        draw_text(*given)

    monkeypatch.setattr(draw, "draw_text", anew)
    assert press.card(card, SHOP, STOCKS["a5"], READ_FROM).pdf == ours
    assert len(asked) > 100


def test_glyphs_of_a_text_are_found_once(fonts: Fonts, monkeypatch: pytest.MonkeyPatch) -> None:
    found = []

    def counted(stream: object, box: object, *more: object) -> object:
        found.append(box)
        return draw_first_line(stream, box, *more)

    monkeypatch.setattr(glyphs, "draw_first_line", counted)
    monkeypatch.setattr(glyphs, "_known", {})
    first = Press(fonts, [resources("templates")])
    first.card(CAM, SHOP, STOCKS["a5"], READ_FROM)
    once = len(found)
    texts = {box.pango_layout.text for box in found}
    assert 50 < once < 3 * len(texts)  # some stand in two sizes or faces
    Press(fonts, [resources("templates")]).card(CAM, SHOP, STOCKS["a5"], READ_FROM)
    assert len(found) < 2.1 * once  # another engine has fonts of its own


def test_what_no_font_has_is_told_each_time(fonts: Fonts) -> None:
    card = replace(CAM, title="\u2603 cam")
    press = Press(fonts, [resources("templates")])
    first, again = (press.card(card, SHOP, STOCKS["a5"], READ_FROM) for _ in range(2))
    assert first.pdf == again.pdf
    assert first.problems == again.problems
    assert any("\u2603" in str(problem) for problem in first.problems)
