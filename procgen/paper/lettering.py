"""What Pango is told of a style's font, put together once for all text in it: WeasyPrint does so for every line, and
spells the style out for every look at a line's height.

`weasyprint.text.line_break` is not its public face, so its version is pinned.
"""

from __future__ import annotations

from typing import Any

from weasyprint.text import line_break
from weasyprint.text.fonts import get_font_description

_TOLD = ("font_style", "font_stretch", "font_weight", "font_size", "font_variant_caps", "font_variation_settings")
_MEANT = (
    *("font_style", "font_stretch", "font_weight", "font_variant_ligatures", "font_variant_position"),
    *("font_variant_caps", "font_variant_numeric", "font_variant_alternates", "font_variant_east_asian"),
    *("font_feature_settings", "font_variation_settings", "font_language_override", "lang"),
)
_KEPT = 2000  # a title has a size of its own

_described: dict[Any, Any] = {}


def describe_once() -> None:
    """For this process."""
    line_break.get_font_description = described
    line_break._font_style_cache_key = named


def described(style: Any) -> Any:
    """Pango's description of the font, which is not to be changed."""
    key = (tuple(style["font_family"]), *(style[name] for name in _TOLD))
    found = _described.get(key)
    if found is None:
        if len(_described) > _KEPT:
            _described.clear()
        found = _described[key] = get_font_description(style)
    return found


def named(style: Any, include_size: bool = False) -> Any:
    """What the measures of a line in that font are known by."""
    font = (tuple(style["font_family"]), *(style[name] for name in _MEANT))
    return (*font, style["font_size"], style["line_height"]) if include_size else font
