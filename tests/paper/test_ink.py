"""A piece is drawn once, and what is kept of it gives the same paper as drawing it anew."""

from __future__ import annotations

import io
from pathlib import Path

import pdfplumber
import pikepdf
import pytest
from samples import CAM, CHOICE, READ_FROM, SHOP, STOCKS, SURVEY

from procgen.draw.fonts import Fonts
from procgen.files.home import resources
from procgen.paper import ink
from procgen.paper.press import Press

A5 = STOCKS["a5"]


def _press(fonts: Fonts, folder: Path, file: str, old: str, new: str) -> Press:
    """A press with one thing changed in the templates."""
    text = (resources("templates") / "cards" / file).read_text("utf-8")
    assert old in text
    (folder / "cards").mkdir(exist_ok=True)
    (folder / "cards" / file).write_text(text.replace(old, new), "utf-8")
    return Press(fonts, [folder, resources("templates")])


def _words(pdf: bytes) -> list[str]:
    with pdfplumber.open(io.BytesIO(pdf)) as opened:
        return [page.extract_text() for page in opened.pages]


def test_a_card_is_the_same_when_all_its_pieces_are_known(fonts: Fonts, monkeypatch: pytest.MonkeyPatch) -> None:
    press = Press(fonts, [resources("templates")])
    first = press.card(CAM, SHOP, A5, READ_FROM)
    monkeypatch.setattr(ink, "_drawn", None)  # whoever draws now, fails
    assert press.card(CAM, SHOP, A5, READ_FROM).pdf == first.pdf


def test_a_card_is_the_same_whatever_was_drawn_before(fonts: Fonts) -> None:
    """Letters get the font's own widths, not those of the card that they were first set on."""
    others = Press(fonts, [resources("templates")])
    for card in (SURVEY, CHOICE):
        others.card(card, SHOP, A5, READ_FROM)
    alone = Press(fonts, [resources("templates")]).card(CAM, SHOP, A5, READ_FROM)
    assert others.card(CAM, SHOP, A5, READ_FROM).pdf == alone.pdf


def test_what_is_half_transparent_is_drawn_each_time(press: Press, fonts: Fonts, tmp_path: Path) -> None:
    pale = _press(fonts, tmp_path, "card.css", "h1, .h1 {", "h1, .h1 { opacity: 0.5;")
    plain = press.card(CAM, SHOP, A5, READ_FROM)
    first, again = (pale.card(CAM, SHOP, A5, READ_FROM) for _ in range(2))
    assert first.pdf == again.pdf
    assert first.problems == plain.problems
    assert _words(first.pdf) == _words(plain.pdf)
    with pikepdf.open(io.BytesIO(first.pdf)) as opened:
        states = opened.pages[0].Resources.ExtGState
        assert min(float(state.get("/ca", 1)) for state in states.values()) == 0.5


def test_templates_need_not_be_xml(press: Press, fonts: Fonts, tmp_path: Path) -> None:
    loose = _press(fonts, tmp_path, "margins.html", "<br/>", "<br>")
    assert loose.card(CAM, SHOP, A5, READ_FROM).pdf == press.card(CAM, SHOP, A5, READ_FROM).pdf
