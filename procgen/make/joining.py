"""Finished cards into one PDF, tags and all, without laying anything out again.

Pages, tag tree, bookmarks and named places are carried over; what was numbered for each card alone is numbered anew.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from io import BytesIO
from typing import Any

from pikepdf import Array, Dictionary, Name, ObjectStreamMode, Pdf, String


def join(cards: Sequence[bytes]) -> bytes:
    """At least one tagged PDF as the card printer writes it; the title is the first one's. Same input, same bytes."""
    with Pdf.new() as deck:
        tags = _Tags(deck)
        bookmarks: list[Any] = []
        places: dict[str, Any] = {}
        for content in cards:
            with Pdf.open(BytesIO(content)) as card:
                if not tags.used:
                    _take_head(deck, card)
                _number_anew(card, tags.used)
                deck.pages.extend(card.pages)
                tags.take(card)
                bookmarks += map(deck.copy_foreign, _chain(card.Root.get(Name.Outlines)))
                for name, place in _names(card):
                    places.setdefault(name, deck.copy_foreign(place))
        tags.finish()
        _bind_bookmarks(deck, bookmarks)
        if places:
            pairs = [part for name in sorted(places) for part in (String(name), places[name])]
            deck.Root.Names = Dictionary(Dests=Dictionary(Names=Array(pairs)))
        stream = BytesIO()
        deck.save(stream, object_stream_mode=ObjectStreamMode.generate, deterministic_id=True)
        return stream.getvalue()


class _Tags:
    """The deck's tag tree: one Document with what all the cards' Documents hold, one tree from marks to tags."""

    def __init__(self, deck: Pdf) -> None:
        self._deck = deck
        self._tree = deck.make_indirect(Dictionary(Nums=Array()))
        self._root = deck.make_indirect(Dictionary(Type=Name.StructTreeRoot, ParentTree=self._tree))
        self._document = deck.make_indirect(Dictionary(Type=Name.StructElem, S=Name.Document, P=self._root))
        self._kids: list[Any] = []
        self._marks: list[Any] = []
        self.used = 0

    def take(self, card: Pdf) -> None:
        """A card whose pages the deck has already, so that tags find them."""
        root = card.Root.StructTreeRoot
        (document,) = root.K
        kids, nums = self._copied(card, document.K), self._copied(card, root.ParentTree.Nums)
        self._kids += kids
        for at in range(0, len(nums), 2):
            nums[at] = int(nums[at]) + self.used
        self._marks += nums
        self.used += len(nums) // 2

    def _copied(self, card: Pdf, many: Any) -> list[Any]:
        """All at once: a call for each would take as long as copying."""
        return list(self._deck.copy_foreign(card.make_indirect(many)))

    def finish(self) -> None:
        for kid in self._kids:
            kid.P = self._document
        self._document.K = Array(self._kids)
        self._root.K = Array([self._document])
        self._tree.Nums = Array(self._marks)
        self._deck.Root.StructTreeRoot = self._root


def _take_head(deck: Pdf, card: Pdf) -> None:
    """Language, title and the like."""
    for name in (Name.Lang, Name.MarkInfo, Name.ViewerPreferences, Name.Metadata):
        if name in card.Root:
            deck.Root[name] = deck.copy_foreign(card.make_indirect(card.Root[name]))
    for key, text in card.docinfo.items():
        deck.docinfo[key] = str(text)


def _number_anew(card: Pdf, used: int) -> None:
    """The keys of the tree of marks. Names of cells have the card's own before them."""
    for page in card.pages:
        for thing in (page.obj, *page.obj.get(Name.Annots, ())):
            for key in (Name.StructParents, Name.StructParent):
                if key in thing:
                    thing[key] = int(thing[key]) + used


def _chain(outlines: Any) -> Iterator[Any]:
    """The bookmarks of the first level."""
    item = outlines.get(Name.First) if outlines is not None else None
    while item is not None:
        yield item
        item = item.get(Name.Next)


def _names(card: Pdf) -> Iterator[tuple[str, Any]]:
    places = card.Root.get("/Names", Dictionary()).get("/Dests", Dictionary()).get("/Names", Array())
    listed = list(places)
    for name, place in zip(listed[::2], listed[1::2], strict=True):
        yield str(name), card.make_indirect(place)


def _bind_bookmarks(deck: Pdf, bookmarks: Sequence[Any]) -> None:
    if not bookmarks:
        return
    outlines = deck.make_indirect(Dictionary(First=bookmarks[0], Last=bookmarks[-1], Count=len(bookmarks)))
    for before, item, after in zip((None, *bookmarks), bookmarks, (*bookmarks[1:], None)):  # noqa: B905
        item.Parent = outlines
        for key, other in ((Name.Prev, before), (Name.Next, after)):
            if other is not None:
                item[key] = other
            elif key in item:
                del item[key]
    deck.Root.Outlines = outlines
