"""Pieces that are laid out, put on faces: copied and moved to their places, with nothing laid out again.

The pages are WeasyPrint's own, filled by us; a test holds what stands where against the pages that it breaks by itself.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from weasyprint.document import Page
from weasyprint.formatting_structure.boxes import MarginBox
from weasyprint.pdf.metadata import DocumentMetadata

from procgen.paper.boxes import MM, attribute, pages
from procgen.paper.pieces import Piece

BLANK = '<!DOCTYPE html><html lang="en"><head></head><body></body></html>'
CORNERS = '@page { @top-left { content: "x"; width: 100% } @bottom-left { content: "x"; width: 100% } }'
"""The style of a blank face, beside that of the cards: with boxes for what stands in the margins."""

SEAT = "face"
"""Class of the element in a head whose place the face's own number takes."""


@dataclass(frozen=True)
class Face:
    """What goes on a face. `head_at`, `foot_at`: from its upper edge; `top`, `bottom`: its margins; mm."""

    head: Piece
    foot: Piece
    number: Piece
    body: Sequence[Piece]
    top: float
    bottom: float
    head_at: float
    foot_at: float


def place(blank: Any, title: str, faces: Sequence[Face], steps: Any) -> Any:
    """The document with these faces. `blank`: the document of a blank face; `steps`: the list that goes round steps."""
    (page,) = pages(blank)
    document = blank.copy([Page(_page(page, face, steps)) for face in faces])
    document.metadata = DocumentMetadata(title=title, lang="en")
    return document


def _page(blank: Any, face: Face, steps: Any) -> Any:
    root, top, bottom = (box for box in blank.children if not _is_footnotes(box))
    page = blank.copy_with_children([])
    page.margin_top, page.margin_bottom = face.top / MM, face.bottom / MM
    page.height = blank.margin_height() - page.margin_top - page.margin_bottom
    page.canvas_background = None
    (body,) = (box for box in root.children if box.element_tag == "body")
    children, _ = _stacked(face.body, body.content_box_x(), page.content_box_y(), steps)
    head = [_seated(box, face.number) for box in _at(face.head, top.position_x, face.head_at / MM)]
    foot = _at(face.foot, bottom.position_x, face.foot_at / MM)
    page.children = [
        root.copy_with_children([body.copy_with_children(children)]),
        top.copy_with_children(head),
        bottom.copy_with_children(foot),
    ]
    return page


def _is_footnotes(box: Any) -> bool:
    return box.element_tag != "html" and not isinstance(box, MarginBox)


def _stacked(pieces: Sequence[Piece], x: float, y: float, steps: Any) -> tuple[list[Any], float]:
    """Boxes one below the other, those of steps within their items within the list; and where they end."""
    children: list[Any] = []
    items: dict[int, Any] = {}
    for piece in pieces:
        if piece.item is not None and steps is None:
            continue  # a style has hidden the list; a gate tells
        placed = _at(piece, x, y)
        y += sum(box.margin_height() for box in placed)
        if piece.item is None:
            children += placed
            continue
        if not items:
            children.append(steps.copy_with_children([]))
        item = items.get(piece.item)
        if item is None:
            item = items[piece.item] = steps.children[piece.item].copy_with_children([])
            item.position_y = placed[0].position_y  # a place to jump to
            children[-1].children.append(item)
        item.children += placed
        item.height = y - item.position_y
    return children, y


def _at(piece: Piece, x: float, y: float) -> list[Any]:
    placed = []
    for box in piece.boxes:
        placed.append(_moved(box, x - box.position_x, y - box.position_y))
        y += box.margin_height()
    return placed


def _moved(box: Any, dx: float, dy: float) -> Any:
    """A copy elsewhere, with all that is in it."""
    copy = box.copy()
    copy.position_x += dx
    copy.position_y += dy
    copy.children = [_moved(child, dx, dy) for child in box.children]
    background = getattr(box, "background", None)
    if background is not None:
        layers = [
            layer._replace(
                painting_area=_shifted(layer.painting_area, dx, dy),
                positioning_area=_shifted(layer.positioning_area, dx, dy),
                clipped_boxes=[_shifted(area, dx, dy) for area in layer.clipped_boxes],
            )
            for layer in background.layers
        ]
        copy.background = background._replace(layers=layers)
    return copy


def _shifted(area: Any, dx: float, dy: float) -> Any:
    """x, y and whatever else; an area that is not used is a word."""
    return area if isinstance(area, str) else (area[0] + dx, area[1] + dy, *area[2:])


def _seated(box: Any, number: Piece) -> Any:
    """A head with the face's number in its place."""
    if attribute(box, "class") == SEAT:
        (seated,) = _at(number, box.position_x, box.position_y)
        return seated
    box.children = [_seated(child, number) for child in box.children]
    return box
