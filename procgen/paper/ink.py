"""What a piece looks like on paper, drawn once and set on any face of any card: PDF's own operators, and what they ask
of the document that they go into.

Drawing is WeasyPrint's; we keep what it writes. Fonts and stacking are not its public face, so its version is pinned.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from copy import copy
from dataclasses import dataclass
from functools import partial
from io import BytesIO
from typing import Any

import pydyf
from weasyprint.draw import draw_stacking_context
from weasyprint.stacking import StackingContext

from procgen.paper.boxes import is_image, is_text, pages, walk
from procgen.paper.engine import listening, warn
from procgen.paper.recorder import Recorder


@dataclass(frozen=True)
class Mark:
    """Where content begins that the tags speak of: the `leaf`th text or picture of the piece, under its tag."""

    leaf: int
    tag: str


@dataclass(frozen=True)
class Glyphs:
    """Of one font: widths and characters by glyph."""

    widths: Mapping[int, float]
    to_unicode: Mapping[int, str]


@dataclass(frozen=True)
class Ink:
    """`runs`: operators and marks in turn. `fonts` and `states` by WeasyPrint's keys. `heard`: warnings.

    Plain values all through: another process may set it, once it has met the same fonts.
    """

    runs: tuple[bytes | Mark, ...]
    fonts: Mapping[Any, Glyphs]
    states: Mapping[str, Mapping[str, Any]]
    heard: tuple[str, ...]

    @property
    def is_settable(self) -> bool:
        """Whether this process has met its fonts."""
        return all(key in _PLAIN for key in self.fonts)

    def put(self, stream: Any, leaves: Sequence[Any], dx: float, dy: float) -> None:
        """Set it on a page, moved by so many CSS pixels. `leaves`: of the piece at that place, for the tags."""
        _merge(stream._fonts, self.fonts)
        for name, state in self.states.items():
            stream._resources["ExtGState"].setdefault(name, pydyf.Dictionary(state))
        stream.push_state()
        stream.transform(e=dx, f=dy)
        for run in self.runs:
            if isinstance(run, bytes):
                stream.stream.append(run)
            else:
                number = len(stream._tags)
                stream._tags[leaves[run.leaf]] = {"tag": run.tag, "mcid": number}
                stream.stream.append(b"/%b <</MCID %d>> BDC" % (run.tag.encode(), number))
        stream.pop_state()
        for message in self.heard:
            warn(message)


NONE = Ink((), {}, {}, ())
"""Of what is not drawn."""


class Kept:
    """A piece's ink, drawn when it is first asked for, unless it is handed in."""

    def __init__(self, ink: Ink | None = None) -> None:
        self._ink = ink
        self._is_drawn = ink is not None

    @property
    def ink(self) -> Ink | None:
        """None where it has not been drawn, or can't be kept."""
        return self._ink

    def draw(self, boxes: Sequence[Any], page: Any) -> None:
        """Draw the piece of these boxes, unless that was done."""
        if not self._is_drawn:
            self._ink, self._is_drawn = _drawn(boxes, page), True

    def put(self, stream: Any, page: Any, boxes: Sequence[Any], leaves: Sequence[Any], dx: float, dy: float) -> None:
        """Set the piece of these boxes on a page, so many CSS pixels away, where `leaves` are the copies of its own."""
        self.draw(boxes, page)
        if self._ink is not None:
            self._ink.put(stream, leaves, dx, dy)
            return
        with stream.stacked():
            stream.transform(e=dx, f=dy)
            for box in boxes:
                draw_stacking_context(stream, StackingContext.from_box(box, page))
        for leaf, placed in zip(leaves_of(boxes), leaves, strict=True):
            if leaf in stream._tags:
                stream._tags[placed] = stream._tags.pop(leaf)


_PLAIN: dict[Any, Any] = {}
"""Fonts before anything is set in them, by WeasyPrint's key: few, and each for as long as a process lives."""


def meet(document: Any) -> None:
    """Meet the fonts that a document is set in."""
    for page in pages(document):
        _drawn(page.children, page)


def _drawn(boxes: Sequence[Any], page: Any) -> Ink | None:
    """Draw boxes where they are. None for what needs more of a document than what can be kept, characters that no font
    has among it."""
    fonts = {key: _fresh(font) for key, font in _PLAIN.items()}
    paper = _Drawn((0, 0, page.margin_width(), page.margin_height()), fonts, {})
    with listening() as heard:
        for box in boxes:
            draw_stacking_context(paper, StackingContext.from_box(box, page))
    if not paper.is_plain or any(font.missing for font in fonts.values()):  # which are numbered anew in each document
        return None
    used = {}
    for key, font in fonts.items():
        if key not in _PLAIN:
            _PLAIN[key] = _fresh(font)
        if font.widths or font.to_unicode:
            used[key] = Glyphs(dict(font.widths), font.to_unicode)
    states = {name: dict(state) for name, state in paper.states.items()}
    return Ink(tuple(_runs(paper, boxes)), used, states, tuple(heard))


class _Drawn(Recorder):
    """What is drawn, with fonts that know their own widths."""

    def add_font(self, pango_font: Any) -> tuple[Any, float]:
        font, size = super().add_font(pango_font)
        if not isinstance(font.widths, _Widths):
            font.widths = _Widths(font)
        return font, size


class _Widths(dict[int, float]):
    """Thousandths of the size by glyph, of those that were asked for.

    WeasyPrint takes a glyph's width from where it is first set and rounds it, so that what is set later depends on what
    was set before; these are the font's own.
    """

    def __init__(self, font: Any, table: Sequence[float] = ()) -> None:
        super().__init__()
        self._table = table or _table(font)

    def fresh(self) -> _Widths:
        return _Widths(None, self._table)

    def __contains__(self, glyph: object) -> bool:
        if not super().__contains__(glyph) and isinstance(glyph, int) and glyph < len(self._table):
            self[glyph] = self._table[glyph]
        return super().__contains__(glyph)


def _table(font: Any) -> list[float]:
    from fontTools.ttLib import TTFont

    with TTFont(BytesIO(font.file_content), fontNumber=font.index, lazy=True) as file:
        metrics, units = file["hmtx"].metrics, file["head"].unitsPerEm
        return [metrics[name][0] * 1000 / units for name in file.getGlyphOrder()]


def _runs(drawn: Recorder, boxes: Sequence[Any]) -> Iterator[bytes | Mark]:
    """What WeasyPrint wrote, taken apart where content begins that is tagged."""
    numbers = {id(box): number for number, box in enumerate(leaves_of(boxes))}
    marks = {one["mcid"]: Mark(numbers[id(box)], one["tag"]) for box, one in drawn._tags.items()}
    whole: list[bytes] = []
    items = iter(drawn.stream)
    for item in items:
        if isinstance(item, dict):
            whole.pop()  # the tag, which the mark has
            yield b"\n".join(whole)
            yield marks[item["MCID"]]
            whole = []
            next(items)  # BDC, which comes with the mark
        else:
            whole.append(item.encode() if isinstance(item, str) else item)
    yield b"\n".join(whole)


def leaves_of(boxes: Sequence[Any]) -> list[Any]:
    """Texts and pictures, in order."""
    return [leaf for box in boxes for leaf in walk(box) if is_text(leaf) or is_image(leaf)]


def _fresh(font: Any) -> Any:
    """The font with nothing set in it; its file is shared."""
    made = copy(font)
    made.widths, made.to_unicode, made.missing = font.widths.fresh(), {}, {}
    return made


def _merge(fonts: dict[Any, Any], more: Mapping[Any, Glyphs]) -> None:
    for key, glyphs in more.items():
        font = fonts.get(key)
        if font is None:
            font = fonts[key] = _fresh(_PLAIN[key])
            font.widths = {}
            font.subset = partial(_subset, _PLAIN[key], font)
        for glyph, width in glyphs.widths.items():
            font.widths.setdefault(glyph, width)
        for glyph, text in glyphs.to_unicode.items():
            font.to_unicode.setdefault(glyph, text)


_SUBSETS: dict[tuple[Any, ...], bytes] = {}
_KEPT = 24  # files of fonts, some 10 KB each


def _subset(plain: Any, font: Any, to_unicode: Mapping[int, str], hinting: bool) -> None:
    """Cut a font's file down to its glyphs, unless one was cut down to the same: a card's letters seldom change."""
    key = (id(plain), font.hash, hinting, bool(font.missing), *sorted(to_unicode))
    if key in _SUBSETS:
        font.file_content = _SUBSETS[key]
        return
    type(font).subset(font, to_unicode, hinting)
    if font.file_content is not plain.file_content:
        if len(_SUBSETS) >= _KEPT:
            _SUBSETS.clear()
        _SUBSETS[key] = font.file_content
