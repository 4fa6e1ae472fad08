"""A line of a drawing is set where WeasyPrint sets its letters, kerned; what is not plain is left to WeasyPrint."""

from __future__ import annotations

import io
from collections.abc import Callable
from typing import Any

import pdfplumber
import pytest
from weasyprint.svg import SVG

from procgen.draw.fonts import Fonts
from procgen.paper.engine import Engine
from procgen.paper.quicker import svg_text

PLAIN = {"x": "40", "y": "20", "font-family": "Card Text", "font-size": "4", "fill": "#141416"}


@pytest.fixture
def chars(fonts: Fonts) -> Callable[..., list[dict[str, Any]]]:
    """The letters of an SVG's text, as they stand in a PDF, pt."""
    engine = Engine(fonts)

    def chars(text: str, **attributes: str) -> list[dict[str, Any]]:
        given = " ".join(f'{name.replace("_", "-")}="{value}"' for name, value in {**PLAIN, **attributes}.items())
        svg = (
            '<svg xmlns="http://www.w3.org/2000/svg" width="80mm" height="30mm" viewBox="0 0 80 30" fill="none">'
            f"<title>Plug</title><text {given}>{text}</text></svg>"
        )
        html = f'<!DOCTYPE html><html lang="en"><head><title>Plug</title></head><body>{svg}</body></html>'
        with pdfplumber.open(io.BytesIO(engine.pdf(engine.layout(html)))) as pdf:
            return list(pdf.pages[0].chars)

    return chars


@pytest.fixture
def by_letters(chars: Callable[..., list[dict[str, Any]]], monkeypatch: pytest.MonkeyPatch) -> Callable[..., Any]:
    """The same as WeasyPrint sets it."""

    def by_letters(text: str, **attributes: str) -> list[dict[str, Any]]:
        with monkeypatch.context() as patch:
            patch.setattr(SVG, "draw_node", svg_text._others)
            return chars(text, **attributes)

    return by_letters


@pytest.mark.parametrize("anchor", ["start", "middle", "end"])
@pytest.mark.parametrize("more", [{}, {"font_weight": "700"}, {"fill": "#FFFFFF"}])
def test_a_line_stands_where_its_letters_stood(
    chars: Callable[..., Any], by_letters: Callable[..., Any], anchor: str, more: dict[str, str]
) -> None:
    """No pair of these letters is kerned."""
    ours, theirs = (each("mn 5.0 mm", text_anchor=anchor, **more) for each in (chars, by_letters))
    assert "".join(one["text"] for one in ours) == "mn 5.0 mm"
    ours = [one for one in ours if one["text"] != " "]  # which are nothing by themselves
    assert [one["text"] for one in ours] == [one["text"] for one in theirs]
    for one, other in zip(ours, theirs, strict=True):
        for side in ("x0", "x1", "top", "bottom"):
            assert one[side] == pytest.approx(other[side], abs=0.05)
        assert one["non_stroking_color"] == other["non_stroking_color"]
        assert one["fontname"].split("+")[1] == other["fontname"].split("+")[1]


def test_a_line_is_kerned(chars: Callable[..., Any], by_letters: Callable[..., Any]) -> None:
    """A pair of AV stands closer in nearly every face: common practice, no source."""
    ours, theirs = chars("AV"), by_letters("AV")
    assert ours[1]["x0"] < theirs[1]["x0"] - 0.2


@pytest.mark.parametrize(
    "more",
    [
        *({"dx": "1 2"}, {"x": "10 20 30"}, {"rotate": "45"}, {"letter_spacing": "1"}, {"textLength": "60"}),
        *({"transform": "translate(3 0)"}, {"opacity": "0.5"}, {"dominant_baseline": "middle"}),
    ],
)
def test_what_is_not_plain_is_left_to_weasyprint(
    chars: Callable[..., Any], by_letters: Callable[..., Any], more: dict[str, str]
) -> None:
    assert chars("rod", **more) == by_letters("rod", **more)


def test_words_within_a_text_are_left_to_weasyprint(chars: Callable[..., Any], by_letters: Callable[..., Any]) -> None:
    text = "main <tspan font-weight='700'>cap</tspan>"
    assert chars(text) == by_letters(text)
