"""A deck's sheets: finished faces laid several to a sheet of paper, backs behind their fronts, to print at full size.

Each face is a Form XObject, so it is drawn as it is on its card, and cut off at the card's edge. Tags do not come
along: the card's own PDF is the one to read aloud.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from contextlib import ExitStack
from io import BytesIO
from typing import Any

from pikepdf import Dictionary, Name, ObjectStreamMode, Page, Pdf

from procgen.model.workshop import Stock
from procgen.paper import marks
from procgen.paper.imposing import Grid, Placed, impose

_PT = 72 / 25.4
_WISH = {"long": Name.DuplexFlipLongEdge, "short": Name.DuplexFlipShortEdge, "fold": Name.Simplex}


def sheets_pdf(
    cards: Sequence[bytes], faces: Sequence[int], stock: Stock, one: Grid, duplex: str, lead: bytes, title: str
) -> bytes:
    """The sheets of a deck's cards, of so many faces each, after the pages of `lead`. Same input, same bytes."""
    with Pdf.new() as pdf, Pdf.open(BytesIO(lead)) as first, ExitStack() as stack:
        opened = [stack.enter_context(Pdf.open(BytesIO(card))) for card in cards]
        forms = [pdf.copy_foreign(_form(page)) for card in opened for page in card.pages]
        pdf.pages.extend(first.pages)
        if duplex != "fold" and len(pdf.pages) % 2:
            _side(pdf, one, (), forms, stock)
        for sheet in impose(tuple(faces), one, duplex):
            dashed = marks.folds(one) if duplex == "fold" else ()
            _side(pdf, one, sheet.front, forms, stock, (*marks.cuts(one), *marks.bar(one)), dashed)
            if duplex != "fold":
                _side(pdf, one, sheet.back, forms, stock)
        for page in pdf.pages:
            for of_tags in (Name.StructParents, Name.Tabs):
                if of_tags in page.obj:
                    del page.obj[of_tags]
        pdf.Root.ViewerPreferences = Dictionary(PrintScaling=Name("/None"), Duplex=_WISH[duplex], DisplayDocTitle=True)
        pdf.Root.Lang = "en"
        pdf.docinfo.Title = title
        stream = BytesIO()
        pdf.save(stream, object_stream_mode=ObjectStreamMode.generate, deterministic_id=True)
        return stream.getvalue()


def _form(page: Page) -> Any:
    """The page's one stream itself, compressed as it is: reading and writing it anew would take most of the time."""
    form = page.obj.Contents
    form.Type, form.Subtype = Name.XObject, Name.Form
    form.BBox, form.Resources = page.mediabox, page.obj.Resources
    return form


def _side(
    pdf: Pdf,
    one: Grid,
    placed: Sequence[Placed],
    forms: Sequence[Any],
    stock: Stock,
    solid: Iterable[marks.Stroke] = (),
    dashed: Iterable[marks.Stroke] = (),
) -> None:
    """One side of a sheet; PDF counts from the left bottom corner up."""
    page = pdf.add_blank_page(page_size=(one.width * _PT, one.height * _PT))
    holes = [stroke for face in placed if stock.hole for stroke in marks.hole(face, stock.hole, one.card)]
    drawn = [_face(face, one) for face in placed]
    drawn += ["q 0.25 w 0 G", *_strokes([*solid, *holes], one), "[2 2] 0 d", *_strokes(dashed, one), "Q"]
    page.obj.Contents = pdf.make_stream("\n".join(drawn).encode())
    page.obj.Resources = Dictionary(XObject=Dictionary({f"/F{face.face}": forms[face.face] for face in placed}))


def _face(face: Placed, one: Grid) -> str:
    width, height = one.card
    left, low = face.x * _PT, (one.height - face.y - height) * _PT
    if face.turned:
        return f"q -1 0 0 -1 {left + width * _PT:.3f} {low + height * _PT:.3f} cm /F{face.face} Do Q"
    return f"q 1 0 0 1 {left:.3f} {low:.3f} cm /F{face.face} Do Q"


def _strokes(strokes: Iterable[marks.Stroke], one: Grid) -> list[str]:
    return [
        f"{a * _PT:.3f} {(one.height - b) * _PT:.3f} m {c * _PT:.3f} {(one.height - d) * _PT:.3f} l S"
        for a, b, c, d in strokes
    ]
