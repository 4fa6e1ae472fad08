"""A deck joined from finished cards, held against the deck that the layout engine itself writes of the same cards."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO
from pathlib import Path
from typing import Any

import page
import pikepdf
import pypdf
import pytest
from samples import CAM, CHOICE, DRAWN, PARTIAL, READ_FROM, SHOP, STOCKS, SURVEY

from procgen.make.joining import join
from procgen.paper.press import Press, Printed

AGAIN = replace(CAM, id="again", address="avocet/again")  # all else alike: what names itself must not meet its like
CARDS = (SURVEY, CAM, PARTIAL, CHOICE, DRAWN, AGAIN)


@pytest.fixture(scope="module")
def cards(press: Press) -> list[Printed]:
    return [press.card(card, SHOP, STOCKS["a5"], READ_FROM) for card in CARDS]


@pytest.fixture(scope="module")
def joined(cards: list[Printed]) -> bytes:
    return join([card.pdf for card in cards])


def _tags(deck: pikepdf.Pdf) -> Any:
    """The tag tree: kinds, texts, marks and pages, without the names of cells."""
    numbers = {page.obj.objgen: number for number, page in enumerate(deck.pages)}

    def told(tag: Any, of: int) -> Any:
        if isinstance(tag, int):
            return of, tag
        of = numbers[tag.Pg.objgen] if "/Pg" in tag else of
        kids = tag.get("/K", [])
        kids = kids if isinstance(kids, pikepdf.Array) else [kids]
        return str(tag.get("/S")), str(tag.get("/Alt", "")), [told(kid, of) for kid in kids]

    (document,) = deck.Root.StructTreeRoot.K
    return told(document, -1)


def _marks(deck: pikepdf.Pdf) -> list[tuple[int, list[tuple[str, int]]]]:
    """For each page its marks: the kind of tag each leads to, and the page that the tag says it is on."""
    nums = list(deck.Root.StructTreeRoot.ParentTree.Nums)
    by_key = {int(key): marks for key, marks in zip(nums[::2], nums[1::2], strict=True)}
    numbers = {page.obj.objgen: number for number, page in enumerate(deck.pages)}
    found = []
    for number, one in enumerate(deck.pages):
        marks = by_key[int(one.obj.StructParents)]
        found.append((number, [(str(tag.S), numbers[tag.Pg.objgen]) for tag in marks]))
    return found


def test_tags_are_those_of_the_engine(press: Press, cards: list[Printed], joined: bytes) -> None:
    with pikepdf.open(BytesIO(joined)) as ours, pikepdf.open(BytesIO(press.join(cards).pdf)) as theirs:
        assert len(ours.pages) == sum(card.faces for card in cards)
        assert _tags(ours) == _tags(theirs)
        assert _marks(ours) == _marks(theirs)


def test_pages_say_and_show_what_the_cards_do(cards: list[Printed], joined: bytes) -> None:
    ours = [face.extract_text() for face in pypdf.PdfReader(BytesIO(joined)).pages]
    assert ours == [face.extract_text() for card in cards for face in pypdf.PdfReader(BytesIO(card.pdf)).pages]
    with pikepdf.open(BytesIO(joined)) as deck:
        contents = [face.Contents.read_bytes() for face in deck.pages]
    drawn = []
    for card in cards:
        with pikepdf.open(BytesIO(card.pdf)) as one:
            drawn += [face.Contents.read_bytes() for face in one.pages]
    assert contents == drawn


def test_cells_are_headed_by_cells_of_their_own_card(joined: bytes) -> None:
    with pikepdf.open(BytesIO(joined)) as deck:
        dictionaries = [one for one in deck.objects if isinstance(one, pikepdf.Dictionary)]
        tags = [one for one in dictionaries if one.get("/Type") == "/StructElem"]
        ids = [str(tag.ID) for tag in tags if "/ID" in tag]
        heads = [str(head) for tag in tags if "/A" in tag and "/Headers" in tag.A for head in tag.A.Headers]
    assert ids
    assert heads
    assert len(ids) == len(set(ids))
    assert set(heads) <= set(ids)


def test_bookmarks_go_to_each_card(cards: list[Printed], joined: bytes) -> None:
    reader = pypdf.PdfReader(BytesIO(joined))
    marks = [(mark.title, reader.get_destination_page_number(mark)) for mark in reader.outline]  # type: ignore[union-attr,arg-type]
    firsts = [sum(card.faces for card in cards[:number]) for number in range(len(cards))]
    assert marks == [(card.title, first) for card, first in zip(CARDS, firsts, strict=True)]


def test_an_independent_checker_passes_it(joined: bytes, tmp_path: Path) -> None:
    (tmp_path / "deck.pdf").write_bytes(joined)
    result = page.validate_pdf(str(tmp_path / "deck.pdf"), profile=page.ValidationProfile.PDF_UA_1)
    assert [(failure.rule_id, failure.message) for failure in result.failures] == []
    assert result.is_compliant


def test_the_same_cards_give_the_same_bytes(cards: list[Printed], joined: bytes) -> None:
    assert join([card.pdf for card in cards]) == joined
