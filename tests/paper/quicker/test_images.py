"""Pictures that are drawn once: the same bytes as where each is drawn anew, and nothing that is warned of is lost."""

from typing import Any

import pytest
from weasyprint.images import SVGImage

from procgen.draw.fonts import Fonts
from procgen.paper.engine import Engine, listening
from procgen.paper.shapes import alert, bend, cut_box, uri

SHAPES = [uri(cut_box(12.0, 8.0, 0.4, "#141416")), uri(bend(9.0, 4.0, 2.0, "#5A1D9C")), uri(alert(7.0, "#141416"))]
PAGE = "".join(
    f"<p style='height: 20mm; background: {shape} no-repeat'>{n}</p><img alt='s' src='{shape[5:-2]}'>"
    for n, shape in enumerate(SHAPES * 3)
)


def _pdf(engine: Engine, body: str) -> bytes:
    return engine.pdf(engine.layout(f"<!DOCTYPE html><html lang='en'><title>t</title><body>{body}</body></html>"))


def _picture(body: str) -> str:
    address = uri(f"<svg xmlns='http://www.w3.org/2000/svg' width='20' height='20'>{body}</svg>")[5:-2]
    return f"<img alt='t' src='{address}'>"


@pytest.fixture
def drawn(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """What WeasyPrint was asked to draw."""
    found: list[str] = []
    draw = SVGImage.draw

    def noted(self: SVGImage, *args: Any) -> None:
        found.append(self._base_url)
        draw(self, *args)

    monkeypatch.setattr(SVGImage, "draw", noted)
    return found


def test_same_bytes_as_drawn_anew(fonts: Fonts, drawn: list[str]) -> None:
    once, anew = Engine(fonts), Engine(fonts)
    anew._images = {}  # type: ignore[assignment]
    expected = _pdf(anew, PAGE)
    assert len(drawn) == 18
    drawn.clear()
    assert _pdf(once, PAGE) == expected
    assert _pdf(once, PAGE) == expected
    assert len(drawn) < 10  # of 36: anew only where other colours or letters were set before


def test_lettering_is_drawn_each_time(fonts: Fonts, drawn: list[str]) -> None:
    engine = Engine(fonts)
    picture = _picture("<text y='15'>12</text>")
    first = _pdf(engine, picture * 2)
    assert _pdf(engine, picture * 2) == first
    assert len(drawn) == 4


def test_what_is_warned_of_is_heard_each_time(fonts: Fonts) -> None:
    engine = Engine(fonts)
    picture = _picture("<path fill='color(a98-rgb 1 0 0)' d='M0 0H9V9Z'/>")
    heard = []
    for _ in range(2):
        with listening() as messages:
            _pdf(engine, picture)
        heard.append([message for message in messages if "color" in message])
    assert heard[0] == heard[1] != []
