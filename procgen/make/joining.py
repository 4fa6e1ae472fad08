"""Finished cards into one PDF, tags and all, without laying anything out again.

Pages, tag tree, bookmarks and named places are carried over; what was numbered for each card alone is numbered anew.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise

from procgen.paper.bodies import TAG, Body, NotOurs, Writer, read, target, targets, within

_PAGES, _BOOKMARKS, _TAGS, _DOCUMENT, _MARKS, _ROOT, _INFO = range(1, 8)
"""Numbers of what the deck has once and each card has too; all else of the cards comes after."""

_PLACES = b"/Names <</Dests <</Names ["
_PLACE = re.compile(rb" ?(\((?:[^()\\]|\\.)*\)|<[0-9a-fA-F]*>) (\[[^]]*\])", re.DOTALL)
_MARK = re.compile(rb"(\d+) (\[[^]]*\]|\d+ 0 R)")


def join(cards: Sequence[bytes]) -> bytes:
    """At least one tagged PDF as the card printer writes it; the title is the first one's. Same input, same bytes.

    Raises:
        NotOurs: for a PDF that something else wrote.
    """
    deck = _Deck()
    for card in cards:
        try:
            deck.take(read(card))
        except (KeyError, ValueError) as fault:
            raise NotOurs(f"a card that is not as the card printer writes it: {fault}") from fault
    return deck.finished()


class _Deck:
    """One of each: the pages, the Document with what all the cards' Documents hold, the tree from marks to tags."""

    def __init__(self) -> None:
        self._cards: list[Body] = []
        self._used = _INFO + 1
        self._pages: list[bytes] = []
        self._tags: list[bytes] = []
        self._marks: list[bytes] = []
        self._places: dict[bytes, bytes] = {}
        self._bookmarks: list[tuple[int, int]] = []  # of each card, the first and the last

    def take(self, card: Body) -> None:
        root, info = target(b"Root", card.trailer), target(b"Info", card.trailer)
        pages, tags = target(b"Pages", card.objects[root]), target(b"StructTreeRoot", card.objects[root])
        (document,) = targets(b"K", card.objects[tags])
        once = {root: _ROOT, info: _INFO, pages: _PAGES, tags: _TAGS, document: _DOCUMENT}
        once[target(b"ParentTree", card.objects[tags])] = _MARKS
        if b"/Outlines" in card.objects[root]:
            once[target(b"Outlines", card.objects[root])] = _BOOKMARKS
        base = self._used
        self._used += 1 + max((*card.objects, *card.streams))
        self._take(card.numbered(lambda old: once.get(old, base + old), len(self._marks)))

    def _take(self, card: Body) -> None:
        """One under the deck's numbers."""
        objects = card.objects
        root, places = _parted(objects[_ROOT])
        for name, place in places.items():
            self._places.setdefault(name, place)
        self._pages.append(within(rb"/Kids \[([^]]*)\]", objects[_PAGES]))
        self._tags.append(within(rb"/K \[([^]]*)\]", objects[_DOCUMENT]))
        self._marks += (mark[2] for mark in _MARK.finditer(within(rb"/Nums \[(.*)\]", objects[_MARKS])))
        if _BOOKMARKS in objects:
            outlines = objects[_BOOKMARKS]
            self._bookmarks.append((target(b"First", outlines), target(b"Last", outlines)))
        if not self._cards:
            self._root, self._info, self._document = root, objects[_INFO], objects[_DOCUMENT]
        elif b"/Metadata" in root:
            del card.streams[target(b"Metadata", root)]
        self._cards.append(card)

    def finished(self) -> bytes:
        self._chain()
        writer = Writer()
        for card in self._cards:
            for number, (dictionary, content) in card.streams.items():
                writer.stream(number, dictionary, content)
            rest = {number: one for number, one in card.objects.items() if number > _INFO}
            tags = {number: rest.pop(number) for number in tuple(rest) if rest[number].startswith(TAG)}
            for objects in (rest, tags):  # apart, for whoever only looks at the pages
                writer.objects(self._used, objects)
                self._used += 1
        writer.objects(self._used, self._once())
        return writer.end(self._used + 1, _ROOT, _INFO)

    def _chain(self) -> None:
        """Let each card's bookmarks go on with the next one's."""
        for (_, last), (first, _) in pairwise(self._bookmarks):
            for number, key, other in ((last, b"Next", first), (first, b"Prev", last)):
                objects = next(card.objects for card in self._cards if number in card.objects)
                objects[number] = b"%b/%b %d 0 R>>" % (objects[number].removesuffix(b">>"), key, other)

    def _once(self) -> dict[int, bytes]:
        pages = b" ".join(self._pages)
        marks = b" ".join(b"%d %b" % (number, mark) for number, mark in enumerate(self._marks))
        tags = re.sub(rb"/K \[[^]]*\]", lambda _: b"/K [%b]" % b" ".join(self._tags), self._document, count=1)
        places = b" ".join(b"%b %b" % (name, self._places[name]) for name in sorted(self._places, key=_spelt))
        root = b"%b%b%b]>>>>>>" % (self._root.removesuffix(b">>"), _PLACES, places) if places else self._root
        found = {
            _PAGES: b"<</Type /Pages/Kids [%b]/Count %d>>" % (pages, pages.count(b"R")),
            _TAGS: b"<</Type /StructTreeRoot/ParentTree %d 0 R/K [%d 0 R]>>" % (_MARKS, _DOCUMENT),
            _DOCUMENT: tags,
            _MARKS: b"<</Nums [%b]>>" % marks,
            _ROOT: root,
            _INFO: self._info,
        }
        if self._bookmarks:
            ends = len(self._bookmarks), self._bookmarks[0][0], self._bookmarks[-1][1]
            found[_BOOKMARKS] = b"<</Count %d/First %d 0 R/Last %d 0 R>>" % ends
        return found


def _parted(root: bytes) -> tuple[bytes, dict[bytes, bytes]]:
    """A catalogue without its named places, and these."""
    before, has_places, after = root.partition(_PLACES)
    places: dict[bytes, bytes] = {}
    at = 0
    while has_places and (place := _PLACE.match(after, at)):
        places[place[1]] = place[2]
        at = place.end()
    if has_places and not after.startswith(b"]>>>>", at):
        raise NotOurs("named places end early")
    return before + after[at:].removeprefix(b"]>>>>"), places


def _spelt(name: bytes) -> bytes:
    """What a string in a PDF says."""
    if name.startswith(b"<"):
        return bytes.fromhex(name[1:-1].decode())
    return re.sub(rb"\\(.)", rb"\1", name[1:-1], flags=re.DOTALL)
