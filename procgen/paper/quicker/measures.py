"""What Pango is told of a style's font, put together once for all text in it: WeasyPrint does so for every line, and
spells the style out for every look at a line's height. And what it says of a text that fits in its line, asked once:
cards are full of the same short texts.

`weasyprint.text.line_break` is not its public face, so its version is pinned.
"""

from __future__ import annotations

from copy import copy
from operator import itemgetter
from typing import Any

from weasyprint.layout import inline, preferred
from weasyprint.text import line_break
from weasyprint.text.fonts import get_font_description
from weasyprint.text.line_break import split_first_line, strut

_FONT = (
    *("font_style", "font_stretch", "font_weight", "font_variant_ligatures", "font_variant_position"),
    *("font_variant_caps", "font_variant_numeric", "font_variant_alternates", "font_variant_east_asian"),
    *("font_feature_settings", "font_variation_settings", "font_language_override", "lang"),
)
_SET = (
    *("font_size", "line_height", "font_kerning", "letter_spacing", "word_spacing", "white_space", "overflow_wrap"),
    *("word_break", "hyphens", "direction", "tab_size"),
)
_font, _looks = itemgetter(*_FONT), itemgetter(*_FONT, *_SET)
_KEPT = 2000  # a title has a size of its own
_TEXTS = 6000

_described: dict[Any, Any] = {}
_fitting: dict[Any, tuple[Any, ...]] = {}


def describe_once() -> None:
    """For this process."""
    line_break.get_font_description = described
    line_break._font_style_cache_key = named
    inline.strut = strut_of
    inline.split_first_line = preferred.split_first_line = first_line


def described(style: Any) -> Any:
    """Pango's description of the font, which is not to be changed."""
    key = named(style), style["font_size"]
    found = _described.get(key)
    if found is None:
        if len(_described) > _KEPT:
            _described.clear()
        found = _described[key] = get_font_description(style)
    return found


def named(style: Any, include_size: bool = False) -> Any:
    """What the measures of a line in that font are known by. Without the size nothing may be asked for that can be
    stated in widths of the font's own letters."""
    return looks(style) if include_size else (tuple(style["font_family"]), _font(style))


def looks(style: Any) -> Any:
    """All that the looks of a text are known by, but for its colour and strokes through it."""
    return tuple(style["font_family"]), _looks(style)


def first_line(
    text: str,
    style: Any,
    context: Any,
    max_width: float | None,
    justification_spacing: float,
    is_line_start: bool = True,
    minimum: bool = False,
) -> Any:
    """As much of the text as fits in that width: WeasyPrint's layout of it, its length in bytes and where the next
    line begins, width, height and baseline in CSS pixels. What fits as a whole looks the same in each such width.
    """
    if style["text_decoration_line"] != "none":  # whose strokes the layout knows
        return split_first_line(text, style, context, max_width, justification_spacing, is_line_start, minimum)
    key = (text, justification_spacing, style.font_config, looks(style))
    known = _fitting.get(key)
    if known is not None and (max_width is None or known[3] <= max_width):
        layout = copy(known[0])
        layout.max_width = max_width
        return layout, *known[1:]
    found = split_first_line(text, style, context, max_width, justification_spacing, is_line_start, minimum)
    if found[2] is None and (max_width is None or found[3] <= max_width):
        if len(_fitting) > _TEXTS:
            _fitting.clear()
        _fitting[key] = copy(found[0]), *found[1:]
    return found


def strut_of(style: Any) -> Any:
    """Height and baseline of a line with nothing in it, CSS pixels; found once for a style."""
    found = vars(style).get("strut")
    if found is None:
        found = style.strut = strut(style)
    return found
