"""The code on the first face, read back from the picture of the page."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

import pypdfium2
import pytest
import segno
import zxingcpp
from samples import CAM, CARDS, PARTIAL, READ_FROM, SHOP, STOCKS

from procgen.model.card import Card
from procgen.paper.press import Press, Printed
from procgen.paper.qr import MODULE, QUIET, qr

ADDRESS = f"{SHOP.site}/{CAM.address}.html#r={CAM.revision}"


def test_the_path_is_the_matrix() -> None:
    svg, side = qr(ADDRESS, "#000")
    matrix = [list(row) for row in segno.make(ADDRESS, error="m", micro=False, mask=0).matrix]
    size = len(matrix)
    drawn = [[0] * size for _ in range(size)]
    for y, row in re.findall(rf"M{QUIET},(\d+)\.5([^M\"]*)", svg):
        x = 0
        for gap, run in re.findall(r"(?:m(\d+),0)?h(\d+)", row):
            x += int(gap or 0) + int(run)
            drawn[int(y) - QUIET][x - int(run) : x] = [1] * int(run)
    assert drawn == matrix
    assert side == (size + 2 * QUIET) * MODULE


def test_it_is_printed_whole_with_its_quiet_zone(printed: Callable[..., Printed]) -> None:
    matrix = [list(row) for row in segno.make(ADDRESS, error="m", micro=False, mask=0).matrix]
    dots = 6  # pixels a module
    page = pypdfium2.PdfDocument(printed(CAM).pdf)[0]
    picture = page.render(scale=dots / (MODULE / 25.4 * 72)).to_pil().convert("L")
    size = len(matrix)
    # the finder's corner: the first row of 7 dark modules, found from the left in the lower half
    width, height = picture.size
    pixels = picture.load()
    column = [y for y in range(height // 2, height) for x in range(width // 4) if pixels[x, y] < 100]
    top = min(y for y in column if y > height * 0.85)
    left = min(x for x in range(width // 4) if pixels[x, top + dots // 2] < 100)
    read = [
        [int(pixels[left + round((x + 0.5) * dots), top + round((y + 0.5) * dots)] < 128) for x in range(size)]
        for y in range(size)
    ]
    assert read == matrix
    quiet = range(1, QUIET * dots - 2)
    assert all(pixels[left - q, top + y] > 200 for q in quiet for y in range(size * dots))
    assert all(pixels[left + x, top - q] > 200 for q in quiet for x in range(size * dots))


def _codes(pdf: bytes, dots_per_inch: int) -> list[list[str]]:
    """What a reader that knows nothing of the cards finds on each face."""
    document = pypdfium2.PdfDocument(pdf)
    pictures = [page.render(scale=dots_per_inch / 72).to_pil() for page in document]
    return [[code.text for code in zxingcpp.read_barcodes(picture)] for picture in pictures]


@pytest.mark.parametrize("theme", ["colour", "mono"])
@pytest.mark.parametrize("card", CARDS, ids=lambda card: card.id)
def test_a_reader_finds_the_page_and_the_revision(printed: Callable[..., Printed], card: Card, theme: str) -> None:
    first, *others = _codes(printed(card, "a5", theme).pdf, 150)
    assert first == [f"{SHOP.site}/{card.address}.html#r={card.revision}"]
    assert not any(others)


def test_without_a_site_there_is_nothing_to_read(press: Press) -> None:
    one = press.card(PARTIAL, replace(SHOP, site=""), STOCKS["a5"], READ_FROM)
    assert not any(_codes(one.pdf, 150))
