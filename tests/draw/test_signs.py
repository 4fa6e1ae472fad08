"""Signs: each that a caution names is there, in its kind's shape and colour, and says its number in words."""

from __future__ import annotations

import io
import xml.etree.ElementTree as ET
from functools import cache

import numpy as np
import pypdfium2
import pytest
import weasyprint

from procgen.draw.signs import NAMES, Signs
from procgen.files.home import resources
from procgen.paper.theme import contrast
from tests.demo import workshop

SIGNS = Signs([resources("templates")])
SVG = "{http://www.w3.org/2000/svg}"


@cache
def _pixels(number: str, theme: str) -> np.ndarray:
    """A sign as 200 by 200 pixels of three colours."""
    svg = SIGNS.draw(number, 20, theme)
    html = f"<style>@page {{ size: 20mm; margin: 0 }} body, svg {{ margin: 0; display: block }}</style>{svg}"
    page = pypdfium2.PdfDocument(io.BytesIO(weasyprint.HTML(string=html).write_pdf()))[0]
    return np.asarray(page.render(scale=200 / page.get_width()).to_pil().convert("RGB"), dtype=int)


def test_every_sign_that_a_caution_names_is_drawn() -> None:
    named = {symbol for caution in workshop().cautions.values() for symbol in caution.symbols}
    assert len(named) >= 15
    assert named <= NAMES.keys()
    assert all(SIGNS.draw(number, 10, theme) for number in named for theme in ("colour", "mono"))


@pytest.mark.parametrize("number", NAMES)
def test_it_says_what_it_is(number: str) -> None:
    root = ET.fromstring(SIGNS.draw(number, 12.5, "colour"))
    assert root[0].tag == f"{SVG}title"
    assert root[0].text == f"ISO 7010 {number}: {NAMES[number]}"
    assert root.get("width") == root.get("height") == "12.50mm"


@pytest.mark.parametrize(
    ("kind", "ground", "ink"),
    [  # warning: black on yellow in a triangle; must: white on a blue disc. Source: ISO 3864-1, from memory
        ("W", (0xF9, 0xA8, 0x00), (0, 0, 0)),
        ("M", (0x00, 0x53, 0x87), (255, 255, 255)),
    ],
)
def test_kinds_have_their_colours(kind: str, ground: tuple[int, ...], ink: tuple[int, ...]) -> None:
    for number in (number for number in NAMES if number.startswith(kind)):
        pixels = _pixels(number, "colour")
        of_ground, of_ink = ((pixels == colour).all(axis=2).mean() for colour in (ground, ink))
        assert of_ground > 0.12, number  # a triangle inside its edge is a fourth of the square
        assert of_ink > 0.02, number
    assert contrast(*(f"#{bytes(colour).hex()}" for colour in (ground, ink))) > 7


@pytest.mark.parametrize("number", ["P003", "P028"])
def test_what_is_forbidden_is_ringed_and_struck_through_from_upper_left(number: str) -> None:
    red = (_pixels(number, "colour") == (0x9B, 0x24, 0x23)).all(axis=2)
    assert red[50, 50]
    assert red[150, 150]
    assert red[100, 12]
    assert not red[150, 50]  # not the other way


@pytest.mark.parametrize("number", NAMES)
def test_mono_is_black_and_white_and_no_sign_is_another(number: str) -> None:
    mine = _pixels(number, "mono")
    assert (mine == mine[:, :, :1]).all()
    for other in NAMES:
        if other != number and other[0] == number[0]:
            unlike = np.abs(mine - _pixels(other, "mono")).max(axis=2) > 127
            assert unlike.mean() > 0.01, other


def test_a_number_that_nobody_drew_is_left_out() -> None:
    assert SIGNS.draw("W999", 10, "colour") == ""
    assert SIGNS.draw("X001", 10, "colour") == ""
    assert SIGNS.draw("", 10, "mono") == ""
