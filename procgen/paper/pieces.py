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
from procgen.paper.ink import NONE, Kept

MARK = "<!-- piece -->"
"""What the templates put before each piece."""

ENDLESS = "section { position: absolute; top: 0; left: 0; width: 100%% } @page { size: %smm 20000mm }"
"""The style, for a width in mm, of the face on which all pieces lie one on the other."""

NUMBER = "face seat"
SEATED = {name: f"{name} seat" for name in ("scale", "address-first", "address-later", "code", "issue")}
SEATS = (NUMBER, *SEATED.values())
"""Classes of the elements in heads and feet whose places pieces take, by the name of such a piece: what changes where
these stay as they are."""

_KEPT = 1800  # in all sizes together: those of a family, which an edit finds
_BLOCK = r"</?(?:div|p|h1|table|col|thead|tbody|tr|th|td)\b"
_BETWEEN_BLOCKS = re.compile(rf"({_BLOCK}[^<>]*>)\s+(?={_BLOCK})")  # is no space; a box is made of each all the same
_LISTS = re.compile(r"</?(?:ol|li)\b[^>]*>")  # the list of steps goes round the pieces and through faces' ends

LayOut = Callable[[str], Any]
"""HTML -> WeasyPrint's document."""


@dataclass(frozen=True)
class Piece:
    """`boxes`: as laid out, to be copied and never changed; a seat in them is empty. `heights`: of all that is named in
    it, mm. `ink`: what it looks like, once it was drawn. `item`: which item of the list of steps it stands in, from 0,
    or none. `bundle`: what it is kept in for other processes, "" for nothing yet."""

    boxes: tuple[Any, ...]
    heights: Mapping[str, float]
    ink: Kept
    item: int | None = None
    bundle: str = ""

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


@dataclass(frozen=True)
class Measured:
    """Heights of all that is named, mm; `heard`: what the engine warned of."""

    heights: Mapping[str, float]
    heard: tuple[str, ...]


Key = tuple[str, bytes]
"""The name of a piece's store and the hash of its HTML."""


class Known:
    """Pieces of all sizes, what was used last at the end: one bound for all. `measured`: heights of further ones, laid
    out by another process and not drawn there, each with the bundle it is kept in. `touched`: what was asked for
    since that was cleared."""

    def __init__(self) -> None:
        self.pieces: dict[Key, Piece] = {}
        self.measured: dict[Key, tuple[Mapping[str, float], str]] = {}
        self.touched: dict[Key, None] = {}

    def find(self, key: Key) -> Piece | None:
        self.touched[key] = None
        piece = self.pieces.pop(key, None)
        if piece is not None:
            self.pieces[key] = piece
        return piece

    def keep(self, found: Mapping[Key, Piece]) -> None:
        self.pieces |= found
        for dictionary in (self.pieces, self.measured):
            for key in list(dictionary)[: max(len(dictionary) - _KEPT, 0)]:
                del dictionary[key]


class PieceStore:
    """For one stock, theme and size: nothing but its HTML may change a piece. `name`: no other store that shares what
    is `known` has it."""

    def __init__(self, lay_out: LayOut, known: Known | None = None, name: str = "") -> None:
        self._lay_out, self._name = lay_out, name
        self._known = known or Known()

    def take(self, html: str) -> Pieces:
        """All pieces of a whole document."""
        texts, items, steps = _split(html)
        keys = [(self._name, _hash(text)) for text in (*texts, steps)]
        found = {key: piece for key in keys if (piece := self._known.find(key)) is not None}
        with listening() as heard:
            found |= self._new({key: text for key, text in zip(keys, (*texts, steps), strict=True) if key not in found})
        found[keys[-1]] = replace(found[keys[-1]], ink=Kept(NONE))  # only its boxes are set
        if not heard:  # else it would be heard for the first of the cards alone that have the piece
            self._known.keep(found)
        *pieces, listed = (found[key] for key in keys)
        placed = (replace(one, item=item) for one, item in zip(pieces, items, strict=True))
        return Pieces(tuple(placed), listed.boxes[0] if listed.boxes else None, tuple(heard))

    def measure(self, html: str) -> Measured:
        """Of all pieces of a whole document, that need not be drawn."""
        texts = {(self._name, _hash(text)): text for text in _split(html)[0]}
        heights = {key: piece.heights for key in texts if (piece := self._known.find(key)) is not None}
        heights |= {key: self._known.measured[key][0] for key in texts if key in self._known.measured}
        with listening() as heard:
            found = self._new({key: text for key, text in texts.items() if key not in heights})
        if not heard:
            self._known.keep(found)
        heights |= {key: piece.heights for key, piece in found.items()}
        return Measured({name: height for key in texts for name, height in heights[key].items()}, tuple(heard))

    def _new(self, texts: Mapping[Key, str]) -> dict[Key, Piece]:
        return dict(zip(texts, self._laid_out(tuple(texts.values())), strict=True))

    def _laid_out(self, texts: Sequence[str]) -> Iterator[Piece]:
        if not texts:
            return
        sections = "".join(f"<section>{text}</section>" for text in texts)
        document = self._lay_out(f'<!DOCTYPE html><html lang="en"><head></head><body>{sections}</body></html>')
        (page,) = pages(document)
        for section in (box for box in walk(page) if box.element_tag == "section"):
            for seat in (box for box in walk(section) if attribute(box, "class") in SEATS):
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
        texts.append(_BETWEEN_BLOCKS.sub(r"\1", _LISTS.sub("", chunk)).strip())
        items.append(count if inside else None)
        for tag in _LISTS.findall(chunk):
            if "li" in tag:
                inside = not tag.startswith("</")
                count += inside
    return texts[1:], items[1:], "".join(_LISTS.findall(body))


def _hash(text: str) -> bytes:
    return blake2b(text.encode(), digest_size=16).digest()
