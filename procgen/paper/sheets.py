"""A deck's sheets: finished faces laid several to a sheet of paper, backs behind their fronts, to print at full size.

Each face is a Form XObject, so it is drawn as it is on its card, and cut off at the card's edge. Tags do not come
along: the card's own PDF is the one to read aloud.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from pydyf import String

from procgen.model.workshop import Stock
from procgen.paper import marks
from procgen.paper.bodies import Body, Writer, read, target, targets, within
from procgen.paper.imposing import Grid, Placed, impose

_PT = 72 / 25.4
_WISH = {"long": b"/DuplexFlipLongEdge", "short": b"/DuplexFlipShortEdge", "fold": b"/Simplex"}
_OF_TAGS = re.compile(rb"/Tabs /S|/StructParents \d+")


def sheets_pdf(
    deck: bytes, faces: Sequence[int], stock: Stock, one: Grid, duplex: str, lead: bytes, title: str
) -> bytes:
    """The sheets of a deck, whose cards have so many faces each, after the pages of `lead`. Same input, same bytes.

    Raises:
        NotOurs: for a deck or a lead that something else wrote.
    """
    sheets = _Sheets(read(deck, tags=False), one, stock)
    sheets.lead(read(lead))
    if duplex != "fold" and len(sheets.pages) % 2:
        sheets.side(())
    for sheet in impose(tuple(faces), one, duplex):
        dashed = marks.folds(one) if duplex == "fold" else ()
        sheets.side(sheet.front, (*marks.cuts(one), *marks.bar(one)), dashed)
        if duplex != "fold":
            sheets.side(sheet.back)
    wishes = b"/PrintScaling /None/Duplex %b/DisplayDocTitle true" % _WISH[duplex]
    return sheets.end(b"/Lang (en)/ViewerPreferences <<%b>>" % wishes, String(title).data)


class _Sheets:
    """What the deck's pages show keeps its numbers; all else comes after."""

    def __init__(self, deck: Body, one: Grid, stock: Stock) -> None:
        self._one, self._stock = one, stock
        self._writer = Writer()
        self._objects: dict[int, bytes] = {}
        self._used = max((*deck.objects, *deck.streams)) + 1
        self._root, self.pages = self._next(), list[int]()
        self._forms = self._take_forms(deck)

    def _next(self) -> int:
        self._used += 1
        return self._used - 1

    def _take_forms(self, deck: Body) -> list[int]:
        """Each page's one stream itself, compressed as it is."""
        pages = [deck.objects[page] for page in _pages(deck)]
        forms = [target(b"Contents", page) for page in pages]
        for form, page in zip(forms, pages, strict=True):
            said, content = deck.streams[form]
            of_page = target(b"Resources", page), within(rb"/MediaBox (\[[^]]*\])", page)
            head = b"<</Type /XObject/Subtype /Form/Resources %d 0 R/BBox %b" % of_page
            self._writer.stream(form, head + said.removeprefix(b"<<"), content)
        self._take(deck, deck.reached(*(b"%d 0 R" % target(b"Resources", page) for page in pages)))
        return forms

    def _take(self, body: Body, wanted: Iterable[int]) -> None:
        for one in wanted:
            if one in body.objects:
                self._objects[one] = body.objects[one]
            else:
                self._writer.stream(one, *body.streams[one])

    def lead(self, body: Body) -> None:
        """Pages as they are, without their tags."""
        root, base = _tree(body), self._used
        self._used += max((*body.objects, *body.streams)) + 1
        body = body.numbered(lambda old: self._root if old == root else base + old, 0)
        for page in targets(b"Kids", body.objects.pop(self._root)):
            body.objects[page] = _OF_TAGS.sub(b"", body.objects[page])
            self.pages.append(page)
        self._take(body, body.reached(*(b"%d 0 R" % page for page in self.pages)))

    def side(
        self, placed: Sequence[Placed], solid: Iterable[marks.Stroke] = (), dashed: Iterable[marks.Stroke] = ()
    ) -> None:
        """One side of a sheet; PDF counts from the left bottom corner up."""
        one, hole = self._one, self._stock.hole
        holes = [stroke for face in placed if hole for stroke in marks.hole(face, hole, one.card)]
        drawn = [_face(face, one) for face in placed]
        drawn += ["q 0.25 w 0 G", *_strokes([*solid, *holes], one), "[2 2] 0 d", *_strokes(dashed, one), "Q"]
        page, content = self._next(), self._next()
        self._writer.deflated(content, b"", "\n".join(drawn).encode())
        shown = b"".join(b"/F%d %d 0 R" % (face.face, self._forms[face.face]) for face in placed)
        size = f"{one.width * _PT:.6f} {one.height * _PT:.6f}".encode()
        leads = b"/Parent %d 0 R/Contents %d 0 R/Resources <</XObject <<%b>>>>" % (self._root, content, shown)
        self._objects[page] = b"<</Type /Page/MediaBox [0 0 %b]%b>>" % (size, leads)
        self.pages.append(page)

    def end(self, wishes: bytes, title: bytes) -> bytes:
        """All of it. `wishes`: what the catalogue says beside its pages."""
        kids = b" ".join(b"%d 0 R" % page for page in self.pages)
        root, info = self._next(), self._next()
        self._objects[self._root] = b"<</Type /Pages/Kids [%b]/Count %d>>" % (kids, len(self.pages))
        self._objects[root] = b"<</Type /Catalog/Pages %d 0 R%b>>" % (self._root, wishes)
        self._objects[info] = b"<</Title %b>>" % title
        self._writer.objects(self._next(), self._objects)
        return self._writer.end(self._next(), root, info)


def _tree(body: Body) -> int:
    return target(b"Pages", body.objects[target(b"Root", body.trailer)])


def _pages(body: Body) -> list[int]:
    return targets(b"Kids", body.objects[_tree(body)])


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
