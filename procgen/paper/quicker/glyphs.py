"""The glyphs of a line of text, found once: cards are full of the same short texts, and WeasyPrint has Pango shape each
of them anew wherever it is drawn.

`weasyprint.draw` is not its public face, so its version is pinned; what is not plainly a line is left to it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from weasyprint import draw
from weasyprint.draw.text import draw_first_line, draw_text
from weasyprint.matrix import Matrix

from procgen.paper.quicker.measures import looks
from procgen.paper.recorder import Recorder

_KEPT = 6000
_SHOWN = re.compile("<([0-9a-f]+)>")
_DIGITS = 4  # of a glyph's number, in all fonts but those of dots

_known: dict[Any, tuple[_Run, ...] | None] = {}


@dataclass(frozen=True, slots=True)
class _Run:
    """Of one font, which WeasyPrint knows by `key`: what is shown, and width and characters of each glyph in it."""

    key: Any
    name: str
    size: float
    shown: str
    glyphs: tuple[tuple[int, float, str], ...]


def find_glyphs_once() -> None:
    """For this process, wherever what is drawn is kept."""
    draw.draw_text = _draw_text


def set_line(stream: Any, box: Any, x: float, y: float) -> None:
    """Draw the line of a text box with its baseline from (x, y), CSS pixels, in the colour that is set."""
    runs = _runs(stream, box) if isinstance(stream, Recorder) else None
    if runs is None:
        box.pango_layout.reactivate(box.style)
        draw_first_line(stream, box, "clip", "none", Matrix(d=-1, e=x, f=y))
        box.pango_layout.deactivate()
    elif runs:
        stream.set_text_matrix(1, 0, 0, -1, x, y)
        for run in runs:
            font = stream._fonts[run.key]
            for glyph, width, text in run.glyphs:
                font.widths[glyph] = width
                font.to_unicode.setdefault(glyph, text)
            stream.set_font_size(run.name, run.size)
            stream.show_text(run.shown)


def _draw_text(stream: Any, box: Any, offset_x: float, text_overflow: str, block_ellipsis: Any) -> None:
    """As WeasyPrint does."""
    style = box.style
    is_plain = style["visibility"] == "visible" and style["text_decoration_line"] == "none"
    if not is_plain or text_overflow == "ellipsis" or block_ellipsis != "none":
        draw_text(stream, box, offset_x, text_overflow, block_ellipsis)
        return
    stream.set_color(style["color"])
    stream.begin_text()
    set_line(stream, box, box.position_x, box.position_y + box.baseline)
    stream.end_text()


def _runs(stream: Any, box: Any) -> tuple[_Run, ...] | None:
    """None for what needs more than glyphs of fonts that the stream has met."""
    layout, style = box.pango_layout, box.style
    key = (layout.text, layout.justification_spacing, style.font_config, looks(style))
    if key not in _known:
        if len(_known) >= _KEPT:
            _known.clear()
        _known[key] = _found(stream, box)
    runs = _known[key]
    return runs if runs is None or all(run.key in stream._fonts for run in runs) else None


def _found(stream: Any, box: Any) -> tuple[_Run, ...] | None:
    line = _Line(stream)
    box.pango_layout.reactivate(box.style)
    emojis = draw_first_line(line, box, "clip", "none", Matrix())
    box.pango_layout.deactivate()
    return None if emojis or not line.is_plain() else tuple(line.runs())


class _Line:
    """Takes what WeasyPrint draws of one line."""

    def __init__(self, stream: Any) -> None:
        self._stream = stream
        self._fonts: dict[str, tuple[Any, Any]] = {}  # by name, with their keys
        self._shown: list[tuple[str, float, str]] = []
        self._is_level = True
        self.ink_rect, self.logical_rect = stream.ink_rect, stream.logical_rect

    def add_font(self, pango_font: Any) -> Any:
        font, size = self._stream.add_font(pango_font)
        key = next(key for key, one in self._stream._fonts.items() if one is font)
        self._fonts[font.hash] = key, font
        return font, size

    def set_text_matrix(self, *matrix: float) -> None:
        """Which is the place alone."""

    def set_font_size(self, name: str, size: float) -> None:
        self._set = name, size

    def show_text(self, shown: str) -> None:
        self._shown.append((*self._set, shown))

    def set_text_rise(self, height: float) -> None:
        self._is_level = False

    def is_plain(self) -> bool:
        return self._is_level and not any(font.bitmap or font.missing for _, font in self._fonts.values())

    def runs(self) -> Iterator[_Run]:
        for name, size, shown in self._shown:
            key, font = self._fonts[name]
            digits = "".join(_SHOWN.findall(shown))
            numbers = dict.fromkeys(int(digits[n : n + _DIGITS], 16) for n in range(0, len(digits), _DIGITS))
            yield _Run(key, name, size, shown, tuple((n, font.widths[n], font.to_unicode[n]) for n in numbers))
