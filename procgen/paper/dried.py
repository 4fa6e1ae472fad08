"""Pieces that are laid out and drawn, without all that is only of use for laying out and drawing: to be kept for the
next process, and to take little room in this one.

Of boxes stay their places and sizes, and what tags, gates and jumps ask for. Boxes are WeasyPrint's own and not its
public face, so its version is pinned.
"""

from __future__ import annotations

import pickle
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any
from xml.etree.ElementTree import Element, SubElement

from weasyprint.formatting_structure import boxes as kinds

from procgen.files.stored import read
from procgen.paper import ink
from procgen.paper.ink import Ink

_STYLE = (
    *("anchor", "appearance", "bookmark_level", "bookmark_state", "display", "float", "font_size"),
    *("list_style_type", "position", "transform"),
)
_ATTRIBUTES = ("alt", "class", "data-part", "scope")
_TITLE = "{http://www.w3.org/2000/svg}title"
_KEPT = frozenset(
    [
        *("position_x", "position_y", "width", "height", "element_tag", "text", "bookmark_label", "link"),
        *("colspan", "rowspan", "is_table_wrapper", "is_outside_marker"),
        *(f"{what}_{side}" for what in ("margin", "padding") for side in ("top", "right", "bottom", "left")),
        *(f"border_{side}_width" for side in ("top", "right", "bottom", "left")),
    ]
)


@dataclass(frozen=True)
class Dried:
    """`boxes` as laid out; `heights`: of all that is named in them, mm."""

    boxes: tuple[Any, ...]
    heights: Mapping[str, float]
    ink: Ink


class Drying:
    """Of the pieces of one bundle, in which styles and elements that boxes share stay shared."""

    def __init__(self) -> None:
        self._styles: dict[Any, dict[str, Any]] = {}
        self._elements: dict[int, Element] = {}

    def dry(self, boxes: tuple[Any, ...], heights: Mapping[str, float], ink: Ink) -> Dried:
        return Dried(tuple(map(self.box, boxes)), heights, ink)

    def box(self, box: Any) -> Any:
        box = getattr(box, "_box", box)  # a placeholder of something placed absolutely
        dried = object.__new__(type(box))
        known = dried.__dict__
        known |= {name: value for name, value in box.__dict__.items() if name in _KEPT}
        known["style"] = self._style(box.style)
        known["element"] = None if box.element is None else self._element(box.element)
        known["children"] = [self.box(child) for child in box.children]
        if hasattr(box, "column_groups"):
            known["column_groups"] = ()
        return dried

    def _style(self, style: Any) -> dict[str, Any]:
        found = {name: style[name] for name in _STYLE}
        return self._styles.setdefault(tuple(found.values()), found)

    def _element(self, element: Any) -> Element:
        found = self._elements.get(id(element))
        if found is None:
            kept = {name: element.get(name) for name in _ATTRIBUTES if name in element.attrib}
            found = self._elements[id(element)] = Element(element.tag, kept)
            if (title := element.find(_TITLE)) is not None:  # a drawing's words
                SubElement(found, _TITLE).text = title.text
        return found


def store(value: Any) -> bytes:
    """A structure of plain values and dried pieces."""
    return pickle.dumps(value, pickle.HIGHEST_PROTOCOL)


def restore(content: bytes) -> Any:
    """An equal of what was stored. Nothing but what pieces are made of can be had.

    Raises:
        Exception: of any kind, where this is not what `store` gives.
    """
    return read(content, lambda module, name: _MADE_OF.get((module, name)))


_BOXES = [one for one in vars(kinds).values() if isinstance(one, type) and issubclass(one, kinds.Box)]
_MADE_OF = {(one.__module__, one.__qualname__): one for one in (Dried, Ink, ink.Mark, ink.Glyphs, Element, *_BOXES)}
