"""Pieces that are laid out, put on faces: copied and moved to their places, with nothing laid out again.

The pages are WeasyPrint's own, filled by us; a test holds what stands where against the pages that it breaks by itself.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from weasyprint.document import Page
from weasyprint.formatting_structure.boxes import MarginBox
from weasyprint.pdf.metadata import DocumentMetadata

from procgen.paper.boxes import MM, attribute, pages, walk
from procgen.paper.ink import leaves_of
from procgen.paper.pieces import Piece

BLANK = '<!DOCTYPE html><html lang="en"><head></head><body></body></html>'
CORNERS = '@page { @top-left { content: "x"; width: 100% } @bottom-left { content: "x"; width: 100% } }'
"""The style of a blank face, beside that of the cards: with boxes for what stands in the margins."""


@dataclass(frozen=True)
class Face:
    """What goes on a face. `seated`: what takes the seats in its head and foot, by their class. `head_at`, `foot_at`:
    from its upper edge; `top`, `bottom`: its margins; mm."""

    head: Piece
    foot: Piece
    seated: Mapping[str, Piece]
    body: Sequence[Piece]
    top: float
    bottom: float
    head_at: float
    foot_at: float


@dataclass(frozen=True)
class _Placed:
    """A piece on a face: copies of its boxes, of its texts and pictures, and how far they are from where it was laid
    out, CSS pixels."""

    piece: Piece
    boxes: list[Any]
    leaves: list[Any]
    dx: float
    dy: float

    @property
    def end(self) -> float:
        return float(sum(box.margin_height() for box in self.boxes)) + float(self.boxes[0].position_y)


class _Page(Page):  # type: ignore[misc]
    """A page that is painted piece by piece, each with the ink that was kept of it."""

    def __init__(self, box: Any, placed: Sequence[_Placed]) -> None:
        super().__init__(box)
        self._placed = placed

    def paint(self, stream: Any, scale: float = 1) -> None:
        with stream.stacked():
            stream.transform(a=scale, d=scale)
            for one in self._placed:
                one.piece.ink.put(stream, self._page_box, one.piece.boxes, one.leaves, one.dx, one.dy)


def place(blank: Any, title: str, faces: Sequence[Face], steps: Any) -> Any:
    """The document with these faces. `blank`: the document of a blank face; `steps`: the list that goes round steps."""
    (page,) = pages(blank)
    document = blank.copy([_page(page, face, steps) for face in faces])
    document.metadata = DocumentMetadata(title=title, lang="en")
    return document


def _page(blank: Any, face: Face, steps: Any) -> _Page:
    root, top, bottom = (box for box in blank.children if not _is_footnotes(box))
    page = blank.copy_with_children([])
    page.margin_top, page.margin_bottom = face.top / MM, face.bottom / MM
    page.height = blank.margin_height() - page.margin_top - page.margin_bottom
    page.canvas_background = None
    (body,) = (box for box in root.children if box.element_tag == "body")
    placed = _stacked(face.body, body.content_box_x(), page.content_box_y(), steps)
    head = _at(face.head, top.position_x, face.head_at / MM)
    foot = _at(face.foot, bottom.position_x, face.foot_at / MM)
    seated = [one for margin in (head, foot) for one in _seated(margin, face.seated)]
    page.children = [
        root.copy_with_children([body.copy_with_children(_listed(placed, steps))]),
        top.copy_with_children(head.boxes),
        bottom.copy_with_children(foot.boxes),
    ]
    return _Page(page, [*placed, head, foot, *seated])


def _is_footnotes(box: Any) -> bool:
    return box.element_tag != "html" and not isinstance(box, MarginBox)


def _stacked(pieces: Sequence[Piece], x: float, y: float, steps: Any) -> list[_Placed]:
    """One below the other."""
    placed = []
    for piece in pieces:
        if not piece.boxes or (piece.item is not None and steps is None):
            continue  # a style has hidden it; a gate tells
        placed.append(_at(piece, x, y))
        y = placed[-1].end
    return placed


def _listed(placed: Sequence[_Placed], steps: Any) -> list[Any]:
    """Their boxes, those of steps within their items within the list."""
    children: list[Any] = []
    items: dict[int, Any] = {}
    for one in placed:
        number = one.piece.item
        if number is None:
            children += one.boxes
            continue
        if not items:
            children.append(steps.copy_with_children([]))
        item = items.get(number)
        if item is None:
            item = items[number] = steps.children[number].copy_with_children([])
            item.position_y = one.boxes[0].position_y  # a place to jump to
            children[-1].children.append(item)
        item.children += one.boxes
        item.height = one.end - item.position_y
    return children


def _at(piece: Piece, x: float, y: float) -> _Placed:
    dx, dy = x - piece.boxes[0].position_x, y - piece.boxes[0].position_y
    boxes = [_moved(box, dx, dy) for box in piece.boxes]
    return _Placed(piece, boxes, leaves_of(boxes), dx, dy)


def _seated(margin: _Placed, pieces: Mapping[str, Piece]) -> Iterator[_Placed]:
    """Put pieces in their places in a head or foot, which are empty, each on the bottom of its own."""
    for seat in [box for whole in margin.boxes for box in walk(whole) if attribute(box, "class") in pieces]:
        piece = pieces[attribute(seat, "class")]
        placed = _at(piece, seat.position_x, seat.position_y + seat.margin_height() - piece.height / MM)
        seat.children = placed.boxes
        yield placed


def _moved(box: Any, dx: float, dy: float) -> Any:
    """A copy elsewhere, with all that is in it."""
    copy = box.copy()
    copy.position_x += dx
    copy.position_y += dy
    copy.children = [_moved(child, dx, dy) for child in box.children]
    return copy
