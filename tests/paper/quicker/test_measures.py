"""Fonts described once: Pango is told the same, and a card is set the same, to the byte."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from samples import CAM, READ_FROM, SHOP, STOCKS
from weasyprint.css.properties import INITIAL_VALUES
from weasyprint.layout import inline, preferred
from weasyprint.svg.text import Style
from weasyprint.text import line_break
from weasyprint.text.fonts import get_font_description as from_style
from weasyprint.text.line_break import split_first_line, strut

from procgen.draw.fonts import Fonts
from procgen.files.home import resources
from procgen.paper.engine import Engine
from procgen.paper.press import Press, Printed
from procgen.paper.quicker import measures
from procgen.paper.quicker.measures import described, first_line, looks, named, strut_of


def _style(**more: Any) -> dict[str, Any]:
    return {**INITIAL_VALUES, "font_family": ("Card Text",), "lang": "en", **more}


def test_a_card_is_set_as_with_every_line_described_anew(
    fonts: Fonts, printed: Callable[..., Printed], monkeypatch: pytest.MonkeyPatch
) -> None:
    ours = printed(CAM).pdf
    press = Press(fonts, [resources("templates")])
    asked = []

    def anew(style: Any) -> Any:
        asked.append(style)
        return from_style(style)

    monkeypatch.setattr(line_break, "get_font_description", anew)
    monkeypatch.setattr(line_break, "_font_style_cache_key", lambda style, include_size=False: object())
    assert press.card(CAM, SHOP, STOCKS["a5"], READ_FROM).pdf == ours
    assert len(asked) > 500


def test_a_font_is_described_once(printed: Callable[..., Printed]) -> None:
    printed(CAM)
    assert line_break.get_font_description is described
    assert line_break._font_style_cache_key is named
    style = _style(font_size=20.0)
    assert described(style) is described(dict(style))


@pytest.mark.parametrize(
    "other",
    [
        *({"font_size": 21.0}, {"font_weight": 700}, {"font_style": "italic"}, {"font_family": ("Card Head",)}),
        *({"font_stretch": "condensed"}, {"font_variant_caps": "small-caps"}),
    ],
)
def test_what_differs_is_described_otherwise(other: dict[str, Any]) -> None:
    style = _style(font_size=20.0)
    assert described(style) is not described({**style, **other})
    assert named(style, True) != named({**style, **other}, True)


def test_whatever_the_library_knows_a_line_by_is_told_apart() -> None:
    source = Path(line_break.__file__).read_text(encoding="utf-8").partition("def _font_style_cache_key(")[2]
    names = {part.partition("'")[0] for part in source.partition("return key")[0].split("style['")[1:]}
    assert len(names) == 16

    class Asked(dict[str, Any]):
        def __getitem__(self, name: str) -> Any:
            names.discard(name)
            return super().__getitem__(name)

    named(Asked(_style()), True)
    assert names == set()


def test_a_card_is_set_as_with_every_text_measured_anew(
    fonts: Fonts, printed: Callable[..., Printed], monkeypatch: pytest.MonkeyPatch
) -> None:
    ours = printed(CAM).pdf
    press = Press(fonts, [resources("templates")])
    for module in (inline, preferred):
        monkeypatch.setattr(module, "split_first_line", split_first_line)
    assert press.card(CAM, SHOP, STOCKS["a5"], READ_FROM).pdf == ours


def test_a_text_that_fits_is_measured_once_and_else_broken(fonts: Fonts, monkeypatch: pytest.MonkeyPatch) -> None:
    style = _font(Engine(fonts))
    _, length, after, width, *_ = first_line("cam bearing", style, None, None, 0)
    assert (length, after) == (len("cam bearing"), None)
    broken = first_line("cam bearing", style, None, width - 1, 0)
    assert broken[:3][1:] == split_first_line("cam bearing", style, None, width - 1, 0)[1:3]
    assert broken[2] == len("cam ")
    monkeypatch.setattr(measures, "split_first_line", None)  # whoever asks now, fails
    again = first_line("cam bearing", style, None, width, 0)
    assert again[1:4] == (length, None, width)
    assert again[0].max_width == width
    assert again[0].text == "cam bearing"


@pytest.mark.parametrize(
    "other",
    [{"letter_spacing": 1}, {"word_spacing": 1}, {"white_space": "pre"}, {"font_kerning": "none"}, {"font_size": 21.0}],
)
def test_what_looks_otherwise_is_measured_otherwise(other: dict[str, Any]) -> None:
    style = _style(font_size=20.0)
    assert looks(style) == looks(dict(style))
    assert looks(style) != looks({**style, **other})


def test_a_lines_own_height_is_asked_once(fonts: Fonts, monkeypatch: pytest.MonkeyPatch) -> None:
    style = _font(Engine(fonts))
    assert inline.strut is strut_of
    assert strut_of(style) == strut(style)
    monkeypatch.setattr(measures, "strut", None)  # whoever asks now, fails
    assert strut_of(style) == strut(style)


def _font(engine: Engine) -> Any:
    """A style as an SVG's text has it."""
    style = Style(INITIAL_VALUES)
    style.font_config = engine._fonts
    style["font_family"], style["font_size"] = ["Card Text"], 20.0
    return style
