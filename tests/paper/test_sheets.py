"""Sheets, held to the geometry of turning paper over and read back by libraries that know nothing of their making.

Turning is checked by reflecting the back about the edge that the paper turns on: what lies behind a front must be its
own back, upright for one who turns the card as one turns the page of a book. Source: geometry.
"""

from __future__ import annotations

import io
from collections import Counter
from dataclasses import replace

import pdfplumber
import pikepdf
import pypdf
import pytest
from samples import CAM, CHOICE, PARTIAL, READ_FROM, SHOP, STOCKS

from procgen.files.home import resources
from procgen.model.workshop import Hole, Sheets, Stock
from procgen.paper import marks
from procgen.paper.imposing import PAPERS, Grid, Placed, back_of, grid, impose
from procgen.paper.lead import Listed
from procgen.paper.press import Press, Printed
from tests.demo import workshop

POINT = 25.4 / 72
A6, A5, HALF, LETTER = (STOCKS[id] for id in ("a6", "a5", "half-letter", "letter"))
CARD_4X6 = replace(A6, id="4x6in", width=101.6, height=152.4)


def _grid(stock: Stock, paper: str, duplex: str = "long") -> Grid:
    found = grid(stock, Sheets(paper, duplex))
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("stock", "paper", "count", "lies", "left", "top"),
    [  # what is left at each side, from the sizes. Source: ISO 216, ANSI/ASME Y14.1; worked by hand
        (A6, "a4", 4, False, 0.0, 0.5),
        (A5, "a4", 2, True, 0.5, 0.0),
        (HALF, "letter", 2, True, 0.0, 0.0),
        (CARD_4X6, "letter", 2, True, 35.1, 31.75),
        (LETTER, "letter", 1, False, 0.0, 0.0),
    ],
)
def test_how_many_fit(stock: Stock, paper: str, count: int, lies: bool, left: float, top: float) -> None:
    one = _grid(stock, paper)
    assert (one.count, one.landscape) == (count, lies)
    assert (one.left(0), one.top(0)) == pytest.approx((left, top), abs=0.01)
    right = one.left(one.columns - 1) + one.cell[0]
    assert right == pytest.approx(one.width - left, abs=0.01)


def test_without_a_paper_named_the_one_that_holds_more() -> None:
    assert _grid(HALF, "").paper == "letter"
    assert _grid(A5, "").paper == "a4"
    assert _grid(LETTER, "").paper == "letter"


@pytest.mark.parametrize(
    ("size", "lies", "duplex", "cell", "turned"),
    [  # of the card at row 0, column 0 among 3 rows and 2 columns. Source: geometry; printers' own words for the edges
        ("upright", False, "long", (0, 1), False),
        ("lying", True, "short", (0, 1), False),
        ("upright", False, "short", (2, 0), True),
        ("lying", True, "long", (2, 0), True),
    ],
)
def test_where_a_back_goes(size: str, lies: bool, duplex: str, cell: tuple[int, int], turned: bool) -> None:
    width, height = (297.0, 210.0) if lies else (210.0, 297.0)
    one = Grid(size, width, height, (60, 60), (60, 60), 2, 3, (0, 0))
    assert back_of(0, 0, one, duplex) == (*cell, turned)


def _behind(back: Placed, one: Grid, duplex: str) -> tuple[float, float, bool]:
    """Where a face of the back lies seen through the paper from the front, and whether a card turned like a page shows
    it upright: the sheet is turned over about an upright edge, or about a level one and then half round."""
    upright_edge = (duplex == "long") != one.landscape
    if upright_edge:
        return one.width - back.x - one.card[0], back.y, not back.turned
    return back.x, one.height - back.y - one.card[1], back.turned


@pytest.mark.parametrize("duplex", ["long", "short"])
@pytest.mark.parametrize("paper", list(PAPERS))
@pytest.mark.parametrize("stock", [A6, A5, HALF, CARD_4X6, replace(A6, width=60.0, height=60.0)], ids=lambda s: s.id)
def test_backs_lie_behind_their_fronts(stock: Stock, paper: str, duplex: str) -> None:
    one = _grid(stock, paper, duplex)
    faces = (4, 1, 3, 2, 6, 2, 1)
    leaves = [(start + i, i + 1 < count) for start, count in _starts(faces) for i in range(0, count, 2)]
    fronts = [placed for sheet in impose(faces, one, duplex) for placed in sheet.front]
    assert [placed.face for placed in fronts] == [face for face, _ in leaves]
    seen = Counter()
    for sheet in impose(faces, one, duplex):
        by_face = {placed.face: placed for placed in sheet.front}
        for back in sheet.back:
            x, y, upright = _behind(back, one, duplex)
            front = by_face[back.face - 1]
            assert (x, y) == pytest.approx((front.x, front.y), abs=1e-9)
            assert upright
            seen[back.face] += 1
    assert seen == Counter(face + 1 for face, has_back in leaves if has_back)


def _starts(faces: tuple[int, ...]) -> list[tuple[int, int]]:
    return [(sum(faces[:i]), count) for i, count in enumerate(faces)]


@pytest.mark.parametrize(
    ("stock", "upright"), [(A5, True), (A6, True), (replace(A5, width=200.0, height=140.0), False)]
)
def test_a_fold_puts_the_back_behind_the_front(stock: Stock, upright: bool) -> None:
    one = _grid(stock, "a4", "fold")
    (sheet, *_) = impose((2, 2), one, "fold")
    assert sheet.back == ()
    front, back = sheet.front[:2]
    if upright:  # turned over about the line between them: mirrored across it, still upright
        assert back.x == pytest.approx(front.x + stock.width)
        assert (back.y, back.turned) == (front.y, False)
    else:
        assert back.y == pytest.approx(front.y - stock.height)
        assert (back.x, back.turned) == (front.x, True)


def test_a_hole_off_the_middle_is_mirrored_behind() -> None:
    hole = Hole("round", 6.0, (20.0, 9.0), 4.0)
    for duplex in ("long", "short"):
        one = _grid(A5, "a4", duplex)
        (sheet,) = impose((2,), one, duplex)
        (front, _), (behind, _) = marks.hole(sheet.front[0], hole, one.card), marks.hole(sheet.back[0], hole, one.card)
        x, y = (front[0] + front[2]) / 2, front[1]
        assert (x - sheet.front[0].x, y - sheet.front[0].y) == pytest.approx((20.0, 9.0))
        bx, by = (behind[0] + behind[2]) / 2, behind[1]
        through = (one.width - bx, by) if duplex == "short" else (bx, one.height - by)  # the sheet lies
        assert through == pytest.approx((x, y))


@pytest.mark.parametrize("stock", [A6, A5, HALF, CARD_4X6], ids=lambda stock: stock.id)
@pytest.mark.parametrize("duplex", ["long", "fold"])
def test_cuts_run_along_edges_and_nowhere_over_a_card(stock: Stock, duplex: str) -> None:
    one = _grid(stock, "", duplex)
    cells = [
        (one.left(c), one.top(r), one.left(c) + one.cell[0], one.top(r) + one.cell[1])
        for c in range(one.columns)
        for r in range(one.rows)
    ]
    strokes = list(marks.cuts(one))
    for x0, y0, x1, y1 in strokes:
        assert min(x0, y0) >= 0
        assert x1 <= one.width
        assert y1 <= one.height
        middle = ((x0 + x1) / 2, (y0 + y1) / 2)
        inside = [c for c in cells if c[0] < middle[0] - 1e-6 < c[2] and c[1] < middle[1] - 1e-6 < c[3]]
        for a, b, c, d in inside:
            assert min(abs(middle[0] - a), abs(middle[0] - c), abs(middle[1] - b), abs(middle[1] - d)) < 1e-6
    for left, top, right, low in cells:  # each edge has its tick
        assert any(abs(s[0] - left) < 1e-6 and s[0] == s[2] for s in strokes)
        assert any(abs(s[0] - right) < 1e-6 and s[0] == s[2] for s in strokes)
        assert any(abs(s[1] - top) < 1e-6 and s[1] == s[3] for s in strokes)
        assert any(abs(s[1] - low) < 1e-6 and s[1] == s[3] for s in strokes)


@pytest.fixture(scope="module")
def deck(press: Press) -> tuple[Printed, list[int]]:
    ones = [press.card(card, SHOP, A5, READ_FROM) for card in (CAM, PARTIAL, CHOICE)]
    return press.join(ones), [one.faces for one in ones]


def _listed(faces: list[int]) -> list[Listed]:
    """The first cards of the deck, of so many faces."""
    return [
        Listed(card.title, card.revision, count) for card, count in zip((CAM, PARTIAL, CHOICE), faces, strict=False)
    ]


def _sheets(press: Press, deck: tuple[Printed, list[int]], duplex: str) -> bytes:
    joined, faces = deck
    pdf, problems = press.sheets([joined.pdf], _listed(faces), "Sample", SHOP, A5, Sheets("a4", duplex))
    assert problems == ()
    return pdf


@pytest.mark.parametrize(
    ("duplex", "wish"), [("long", "/DuplexFlipLongEdge"), ("short", "/DuplexFlipShortEdge"), ("fold", "/Simplex")]
)
def test_what_the_printer_is_told(press: Press, deck: tuple[Printed, list[int]], duplex: str, wish: str) -> None:
    reader = pypdf.PdfReader(io.BytesIO(_sheets(press, deck, duplex)))
    wishes = reader.trailer["/Root"]["/ViewerPreferences"]
    assert wishes["/PrintScaling"] == "/None"
    assert wishes["/Duplex"] == wish
    assert reader.trailer["/Root"]["/Lang"] == "en"
    sides = {(page.mediabox.width, page.mediabox.height) for page in reader.pages}
    assert {tuple(round(float(side) * POINT, 1) for side in pair) for pair in sides} == {(297.0, 210.0)}


def test_every_face_is_on_the_sheets_once_as_it_is_on_its_card(press: Press, deck: tuple[Printed, list[int]]) -> None:
    joined, faces = deck
    pdf = _sheets(press, deck, "short")
    reader = pypdf.PdfReader(io.BytesIO(pdf))
    texts = ["".join(page.extract_text().split()) for page in reader.pages]
    original = ["".join(page.extract_text().split()) for page in pypdf.PdfReader(io.BytesIO(joined.pdf)).pages]
    together = "".join(texts)
    for face in original:
        assert together.count(face) == 1
    leaves = sum(-(-count // 2) for count in faces)
    assert len(reader.pages) == 2 + 2 * -(-leaves // 2)  # the page before, its back, then both sides of each sheet
    assert sum(page["/Resources"]["/XObject"].__len__() for page in list(reader.pages)[2:]) == sum(faces)


def test_type_keeps_its_size_and_place(press: Press, deck: tuple[Printed, list[int]]) -> None:
    joined, _ = deck
    with (
        pdfplumber.open(io.BytesIO(joined.pdf)) as cards,
        pdfplumber.open(io.BytesIO(_sheets(press, deck, "long"))) as sheets,
    ):
        face, front, back = cards.pages[0], sheets.pages[2], sheets.pages[3]
        one = _grid(A5, "a4")
        for mine, theirs in zip(face.chars, front.chars, strict=False):
            assert theirs["text"] == mine["text"]
            assert theirs["size"] == pytest.approx(mine["size"], abs=0.01)
            assert theirs["x0"] * POINT == pytest.approx(mine["x0"] * POINT + one.left(0), abs=0.05)
            assert theirs["top"] * POINT == pytest.approx(mine["top"] * POINT + one.top(0), abs=0.05)
        assert {char["matrix"][0] > 0 for char in front.chars} == {True}
        assert {char["matrix"][0] > 0 for char in back.chars} == {False}  # the sheet lies and turns about its long edge


def test_the_bars_are_100_mm(press: Press, deck: tuple[Printed, list[int]]) -> None:
    with pdfplumber.open(io.BytesIO(_sheets(press, deck, "long"))) as pdf:
        shapes = [*pdf.pages[0].curves, *pdf.pages[0].lines]
        spans = [(s["x1"] - s["x0"], s["bottom"] - s["top"]) for s in shapes]
    assert any(across * POINT == pytest.approx(100.0, abs=0.01) for across, _ in spans)
    assert any(down * POINT == pytest.approx(100.0, abs=0.01) for _, down in spans)
    on_sheet = list(marks.bar(_grid(CARD_4X6, "letter")))
    assert max(abs(x1 - x0) + abs(y1 - y0) for x0, y0, x1, y1 in on_sheet) == pytest.approx(100.0)


def test_the_same_sheets_give_the_same_bytes(press: Press, deck: tuple[Printed, list[int]]) -> None:
    assert _sheets(press, deck, "long") == _sheets(press, deck, "long")
    with pikepdf.open(io.BytesIO(_sheets(press, deck, "long"))) as pdf:
        assert pdf.check_pdf_syntax() == []


def test_a_stock_that_does_not_fit_is_told(press: Press) -> None:
    big = replace(A5, id="poster", width=300.0, height=420.0)
    pdf, (named,) = press.sheets([b""], _listed([2]), "Sample", SHOP, LETTER, Sheets("a4"))
    assert pdf == b""
    assert named.is_error
    assert named.message == "cards of stock letter, 215.9 × 279.4 mm, do not fit on a4 paper, 210 × 297 mm"
    assert named.hint == "name another paper under `sheets`, or a smaller stock"
    _, (folded,) = press.sheets(
        [b""], _listed([2]), "Sample", SHOP, replace(A5, width=210.0, height=297.0), Sheets("a4", "fold")
    )
    assert "side by side with their backs" in folded.message
    assert "print both sides" in folded.hint
    pdf, (open_,) = press.sheets([b""], _listed([2]), "Sample", SHOP, big, Sheets())
    assert pdf == b""
    assert not open_.is_error
    assert "fit on neither A4 nor Letter" in open_.message


def test_every_stock_that_comes_along_fits_a_paper() -> None:
    assert resources("shared").is_dir()
    for stock in workshop().stocks.values():
        for duplex in ("long", "short"):
            assert grid(stock, Sheets("", duplex)) is not None, stock.id
