"""Arrays without their lengths in their names: the same fonts, and no more types than a few."""

from __future__ import annotations

from typing import Any

import pytest
from weasyprint.pdf import fonts as library

from procgen.draw.fonts import Fonts
from procgen.paper.engine import Engine
from procgen.paper.quicker.arrays import Arrays

WORD = "chamfers"


class Listening(Arrays):
    def __init__(self, ffi: Any) -> None:
        super().__init__(ffi)
        self.asked: list[str] = []

    def new(self, kind: str, *values: Any) -> Any:
        self.asked.append(kind)
        return self._ffi.new(kind, *values)


def _pdfs(engine: Engine) -> list[bytes]:
    """Of fonts cut down to one letter, two, three, …"""
    texts = [WORD[:count] for count in range(1, len(WORD) + 1)]
    page = "<!DOCTYPE html><html lang='en'><title>t</title><body>{}</body></html>"
    return [engine.pdf(engine.layout(page.format(text))) for text in texts]


def test_fonts_are_the_same_as_with_arrays_of_each_length(fonts: Fonts, monkeypatch: pytest.MonkeyPatch) -> None:
    engine = Engine(fonts)
    assert isinstance(library.ffi, Arrays)
    ours = _pdfs(engine)
    listening = Listening(library.ffi._ffi)
    monkeypatch.setattr(library, "ffi", listening)
    assert _pdfs(engine) == ours
    assert len({kind for kind in listening.asked if kind.startswith("hb_codepoint_t[")}) >= len(WORD)
