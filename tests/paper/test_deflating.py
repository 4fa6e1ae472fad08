"""Streams deflated beside the rest are, byte for byte, what the library writes by itself."""

from __future__ import annotations

from typing import Any

import pytest

from procgen.draw.fonts import Fonts
from procgen.paper import deflating
from procgen.paper.engine import Engine

WORDS = '<html lang="en"><head></head><body><p>One face</p><p style="break-before: page">and another</p></body></html>'


@pytest.fixture
def document(fonts: Fonts) -> Any:
    engine = Engine(fonts)
    return engine.layout(WORDS, engine.sheet("body { font-family: 'Atkinson Hyperlegible' }"))


def test_the_same_bytes(document: Any) -> None:
    by_itself = document.write_pdf(pdf_variant="pdf/ua-1")
    deflating._deflated.cache_clear()
    assert Engine.pdf(document) == by_itself
    made = deflating._deflated.cache_info()
    assert made.misses > len(document.pages)
    assert Engine.pdf(document) == by_itself  # of what is known
    assert deflating._deflated.cache_info().misses == made.misses


def test_a_page_is_left_as_it_was(document: Any) -> None:
    Engine.pdf(document)
    assert all("paint" not in vars(page) for page in document.pages)
