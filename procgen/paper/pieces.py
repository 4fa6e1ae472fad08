"""The pieces of a card, each laid out once in a process's life: families share most of their words.

A piece is a block as wide as a face, with padding and no margins, so what stands before it changes nothing in it. All
are laid out at the head of one endless face, each as if it were alone there: its numbers are the same, to the last
digit, whatever was laid out with it, so a card has the same bytes whichever process prints it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from hashlib import blake2b
from typing import Any

from procgen.paper.boxes import MM, attribute, pages, walk
from procgen.paper.engine import listening
from procgen.paper.ink import Kept

MARK = "<!-- piece -->"
"""What the templates put before each piece."""

ENDLESS = "section { position: absolute; top: 0; left: 0; width: 100%% } @page { size: %smm 20000mm }"
"""The style, for a width in mm, of the face on which all pieces lie one on the other."""

SEAT = "face seat"
"""Class of the element in a head whose place the face's own number takes."""

_KEPT = 900  # in all sizes together; those of a few cards: what is much alike is printed one after the other
_LISTS = re.compile(r"</?(?:ol|li)\b[^>]*>")  # the list of steps goes round the pieces and through faces' ends

LayOut = Callable[[str], Any]
"""HTML -> WeasyPrint's document."""


@dataclass(frozen=True)
class Piece:
    """`boxes`: as laid out, to be copied and never changed; a seat in them is empty. `heights`: of all that is named in
    it, mm. `ink`: what it looks like, once it was drawn. `item`: which item of the list of steps it stands in, from 0,
    or none."""

    boxes: tuple[Any, ...]
    heights: Mapping[str, float]
    ink: Kept
    item: int | None = None

    @property
    def height(self) -> float:
        """mm."""
        return float(sum(box.margin_height() for box in self.boxes)) * MM


@dataclass(frozen=True)
class Pieces:
    """Of one card, in reading order; `steps`: the empty list with its items. `heard`: what the engine warned of."""

    all: tuple[Piece, ...]
    steps: Any
    heard: tuple[str, ...]

    def named(self, key: str) -> Piece:
        return next(piece for piece in self.all if key in piece.heights)

    @property
    def heights(self) -> dict[str, float]:
        return {key: height for piece in self.all for key, height in piece.heights.items()}


Known = dict[tuple[object, bytes], Piece]
"""Pieces by their store and the hash of their HTML, what was used last at the end."""


class PieceStore:
    """For one stock, theme and size: nothing but its HTML may change a piece. `known`: what several of them share, so
    that there is one bound for all."""

    def __init__(self, lay_out: LayOut, known: Known | None = None) -> None:
        self._lay_out = lay_out
        self._known: Known = {} if known is None else known

    def take(self, html: str) -> Pieces:
        """All pieces of a whole document."""
        texts, items, steps = _split(html)
        names = [_name(text) for text in (*texts, steps)]
        new = dict(zip(names, (*texts, steps), strict=True))
        found = {name: self._known.pop((self, name)) for name in new if (self, name) in self._known}
        new = {name: text for name, text in new.items() if name not in found}
        with listening() as heard:
            found |= zip(new, self._laid_out(tuple(new.values())), strict=True)
        if not heard:  # else it would be heard for the first of the cards alone that have the piece
            self._known |= {(self, name): piece for name, piece in found.items()}
            for name in list(self._known)[: max(len(self._known) - _KEPT, 0)]:
                del self._known[name]
        *pieces, listed = (found[name] for name in names)
        placed = (replace(one, item=item) for one, item in zip(pieces, items, strict=True))
        return Pieces(tuple(placed), listed.boxes[0] if listed.boxes else None, tuple(heard))

    def _laid_out(self, texts: Sequence[str]) -> Iterator[Piece]:
        if not texts:
            return
        sections = "".join(f"<section>{text}</section>" for text in texts)
        document = self._lay_out(f'<!DOCTYPE html><html lang="en"><head></head><body>{sections}</body></html>')
        (page,) = pages(document)
        for section in (box for box in walk(page) if box.element_tag == "section"):
            for seat in (box for box in walk(section) if attribute(box, "class") == SEAT):
                seat.children = []
            yield Piece(tuple(section.children), dict(_heights(section)), Kept())


def _heights(section: Any) -> Iterator[tuple[str, float]]:
    seen = set()
    for box in walk(section):
        key = attribute(box, "data-part")
        if key and key not in seen:
            seen.add(key)
            yield key, box.margin_height() * MM


def _split(html: str) -> tuple[list[str], list[int | None], str]:
    """Pieces, the item of the list that each begins in, and the list itself with nothing in its items."""
    body = html[html.index("<body>") + len("<body>") : html.rindex("</body>")]
    texts: list[str] = []
    items: list[int | None] = []
    count, inside = -1, False
    for chunk in body.split(MARK):
        texts.append(_LISTS.sub("", chunk).strip())
        items.append(count if inside else None)
        for tag in _LISTS.findall(chunk):
            if "li" in tag:
                inside = not tag.startswith("</")
                count += inside
    return texts[1:], items[1:], "".join(_LISTS.findall(body))


def _name(text: str) -> bytes:
    return blake2b(text.encode(), digest_size=16).digest()
