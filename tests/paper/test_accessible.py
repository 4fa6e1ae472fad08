"""PDF/UA-1 by an independent checker, and the order in which a screen reader goes through the tags.

The checker is no proof of accessibility, and is not the reference one; whether an order of reading and an alternative
make sense is for a person to say.
"""

from __future__ import annotations

import io
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import page
import pikepdf
import pypdf
import pytest
from sample_parts import GAP
from samples import CAM, CARDS, CHOICE, DRAWN, PARTIAL, SHOP, STOCKS

from procgen.model.card import Card, plain
from procgen.model.workshop import Sheets
from procgen.paper.lead import Listed
from procgen.paper.press import Press, Printed

Printer = Callable[..., Printed]


def _failures(pdf: bytes, path: Path) -> list[str]:
    path.write_bytes(pdf)
    result = page.validate_pdf(str(path), profile=page.ValidationProfile.PDF_UA_1)
    assert result.rules.total >= 100  # all of them were looked at
    return sorted({f"{failure.rule_id} {failure.message}" for failure in result.failures})


@pytest.mark.parametrize("stock", ["a5", "letter"])
@pytest.mark.parametrize("card", CARDS, ids=lambda card: card.id)
def test_cards_keep_to_pdf_ua(printed: Printer, card: Card, stock: str, tmp_path: Path) -> None:
    assert _failures(printed(card, stock).pdf, tmp_path / "card.pdf") == []


def test_a_joined_deck_keeps_to_pdf_ua(press: Press, printed: Printer, tmp_path: Path) -> None:
    assert _failures(press.join([printed(card) for card in CARDS]).pdf, tmp_path / "deck.pdf") == []


def test_the_checker_finds_what_is_broken(printed: Printer, tmp_path: Path) -> None:
    writer = pypdf.PdfWriter(clone_from=io.BytesIO(printed(CAM).pdf))
    del writer.root_object["/Lang"]
    broken = io.BytesIO()
    writer.write(broken)
    assert any("lang" in failure.lower() for failure in _failures(broken.getvalue(), tmp_path / "broken.pdf"))


def _tags(node: Any) -> Iterator[Any]:
    """The tags from the root down, in the order of reading."""
    node = node.get_object()
    if isinstance(node, pypdf.generic.ArrayObject):
        for one in node:
            yield from _tags(one)
    elif isinstance(node, pypdf.generic.DictionaryObject) and "/S" in node:
        yield node
        if "/K" in node:
            yield from _tags(node["/K"])


def _read_aloud(pdf: bytes) -> tuple[list[str], str]:
    """Kinds of the tags, and all text in the order of the tags."""
    reader = pypdf.PdfReader(io.BytesIO(pdf))
    texts: dict[tuple[int, int], str] = {}
    for number, leaf in enumerate(reader.pages):
        mark: list[int | None] = [None]

        def before(operator: bytes, operands: Any, *_: Any, mark: list[int | None] = mark) -> None:
            if operator == b"BDC":
                mark[0] = operands[1].get("/MCID") if isinstance(operands[1], dict) else None

        def text(text: str, *_: Any, number: int = number, mark: list[int | None] = mark) -> None:
            if mark[0] is not None:
                texts[number, mark[0]] = texts.get((number, mark[0]), "") + text

        leaf.extract_text(visitor_operand_before=before, visitor_text=text)
    pages = {leaf.indirect_reference.idnum: number for number, leaf in enumerate(reader.pages)}
    kinds, words = [], []
    for tag in _tags(reader.trailer["/Root"]["/StructTreeRoot"]["/K"]):
        kinds.append(str(tag["/S"]))
        kids = tag.get("/K", pypdf.generic.ArrayObject())
        for kid in kids if isinstance(kids, list) else [kids]:
            if isinstance(kid, int) and "/Pg" in tag:
                words.append(texts.get((pages[tag.raw_get("/Pg").idnum], kid), ""))
    return kinds, "".join(" ".join(words).split())


def test_the_order_of_reading_is_the_order_of_work(printed: Printer) -> None:
    kinds, text = _read_aloud(printed(CAM).pdf)
    assert kinds.count("/H1") == 1
    at = [text.find("".join(plain(step.action).split())[:24]) for step in CAM.steps]
    assert -1 not in at
    assert at == sorted(at)
    first = CAM.steps[2]
    assert first.panels  # a caution is read before the step that it guards
    assert text.find("".join(first.panels[0].hazard.split())[:20]) < at[2]


def test_drawings_say_in_words_what_they_show(printed: Printer) -> None:
    reader = pypdf.PdfReader(io.BytesIO(printed(DRAWN).pdf))
    figures = [tag for tag in _tags(reader.trailer["/Root"]["/StructTreeRoot"]["/K"]) if tag["/S"] == "/Figure"]
    assert figures
    said = [str(figure.get("/Alt", "")) for figure in figures]
    assert all(said)
    assert any(GAP.describe in alternative for alternative in said)


def test_the_title_stands_in_the_window_and_the_language_is_told(printed: Printer) -> None:
    root = pypdf.PdfReader(io.BytesIO(printed(PARTIAL).pdf)).trailer["/Root"]
    assert root["/Lang"] == "en"
    assert root["/ViewerPreferences"]["/DisplayDocTitle"]


def test_files_are_sound_to_qpdf(press: Press, printed: Printer) -> None:
    ones = [printed(card) for card in (CAM, CHOICE)]
    deck = press.join(ones)
    listed = [Listed(card.title, card.revision, one.faces) for card, one in zip((CAM, CHOICE), ones, strict=True)]
    sheets, _ = press.sheets([deck.pdf], listed, "Sample", SHOP, STOCKS["a5"], Sheets())
    for content in (ones[0].pdf, deck.pdf, sheets):
        with pikepdf.open(io.BytesIO(content)) as pdf:  # qpdf's own check, through its library
            assert pdf.check_pdf_syntax() == []
