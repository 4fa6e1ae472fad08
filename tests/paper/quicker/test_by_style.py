"""What boxes have from their style is what the library finds for each of them."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

import pytest
from samples import CAM, READ_FROM, SHOP, STOCKS
from weasyprint.formatting_structure.boxes import Box
from weasyprint.layout import background, block
from weasyprint.layout.background import layout_box_backgrounds
from weasyprint.layout.percent import resolve_percentages

from procgen.draw.fonts import Fonts
from procgen.files.home import resources
from procgen.paper.boxes import pages, walk
from procgen.paper.engine import Engine
from procgen.paper.press import Press, Printed
from procgen.paper.quicker import by_style

RULES = """
@page { size: 100mm 100mm; margin: 5% 4mm; background: #eee; @top-left { content: element(run); width: 50% } }
h1 { position: running(run); border: 1mm solid; border-radius: 2mm 10% }
p { margin: 2% 1mm; padding: 1mm 3%; width: 60mm; min-height: 4mm; background: #ccc }
b { float: left; width: 20%; max-width: 12mm; box-shadow: 1mm 1mm red }
i { position: absolute; left: 5mm; top: 10%; width: calc(10mm + 5%); background: currentColor }
u { position: relative; left: 1mm; display: inline-block; height: 50% }
section { box-sizing: border-box; width: 70mm; height: 30mm; padding: 2mm; border: 1mm solid; min-width: 30% }
section p { height: 40%; border-radius: 1mm; background: linear-gradient(red, blue) }
div { display: flex; gap: 1mm } div p { flex: 1; visibility: hidden }
ol { border-image: linear-gradient(red, blue) 1; border: 1mm solid }
table { border-collapse: collapse } td { border: 0.3mm solid; width: 33% } table.apart { border-collapse: separate }
"""
WORDS = """<html lang="en"><head></head><body><h1>a</h1><p>B <b>b <span>c</span></b> <i>d <b>e</b></i> <u>f</u></p>
<section><p>g</p></section><div><p>h</p><p>i</p></div><table><tr><td>j <i>k</i></td><td>l</td></tr></table>
<table class="apart"><tr><td>m</td><td></td></tr></table><ol><li>n</li></ol></body></html>"""

_SIDES = ("top", "right", "bottom", "left")
NAMES = (
    *("position_x", "position_y", "width", "height", "min_width", "max_width", "min_height", "max_height"),
    *(f"{kind}_{side}" for kind in ("margin", "padding") for side in _SIDES),
    *(f"border_{side}_width" for side in _SIDES),
    *(f"border_{high}_{wide}_radius" for high in ("top", "bottom") for wide in ("left", "right")),
)


@pytest.fixture
def by_boxes(monkeypatch: pytest.MonkeyPatch) -> Iterator[Callable[[], None]]:
    """Have the library ask every box until the test ends."""

    def turn() -> None:
        monkeypatch.setattr(by_style, "in_flow", by_style.is_in_flow)
        monkeypatch.setattr(by_style, "resolve", resolve_percentages)
        monkeypatch.setattr(by_style, "lay_backgrounds", layout_box_backgrounds)
        by_style.ask_styles()

    yield turn
    monkeypatch.undo()
    by_style.ask_styles()


def _boxes(engine: Engine) -> list[Any]:
    document = engine.layout(WORDS, engine.sheet(RULES))
    return [box for page in pages(document) for box in walk(page)]


def _said(engine: Engine) -> list[tuple[str, bool, dict[str, str]]]:
    """Of each box all that is found by its style; of a background what it is."""
    said = []
    for box in _boxes(engine):
        found = {name: repr(vars(box)[name]) for name in NAMES if name in vars(box)}
        behind = vars(box).get("background")
        found["border image"] = type(vars(box).get("border_image")).__name__
        found["background"] = repr((behind.color, [layer.image is None for layer in behind.layers])) if behind else ""
        said.append((str(box.element_tag), box.is_in_normal_flow(), found))
    return said


def test_the_same_of_every_box(fonts: Fonts, by_boxes: Callable[[], None]) -> None:
    engine = Engine(fonts)
    assert Box.is_in_normal_flow is by_style.in_flow
    assert block.resolve_percentages is by_style.resolve
    assert background.layout_box_backgrounds is by_style.lay_backgrounds
    ours = _said(engine)
    by_boxes()
    assert block.resolve_percentages is resolve_percentages
    theirs = _said(engine)
    assert ours == theirs
    assert {True, False} == {flows for _, flows, _ in theirs}
    assert sum(bool(found["background"]) for _, _, found in theirs) > 4
    assert len({repr(found) for _, _, found in theirs}) > 25


def test_lengths_are_asked_for_once(fonts: Fonts, monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[Any] = []
    monkeypatch.setattr(by_style, "resolve_percentages", lambda box, _: asked.append(box))
    engine = Engine(fonts)
    engine.layout("<html><head></head><body><p>a</p><p>b</p></body></html>", engine.sheet("p { margin: 1mm }"))
    assert asked == []


def test_a_card_is_the_same_to_the_byte(
    fonts: Fonts, printed: Callable[..., Printed], by_boxes: Callable[[], None]
) -> None:
    ours = printed(CAM).pdf
    by_boxes()
    press = Press(fonts, [resources("templates")])
    assert block.resolve_percentages is resolve_percentages
    assert press.card(CAM, SHOP, STOCKS["a5"], READ_FROM).pdf == ours
