"""The layout engine on a short lead: what is taken from its own style sheet changes nothing that we set."""

from __future__ import annotations

import re

import pytest
from weasyprint.html import UA, UA_STYLESHEET

from procgen.draw.fonts import Fonts
from procgen.paper import engine
from procgen.paper.boxes import pages, walk
from procgen.paper.engine import Engine

WORDS = '<html lang="en"><head></head><body><ol><li>One</li><li>Two</li></ol><p>A<br/>B {}</p></body></html>'

NOTES = ["footnote-call", "footnote-marker", "note-call", "note-marker", "note-callback"]


@pytest.fixture
def fresh(fonts: Fonts) -> Engine:
    return Engine(fonts)


def _words(engine: Engine, html: str, css: str) -> list[tuple[str, float, float]]:
    document = engine.layout(html, engine.sheet(f"@page {{ size: 100mm 100mm; margin: 5mm }} {css}"))
    found = (box for page in pages(document) for box in walk(page) if hasattr(box, "text"))
    return [(box.text, box.position_x, box.position_y) for box in found]


def test_the_library_has_the_rules_that_are_left_out() -> None:
    """One style each for every element there is; a release that words them otherwise has to be looked at."""
    assert re.findall(r"(?m)^::([\w-]+)", UA) == ["marker", *NOTES]
    of_all = UA_STYLESHEET.matcher.other_selectors
    assert [pseudo for _, _, _, pseudo, _ in of_all if pseudo] == ["marker", *NOTES]
    plain = engine._plain().matcher
    assert plain.other_selectors == [rule for rule in of_all if not rule[3]]
    (markers,) = (rule for rule in plain.lower_local_name_selectors["li"] if rule[3])
    assert markers in of_all  # which is as it was


def test_lists_and_lines_are_set_as_with_all_rules(fresh: Engine, monkeypatch: pytest.MonkeyPatch) -> None:
    few = _words(fresh, WORDS.format(""), "")
    monkeypatch.setattr(engine, "_plain", lambda: engine.UA_STYLESHEET)
    assert few == _words(fresh, WORDS.format(""), "")
    assert [text.strip() for text, _, _ in few if text.strip()] == ["1.", "One", "2.", "Two", "A", "B"]


def test_a_shop_may_still_set_footnotes(fresh: Engine) -> None:
    html = WORDS.format("<span>Seen.</span>")
    by_sheet = _words(fresh, html, "span { float: footnote }")
    assert tuple(text for text, _, y in by_sheet if y > 300)[::-1] == ("Seen.", "1. ")
