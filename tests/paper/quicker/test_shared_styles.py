"""Computed styles that outlive their document: the same ones, and nothing of one document in the next."""

from __future__ import annotations

from typing import Any

import pytest
from weasyprint.formatting_structure.boxes import BlockBox

from procgen.draw.fonts import Fonts
from procgen.paper import engine as paper_engine
from procgen.paper.boxes import pages, walk
from procgen.paper.engine import Engine, listening
from procgen.paper.quicker import shared_styles

SHEET = "@page { size: 100mm 100mm; margin: 5mm } p { color: #123456; width: 50vw } p p { width: 5em }"


@pytest.fixture(scope="module")
def engine(fonts: Fonts) -> Engine:
    return Engine(fonts)


def _paragraphs(engine: Engine, body: str, *sheets: Any) -> list[Any]:
    document = engine.layout(f'<html lang="en"><head></head><body>{body}</body></html>', *sheets)
    return [
        box for page in pages(document) for box in walk(page) if isinstance(box, BlockBox) and box.element_tag == "p"
    ]


def test_documents_with_the_same_sheets_share_their_styles(engine: Engine) -> None:
    sheet = engine.sheet(SHEET)
    first, second = (_paragraphs(engine, f"<p>{word}</p>", sheet)[0] for word in ("One", "Two"))
    assert first.style is second.style
    (other,) = _paragraphs(engine, "<p>Three</p>", engine.sheet(SHEET))
    assert other.style is not first.style


def test_what_is_declared_on_an_element_is_its_own(engine: Engine) -> None:
    sheet = engine.sheet(SHEET)
    bodies = [
        '<p style="width: 20mm">A</p>',
        '<p style="width: 30mm">A</p>',
        "<p>A</p>",
        '<p style="width: 20mm">B</p>',
    ]
    boxes = [_paragraphs(engine, body, sheet)[0] for body in bodies]
    assert [round(box.width * 25.4 / 96, 3) for box in boxes] == [20, 30, 45, 20]
    assert boxes[0].style is boxes[3].style


def test_sheets_of_another_page_have_styles_of_their_own(engine: Engine) -> None:
    widths = []
    for size in (100, 200):
        sheet = engine.sheet(SHEET.replace("size: 100mm", f"size: {size}mm"))
        widths += [round(box.width * 25.4 / 96, 3) for box in _paragraphs(engine, "<p>A</p>", sheet)]
    assert widths == [45, 95]


def test_pages_share_their_styles_too_and_count_on(engine: Engine) -> None:
    sheet = engine.sheet(SHEET + "@page { @top-left { content: counter(page) ' of ' counter(pages) } }")
    found = []
    for _ in range(2):
        document = engine.layout("<html><head></head><body><p>A</p></body></html>", sheet)
        (page,) = pages(document)
        found.append((page.style, [box.text for box in walk(page) if hasattr(box, "text")]))
    assert found[0][0] is found[1][0]
    assert found[0][1] == found[1][1] == ["A", "1 of 1"]


def test_names_of_places_are_taken_anew_in_each_document(engine: Engine) -> None:
    sheet = engine.sheet(SHEET + "a::after { content: target-text(attr(href)) }")
    body = '<p id="here">Oil</p><p><a href="#here">see </a></p>'
    said = []
    with listening() as heard:
        for _ in range(2):
            box = _paragraphs(engine, body, sheet)[1]
            said.append("".join(one.text for one in walk(box) if hasattr(one, "text")))
    assert said == ["see Oil", "see Oil"]
    assert heard == []


def test_the_page_takes_overflow_off_every_document_alike(engine: Engine) -> None:
    sheet = engine.sheet(SHEET + "html { overflow: hidden }")
    found = [next(iter(pages(engine.layout("<html><head></head><body>A</body></html>", sheet)))) for _ in range(2)]
    assert [page.style["overflow"] for page in found] == ["hidden", "hidden"]


def test_there_is_an_end_to_what_is_kept(engine: Engine, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(shared_styles, "_KEPT", 10)
    sheet = engine.sheet(SHEET)
    for width in range(1, 30):
        (box,) = _paragraphs(engine, f'<p style="width: {width}mm">A</p>', sheet)
        assert round(box.width * 25.4 / 96, 3) == width
    assert len(engine._styles[(sheet,)]) <= 10 + 3


def test_there_is_an_end_to_the_sheets_whose_styles_are_kept(engine: Engine, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(paper_engine, "_SHEETS", 3)
    often = engine.sheet(SHEET)
    style = _paragraphs(engine, "<p>A</p>", often)[0].style
    for _ in range(6):
        _paragraphs(engine, "<p>A</p>", engine.sheet(SHEET))
        assert _paragraphs(engine, "<p>A</p>", often)[0].style is style
    assert len(engine._styles) == 3
