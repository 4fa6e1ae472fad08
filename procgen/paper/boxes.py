"""Walking WeasyPrint's boxes after layout. `Page._page_box` is not its public face, so its version is pinned."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from weasyprint.formatting_structure import boxes as kinds

MM = 25.4 / 96
"""Millimetres in a CSS pixel."""


def walk(box: Any) -> Iterator[Any]:
    """A box and everything in it, in order."""
    left = [box]
    while left:
        box = left.pop()
        box = getattr(box, "_box", box)  # a placeholder of something placed absolutely
        yield box
        left += reversed(getattr(box, "children", ()))


def pages(document: Any) -> Iterator[Any]:
    for page in document.pages:
        yield page._page_box


def is_text(box: Any) -> bool:
    return isinstance(box, kinds.TextBox)


def is_image(box: Any) -> bool:
    return isinstance(box, kinds.ReplacedBox)


def is_margin(box: Any) -> bool:
    return isinstance(box, kinds.MarginBox)


def attribute(box: Any, name: str) -> str:
    """An attribute of the element that a box was made for; a box made without one, or beside it, has none."""
    element = box.element
    if element is None or box.element_tag != element.tag:
        return ""
    value: str = element.get(name, "")
    return value
