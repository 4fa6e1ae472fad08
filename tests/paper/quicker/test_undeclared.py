"""Every property comes out as by the library's own way, whatever rules speak of it and of its neighbours."""

from __future__ import annotations

import pytest
from weasyprint.css import ComputedStyle
from weasyprint.css.properties import INITIAL_VALUES

from procgen.draw.fonts import Fonts
from procgen.paper.boxes import pages, walk
from procgen.paper.engine import Engine
from procgen.paper.quicker import undeclared

RULES = """
@page { size: 100mm 100mm; margin: 5mm; @top-left { content: "x"; color: red } }
:root { --gap: 3mm; font-size: 11pt; direction: rtl }
body { direction: ltr; margin-inline-start: 2mm; border-block-end: 1mm solid red; hyphens: auto; quotes: none }
p { padding-inline: 1mm 2mm; inline-size: 60mm; min-block-size: 4mm; width: calc(50% + 3mm); text-indent: 5% }
b { margin: var(--gap); border: inherit; text-decoration: underline; float: left; page: inherit }
i { all: initial; position: absolute; line-height: calc(1em + 2mm); color: inherit; border-start-start-radius: 1mm }
div { direction: rtl; padding-right: 1mm; margin-inline-end: 4mm; letter-spacing: 1em; column-gap: 1em; display: flex }
span { width: inherit; max-width: var(--none, 3mm); border-right-width: 2mm; break-before: inherit }
"""
WORDS = """<html lang="en"><head></head><body><p>A <b>b <span>c</span></b> <i>d <b>e</b></i></p>
<div><p>f <span>g</span></p><table><tr><td>h <i>i</i></td></tr></table></div><ol><li>j</li></ol></body></html>"""

KEYS = sorted(INITIAL_VALUES.keys() - {name for names in undeclared._LOGICAL.values() for name in names.values()})
"""Those by which styles are asked; the rest are other names of them."""


def _said(fonts: Fonts) -> list[tuple[str, str, str]]:
    engine = Engine(fonts)
    document = engine.layout(WORDS, engine.sheet(RULES))
    boxes = [box for page in pages(document) for box in walk(page)]
    return [(str(box.element_tag), key, repr(box.style[key])) for box in boxes for key in KEYS]


def test_the_same_values(fonts: Fonts, monkeypatch: pytest.MonkeyPatch) -> None:
    short = _said(fonts)
    assert ComputedStyle.__missing__ is undeclared.short_way
    monkeypatch.setattr(undeclared, "short_way", undeclared.long_way)
    long = _said(fonts)
    assert ComputedStyle.__missing__ is undeclared.long_way
    assert short == long
    assert len({tag for tag, _, _ in long}) > 10
