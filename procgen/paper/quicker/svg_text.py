"""Plain text of an SVG set a line at a time: WeasyPrint lays out and draws its every letter, and gives a line that does
not begin where it stands a group of its own. Whole lines are kerned, as they are on a page.

`weasyprint.svg` is not its public face, so its version is pinned; what is not plain is left to it.
"""

from __future__ import annotations

from collections.abc import Callable
from math import inf
from typing import Any

from weasyprint.css.properties import INITIAL_VALUES
from weasyprint.svg import SVG
from weasyprint.svg.text import Style, TextBox
from weasyprint.svg.utils import size

from procgen.paper.quicker.glyphs import set_line
from procgen.paper.quicker.measures import first_line

_PLACE = frozenset({"x", "y", "text-anchor", "font-family", "font-size", "font-weight", "fill"})
_NO_MATTER = frozenset({"role", "aria-hidden", "stroke-linejoin", "version"})  # of the picture, inherited as all is
_WEIGHTS = {"normal": 400, "bold": 700, "400": 400, "700": 700}
_ANCHORS = {"start": 0.0, "middle": 0.5, "end": 1.0}

Draw = Callable[..., None]


def set_lines_whole() -> None:
    """For this process."""
    if SVG.draw_node is not _draw_node:
        SVG.draw_node = _draw_node


_others: Draw = SVG.draw_node


def _draw_node(svg: Any, node: Any, font_size: float, fill_stroke: bool = True, context: Any = None) -> None:
    """Draw an element, as WeasyPrint does."""
    if node.tag == "text" and fill_stroke and _is_plain(node):
        _draw_line(svg, node, size(node.get("font-size", "1em"), font_size, font_size))
    else:
        _others(svg, node, font_size, fill_stroke, context)


def _is_plain(node: Any) -> bool:
    """Whether it is one line in one place, of one colour."""
    given = node.attrib.keys()
    return (
        given <= _PLACE | _NO_MATTER
        and given >= {"x", "y", "font-family", "fill"}
        and node.get("fill").startswith("#")
        and node.get("font-weight", "normal") in _WEIGHTS
        and node.get("text-anchor", "start") in _ANCHORS
        and not any(mark in node.get("x") + node.get("y") for mark in " ,")
        and bool(node.text)
        and next(iter(node), None) is None
    )


def _draw_line(svg: Any, node: Any, font_size: float) -> None:
    style = Style(INITIAL_VALUES)
    style.font_config = svg.font_config
    style["font_family"] = [name.strip("\"' ") for name in node.get("font-family").split(",")]
    style["font_weight"] = _WEIGHTS[node.get("font-weight", "normal")]
    style["font_size"] = font_size
    layout, _, _, width, _, _ = first_line(node.text, style, svg.context, inf, 0)
    x = size(node.get("x"), font_size, svg.inner_width) - width * _ANCHORS[node.get("text-anchor", "start")]
    y = size(node.get("y"), font_size, svg.inner_height)
    svg.stream.push_state()
    fill, stroke = svg.set_graphical_state(node, font_size)
    svg.stream.begin_text()
    svg.fill_stroke(fill, stroke, text=True)
    set_line(svg.stream, TextBox(layout, style), x, y)
    svg.stream.end_text()
    svg.stream.pop_state()
