"""What a box has from its style alone, worked out once for all boxes of that style: that it stands in the flow, lengths
that are no share of anything, and that nothing is painted behind it. WeasyPrint asks each box for each of these anew.

Its layout is not its public face, so its version is pinned; a test holds every box of a card against its own way.
"""

from __future__ import annotations

from typing import Any

from weasyprint.formatting_structure.boxes import Box
from weasyprint.layout import absolute, background, block, column, flex, float, grid, inline, page, table
from weasyprint.layout.absolute import AbsolutePlaceholder
from weasyprint.layout.background import layout_box_backgrounds
from weasyprint.layout.percent import resolve_percentages

_SIDES = ("top", "right", "bottom", "left")
_LENGTHS = (
    *(f"{kind}_{side}" for kind in ("margin", "padding") for side in _SIDES),
    *(f"{least}{axis}" for least in ("", "min_", "max_") for axis in ("width", "height")),
)
_RADII = tuple(f"border_{high}_{wide}_radius" for high in ("top", "bottom") for wide in ("left", "right"))
_UNPAINTED = {"background": None, **dict.fromkeys(_RADII, (0, 0))}
_UNKNOWN = object()

is_in_flow = Box.is_in_normal_flow


def ask_styles() -> None:
    """For this process."""
    Box.is_in_normal_flow = in_flow
    for module in (absolute, block, column, flex, float, grid, inline, page, table):
        module.resolve_percentages = resolve
    background.layout_box_backgrounds = lay_backgrounds


def in_flow(box: Any) -> bool:
    """Whether a box is in normal flow."""
    style = box.style
    if style["float"] == "none" and style["position"] == "static":
        return True
    return bool(is_in_flow(box))


def resolve(box: Any, containing_block: Any) -> None:
    """Set a box's used lengths, CSS pixels."""
    style = box.style
    lengths = vars(style).get("lengths", _UNKNOWN)
    if lengths is _UNKNOWN:
        lengths = style.lengths = _lengths(style)
    if lengths is None or isinstance(box, AbsolutePlaceholder):
        resolve_percentages(box, containing_block)
    else:
        vars(box).update(lengths)


def _lengths(style: Any) -> dict[str, Any] | None:
    """None where any depends on more than the style."""
    if style["box_sizing"] != "content-box" or style["border_collapse"] != "separate":
        return None
    found = {f"border_{side}_width": style[f"border_{side}_width"] for side in _SIDES}
    for name in _LENGTHS:
        length = style[name]
        if length == "auto":
            found[name] = 0 if name.startswith("min_") else length
        elif getattr(length, "unit", None) == "px":
            found[name] = length.value
        else:
            return None
    return found


def lay_backgrounds(page: Any, box: Any, get_image: Any, layout_children: bool = True, style: Any = None) -> None:
    """Find what is painted behind a box and all in it."""
    if box is page or style is not None or isinstance(box, AbsolutePlaceholder) or not _is_unpainted(box.style):
        layout_box_backgrounds(page, box, get_image, layout_children, style)
        return
    vars(box).update(_UNPAINTED)
    if layout_children:
        for child in box.all_children():
            lay_backgrounds(page, child, get_image)


def _is_unpainted(style: Any) -> bool:
    known = vars(style).get("is_unpainted")
    if known is None:
        colour = style["background_color"]
        known = style.is_unpainted = (
            colour != "currentcolor"
            and colour.alpha == 0
            and all(kind == "none" for kind, _ in style["background_image"])
            and not style["box_shadow"]
            and style["border_image_source"][0] == style["mask_border_source"][0] == "none"
            and all((0, "px") in style[radius] for radius in _RADII)
        )
    return bool(known)
