"""Printed cards, read back from their PDFs by libraries that know nothing of how they were made."""

from __future__ import annotations

import io
from collections.abc import Callable
from pathlib import Path

import pdfplumber
import pypdf
import pytest
import samples
from samples import CAM, CARDS, CHOICE, PARTIAL, READ_FROM, SHOP, STOCKS, SURVEY, TAKEN

from procgen.draw.fonts import Fonts
from procgen.files.home import resources
from procgen.model.card import Card
from procgen.paper.content import said
from procgen.paper.press import Press, Printed
from procgen.paper.words import tidy

Printer = Callable[..., Printed]

EVERYWHERE = [(card, stock, theme) for card in CARDS for stock in ("a5", "half-letter") for theme in ("colour",)]
EVERYWHERE += [(CAM, "letter", "mono"), (SURVEY, "a5", "mono"), (PARTIAL, "letter", "colour"), (TAKEN, "a5", "mono")]


def _id(value: object) -> str:
    return value.id if isinstance(value, Card) else str(value)


def _bare(text: str) -> str:
    return "".join(text.split())


@pytest.mark.parametrize(("card", "stock", "theme"), EVERYWHERE, ids=_id)
def test_cards_pass_every_gate(printed: Printer, card: Card, stock: str, theme: str) -> None:
    assert printed(card, stock, theme).problems == ()


@pytest.mark.parametrize("card", CARDS, ids=_id)
def test_a6_read_from_nearer(printed: Printer, card: Card) -> None:
    assert printed(card, "a6", "mono", near=True).problems == ()


@pytest.mark.parametrize(
    ("card", "stock", "faces"),
    [
        (SURVEY, "a5", 6),
        (SURVEY, "half-letter", 6),
        (SURVEY, "letter", 4),
        (CAM, "a5", 4),
        (CAM, "letter", 2),
        (PARTIAL, "a5", 2),
        (CHOICE, "a5", 2),
    ],
    ids=_id,
)
def test_faces(printed: Printer, card: Card, stock: str, faces: int) -> None:
    one = printed(card, stock)
    pages = pypdf.PdfReader(io.BytesIO(one.pdf)).pages
    assert one.faces == len(pages) <= faces
    for page in pages:
        assert float(page.mediabox.width) == pytest.approx(STOCKS[stock].width / 25.4 * 72, abs=0.01)
        assert float(page.mediabox.height) == pytest.approx(STOCKS[stock].height / 25.4 * 72, abs=0.01)


@pytest.mark.parametrize("card", CARDS, ids=_id)
def test_everything_a_card_says_reaches_its_text(printed: Printer, card: Card) -> None:
    with pdfplumber.open(io.BytesIO(printed(card).pdf)) as pdf:
        text = _bare("".join(page.extract_text(use_text_flow=True) or "" for page in pdf.pages))
    wanting = [one.text for one in said(card, SHOP) if _bare(tidy(one.text)) not in text]
    assert wanting == []
    assert text.count(_bare(f"face1of{printed(card).faces}")) == 1


@pytest.mark.parametrize("card", [SURVEY, CAM], ids=_id)
def test_nothing_is_set_under_the_floor(printed: Printer, card: Card) -> None:
    one = printed(card)
    with pdfplumber.open(io.BytesIO(one.pdf)) as pdf:
        sizes = {round(char["size"], 2) for page in pdf.pages for char in page.chars if char["text"].strip()}
    assert min(sizes) >= one.sizes.hand - 0.02
    assert {one.sizes.step, one.sizes.value, one.sizes.hand} <= sizes  # tiers are really used


@pytest.mark.parametrize("card", [SURVEY, CAM, PARTIAL], ids=_id)
def test_the_hole_and_the_seal_are_kept_clear(printed: Printer, card: Card) -> None:
    stock = STOCKS["a5"]
    assert stock.hole is not None
    point = 25.4 / 72
    with pdfplumber.open(io.BytesIO(printed(card).pdf)) as pdf:
        for page in pdf.pages:
            for mark in (*page.chars, *page.curves, *page.rects, *page.lines):
                left, right = float(mark["x0"]) * point, float(mark["x1"]) * point
                top, bottom = float(mark["top"]) * point, float(mark["bottom"]) * point
                assert left >= stock.seal_margin
                assert right <= stock.width - stock.seal_margin
                assert bottom <= stock.height - stock.seal_margin
                dx = max(left - stock.hole.centre[0], stock.hole.centre[0] - right, 0.0)
                dy = max(top - stock.hole.centre[1], stock.hole.centre[1] - bottom, 0.0)
                assert (dx * dx + dy * dy) ** 0.5 >= stock.hole.across / 2 + stock.hole.keep_clear - 0.3


@pytest.mark.parametrize("card", [SURVEY, TAKEN], ids=_id)
def test_only_the_cards_fonts_are_embedded(printed: Printer, card: Card) -> None:
    reader = pypdf.PdfReader(io.BytesIO(printed(card).pdf))
    names = set()
    for page in reader.pages:
        for reference in page["/Resources"]["/Font"].values():
            font = reference.get_object()["/DescendantFonts"][0].get_object()
            assert "/FontFile2" in font["/FontDescriptor"] or "/FontFile3" in font["/FontDescriptor"]
            names.add(str(font["/BaseFont"]).split("+")[-1].replace("-", " "))
    assert names
    assert all(name.startswith("Card") for name in names), names


def test_the_same_card_gives_the_same_bytes(printed: Printer, fonts: Fonts) -> None:
    other = Press(fonts, [resources("templates")])
    other.card(PARTIAL, SHOP, STOCKS["a6"], READ_FROM, "mono")  # something else first
    assert other.card(SURVEY, SHOP, STOCKS["a5"], READ_FROM).pdf == printed(SURVEY).pdf


@pytest.mark.parametrize("card", [CAM, TAKEN], ids=_id)
def test_mono_moves_nothing(printed: Printer, card: Card) -> None:
    colour, mono = printed(card, "a5", "colour"), printed(card, "a5", "mono")
    assert colour.sizes == mono.sizes
    with pdfplumber.open(io.BytesIO(colour.pdf)) as one, pdfplumber.open(io.BytesIO(mono.pdf)) as other:
        for left, right in zip(one.pages, other.pages, strict=True):
            assert left.extract_text() == right.extract_text()


def test_mono_is_black_grey_and_white(printed: Printer) -> None:
    def colours(one: Printed) -> set[tuple[float, ...]]:
        with pdfplumber.open(io.BytesIO(one.pdf)) as pdf:
            return {tuple(c["non_stroking_color"] or ()) for page in pdf.pages for c in (*page.chars, *page.rects)}

    assert all(len(set(colour)) <= 1 for colour in colours(printed(CAM, "a5", "mono")))
    assert any(len(set(colour)) > 1 for colour in colours(printed(CAM, "a5", "colour")))


def test_tags_language_and_title(printed: Printer) -> None:
    reader = pypdf.PdfReader(io.BytesIO(printed(SURVEY).pdf))
    root = reader.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"] == "true" or root["/MarkInfo"]["/Marked"].value is True
    assert root["/Lang"] == "en"
    assert "/StructTreeRoot" in root
    assert reader.metadata is not None
    assert reader.metadata.title == "Cylinder survey, Avocet"
    assert b"pdfuaid:part" in printed(SURVEY).pdf or "pdfuaid" in str(root["/Metadata"].get_object().get_data())


def test_a_deck_keeps_tags_and_counts_faces_by_card(press: Press, printed: Printer) -> None:
    ones = [printed(card) for card in (CAM, PARTIAL, CHOICE)]
    deck = press.join(ones)
    reader = pypdf.PdfReader(io.BytesIO(deck.pdf))
    assert deck.problems == ()
    assert len(reader.pages) == deck.faces == sum(one.faces for one in ones)
    assert "/StructTreeRoot" in reader.trailer["/Root"]
    texts = [_bare(page.extract_text()) for page in reader.pages]
    assert "face1of2" in texts[ones[0].faces]
    assert len(deck.pdf) < sum(len(one.pdf) for one in ones)  # fonts are shared


def test_without_a_site_there_is_no_code_but_the_address(press: Press) -> None:
    shop = samples.replace(SHOP, site="")
    one = press.card(PARTIAL, shop, STOCKS["a5"], READ_FROM)
    assert one.problems == ()
    with pdfplumber.open(io.BytesIO(one.pdf)) as pdf:
        assert "dunlin/count-plugs.html" in _bare(pdf.pages[0].extract_text())
        assert max(len(curve["pts"]) for curve in pdf.pages[0].curves) < 200


def test_a_workshops_template_goes_before_the_packages(fonts: Fonts, tmp_path: Path) -> None:
    (tmp_path / "cards").mkdir()
    original = (resources("templates") / "cards" / "margins.html").read_text("utf-8")
    (tmp_path / "cards" / "margins.html").write_text(original.replace("face <b>", "leaf <b>"), "utf-8")
    press = Press(fonts, [tmp_path, resources("templates")])
    with pdfplumber.open(io.BytesIO(press.card(PARTIAL, SHOP, STOCKS["a5"], READ_FROM).pdf)) as pdf:
        assert "leaf" in _bare(pdf.pages[0].extract_text())


@pytest.mark.parametrize("card", [SURVEY, CAM], ids=_id)
def test_every_face_says_whose_it_is(printed: Printer, card: Card) -> None:
    one, stage = printed(card), f"{card.stage.number} {card.stage.name}"
    issued = f"issued {SHOP.approved_on}, {SHOP.approved_by}"
    with pdfplumber.open(io.BytesIO(one.pdf)) as pdf:
        for number, face in enumerate(pdf.pages, start=1):
            text = _bare(face.extract_text(use_text_flow=True))
            count = f"face {number} of {one.faces}"
            for needed in (card.title, card.family_name, stage, card.revision, SHOP.name, count, issued):
                assert _bare(needed) in text


def test_the_first_face_has_what_is_needed_to_begin(printed: Printer) -> None:
    with pdfplumber.open(io.BytesIO(printed(SURVEY, "letter").pdf)) as pdf:
        text = _bare(pdf.pages[0].extract_text(use_text_flow=True))
    for needed in ("Rings wear a bore only", "Bring bore gauge", "DANGER", "Hold at the end: fitter and second sign."):
        assert _bare(needed) in text
