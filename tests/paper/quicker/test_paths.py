"""Straight paths come out, to the byte, as the library draws them."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any
from xml.etree.ElementTree import Element

import pytest
from hypothesis import given
from hypothesis import strategies as st
from weasyprint import svg as library
from weasyprint.svg import SVG
from weasyprint.svg.path import path
from weasyprint.svg.utils import PointError

from procgen.draw.fonts import Fonts
from procgen.paper.engine import Engine, listening
from procgen.paper.qr import qr
from procgen.paper.quicker import paths
from procgen.paper.recorder import Recorder

NUMBERS = st.one_of(
    st.integers(-999, 999).map(str),
    st.floats(-999, 999).map(lambda one: f"{one:.3f}"),
    st.sampled_from(["-.5", ".25", "3.", "0", "-0", "00.10"]),
)
STROKES = st.one_of(
    st.tuples(st.sampled_from("MmLl"), st.lists(st.tuples(NUMBERS, NUMBERS).map(",".join), min_size=1, max_size=3)),
    st.tuples(st.sampled_from("HhVv"), st.lists(NUMBERS, min_size=1, max_size=3)),
    st.tuples(st.sampled_from("Zz"), st.just([])),
).map(lambda one: one[0] + " ".join(one[1]))


def _drawn(draw: Any, data: str, **more: str) -> tuple[bytes, int]:
    svg: Any = SVG.__new__(SVG)
    svg.inner_width, svg.inner_height = 100.0, 50.0
    svg.stream = Recorder((0, 0, 100, 100), {}, None)
    node = SimpleNamespace(attrib={"d": data, **more}, vertices=[])
    node.get = node.attrib.get
    try:
        draw(svg, node, 10)
    except PointError:
        return b"\n".join([*svg.stream.stream, b"broken off"]), 0
    return b"\n".join(svg.stream.stream), len(node.vertices)


@given(st.lists(STROKES, max_size=12))
def test_straight_paths_are_drawn_alike(strokes: list[str]) -> None:
    data = "M1,2" + "".join(strokes)
    assert _drawn(paths.straight, data)[0] == _drawn(path, data)[0]


def test_a_code_is_drawn_alike_and_by_us() -> None:
    (element,) = (one for one in _svg(qr("https://example.org/a", "#141416")[0]).iter() if one.tag.endswith("path"))
    data = element.get("d", "")
    ours, marks = _drawn(paths.straight, data)
    assert ours == _drawn(path, data)[0]
    assert ours.count(b"\n") > 300
    assert marks == 0


@pytest.mark.parametrize(
    "data",
    [
        *("", "M1,2C1,2,3,4,5,6", "M1,2A1,1 0 1 0 3,4", "L1,2", "M1", "M1,2h", "M1,2h1e3", "M1,2h+3", "M1,2h3mm"),
        *("M1,2l3", "M1,2--3", "M1,2h1-", "M1.2.3.4h5", "M1,2z", "M1,2zz", "M1,2h3zl4,5zh6"),
    ],
)
def test_all_else_is_left_to_the_library(data: str) -> None:
    def outcome(draw: Any) -> Any:
        try:
            return _drawn(draw, data)[0]
        except ValueError as wrong:
            return str(wrong)

    assert outcome(paths.straight) == outcome(path)


@pytest.mark.parametrize(
    ("data", "said"),
    [
        ("M0 0 z3", 'the path data "M0 0 z3" has something after a z, which takes nothing; it is not drawn'),
        ("M0 0Z , 3", 'the path data "M0 0Z , 3" has something after a z, which takes nothing; it is not drawn'),
        ("M0 0c1 1 2 2 3 3z#", 'the path data "M0 0c1 1 2 2 3 3z#" has something after a z, which takes nothing;'
         " it is not drawn"),
        ("M1,2l3", 'the path data "M1,2l3" breaks off: numbers are missing, or are none'),
        ("M1,2A1 1", 'the path data "M1,2A1 1" breaks off: numbers are missing, or are none'),
        ("M1,2h3z", None),
        ("M1,2c1 1 2 2 3 3z m1 1z", None),
    ],
)  # fmt: skip
def test_malformed_paths_are_told_of(fonts: Fonts, data: str, said: str | None) -> None:
    """The first of them kept the library looking for ever."""
    engine = Engine(fonts)
    picture = f'<svg xmlns="http://www.w3.org/2000/svg" width="10" height="10"><path d="{data}"/></svg>'
    with listening() as heard:
        engine.pdf(engine.layout(f"<html><body>{picture}</body></html>"))
    assert [one for one in heard if "path data" in one] == ([said] if said else [])


def test_marks_are_kept_where_a_path_has_markers() -> None:
    assert _drawn(paths.straight, "M1,2h3", **{"marker-end": "url(#arrow)"})[1] > 0


def test_the_library_asks_us(fonts: Fonts) -> None:
    Engine(fonts)
    assert library.TAGS["path"] is paths.straight


def _svg(text: str) -> Element:
    from xml.etree.ElementTree import fromstring

    return fromstring(text)
