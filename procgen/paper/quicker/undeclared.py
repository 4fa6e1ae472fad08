"""Properties that no rule speaks of, given their inherited or initial value at once: WeasyPrint works out each of some
hundred for every style in a way that is made for all cases, which takes a fourth of laying out.

`ComputedStyle` is not its public face, so its version is pinned; a test holds every property against its own way.
"""

from __future__ import annotations

from typing import Any

from weasyprint.css import ComputedStyle
from weasyprint.css.computed_values import PHYSICAL_FUNCTIONS
from weasyprint.css.functions import check_math
from weasyprint.css.properties import INHERITED, INITIAL_NOT_COMPUTED, INITIAL_VALUES

_OF_EACH_OTHER = ("display", "float", "page", "position")
_INITIAL = frozenset(
    key
    for key, value in INITIAL_VALUES.items()
    if not (key in INITIAL_NOT_COMPUTED or key in INHERITED or key in _OF_EACH_OTHER or check_math(value))
    and not key.startswith("text_decoration_")
)
_INHERITED = frozenset(key for key in INHERITED if not key.startswith("text_decoration_") and key not in _OF_EACH_OTHER)
_LOGICAL = {
    key: {inline: named(block="ttb", inline=inline) for inline in ("ltr", "rtl")}
    for key, named in PHYSICAL_FUNCTIONS.items()
}
"""What else a rule may call a property, by the direction of writing."""

long_way = ComputedStyle.__missing__


def short_way(style: Any, key: str) -> Any:
    """The value of a property that was not asked for yet."""
    cascaded = style.cascaded
    if key not in cascaded and (key not in _LOGICAL or _LOGICAL[key][style["direction"]] not in cascaded):
        if key in _INITIAL:
            value = style[key] = INITIAL_VALUES[key]
            return value
        if key in _INHERITED and style.parent_style is not None:
            value = style.parent_style[key]
            if not check_math(value):
                style[key] = value
                return value
    return long_way(style, key)


def take_short_way() -> None:
    """For this process."""
    ComputedStyle.__missing__ = short_way
