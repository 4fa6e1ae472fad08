"""Streams deflated beside the rest are, byte for byte, what the library writes by itself."""

from __future__ import annotations

import zlib
from typing import Any

import pydyf
import pytest

from procgen.draw.fonts import Fonts
from procgen.paper.engine import Engine
from procgen.paper.quicker import deflating

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


def test_hardly_larger_than_as_tight_as_can_be(document: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    tight, plain = (zlib.compress(b"", level)[:2] for level in (9, 6))  # what such a stream begins with, by RFC 1950
    ours = Engine.pdf(document)
    assert b"stream\n" + plain in ours
    assert b"stream\n" + tight not in ours
    text = [
        f"1 0 0 -1 {n * 7919 % 3000 / 7:.3f} {n * 104729 % 4000 / 7:.3f} cm /P <</MCID {n}>> BDC" for n in range(999)
    ]
    squeezed = pydyf.Stream(text, compress=True).data.partition(b"stream\n")[2].removesuffix(b"\nendstream")
    assert zlib.decompress(squeezed).decode().split("\n") == text
    monkeypatch.setattr(pydyf, "zlib", zlib)
    tightest = pydyf.Stream(text, compress=True).data.partition(b"stream\n")[2].removesuffix(b"\nendstream")
    assert len(tightest) < len(squeezed) < 1.04 * len(tightest)
