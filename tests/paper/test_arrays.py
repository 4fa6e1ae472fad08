"""Arrays without their lengths in their names: the same fonts, and no more types than a few."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from samples import CAM, READ_FROM, SHOP, STOCKS
from weasyprint.pdf import fonts

from procgen.paper.arrays import Arrays
from procgen.paper.press import Press, Printed


class Listening(Arrays):
    def __init__(self, ffi: Any) -> None:
        super().__init__(ffi)
        self.asked: list[str] = []

    def new(self, kind: str, *values: Any) -> Any:
        self.asked.append(kind)
        return self._ffi.new(kind, *values)


def test_fonts_are_the_same_as_with_arrays_of_each_length(
    press: Press, printed: Callable[..., Printed], monkeypatch: pytest.MonkeyPatch
) -> None:
    ours = printed(CAM).pdf
    assert isinstance(fonts.ffi, Arrays)
    listening = Listening(fonts.ffi._ffi)
    monkeypatch.setattr(fonts, "ffi", listening)
    assert press.card(CAM, SHOP, STOCKS["a5"], READ_FROM).pdf == ours
    assert len({kind for kind in listening.asked if kind.startswith("hb_codepoint_t[")}) > 5
