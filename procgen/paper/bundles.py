"""What was laid out and drawn for a card, kept where the next process finds it: an edit changes few of a card's pieces.

A piece is kept once, in the bundle of the card that it was laid out for; each card has a list of the bundles that its
pieces are in. A list may be out of date, since a piece is known by its HTML whatever was printed last.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from contextlib import suppress
from typing import Any

from procgen.files.memory import digest
from procgen.paper.dried import Dried, Drying, restore, store
from procgen.paper.ink import Kept
from procgen.paper.pieces import Key, Known, Piece

Shelf = Callable[[str], bytes | None]
"""What was put there under a name."""

_MANY = 12
"""Bundles that one card looks into, before its pieces are all put into a new one."""


class Bundles:
    def __init__(self, known: Known) -> None:
        self._known = known
        self._opened: set[str] = set()

    def recall(self, name: str, shelf: Shelf) -> None:
        if name in self._opened:
            return
        self._opened.add(name)
        for bundle in _read(shelf(name)) or ():
            if bundle not in self._opened:
                self._opened.add(bundle)
                self._open(bundle, _read(shelf(bundle)) or {})

    def keep(self, name: str) -> Mapping[str, bytes]:
        """Of what was touched since that was cleared: what goes on the shelf, by name."""
        known = self._known
        lies = {key: self._bundle(key) for key in known.touched}
        bundles = dict.fromkeys(filter(None, lies.values()))
        if len(bundles) > _MANY:
            bundles = {}
        drying = Drying()
        new = {key: one for key, bundle in lies.items() if bundle not in bundles and (one := self._dry(key, drying))}
        if not new:
            return {name: store(tuple(bundles))}
        content = store(new)
        bundle = digest(content)
        self._opened.add(bundle)
        self._open(bundle, new)
        return {bundle: content, name: store((*bundles, bundle))}

    def _bundle(self, key: Key) -> str:
        piece = self._known.pieces.get(key)
        if piece is not None and piece.ink.ink is not None:
            return piece.bundle
        return self._known.measured.get(key, ({}, ""))[1]

    def _dry(self, key: Key, drying: Drying) -> Dried | Mapping[str, float] | None:
        """Of a piece that was not drawn, its heights alone."""
        piece = self._known.pieces.get(key)
        if piece is None:
            return self._known.measured.get(key, (None,))[0]
        if piece.ink.ink is None:
            return piece.heights
        return drying.dry(piece.boxes, piece.heights, piece.ink.ink)

    def _open(self, bundle: str, pieces: Mapping[Key, Dried | Mapping[str, float]]) -> None:
        known = self._known
        for key, one in pieces.items():
            if not isinstance(one, Dried):
                known.measured[key] = one, bundle
            elif one.ink.is_settable:
                known.pieces[key] = Piece(one.boxes, one.heights, Kept(one.ink), bundle=bundle)
        known.keep({})


def _read(content: bytes | None) -> Any:
    """None for what was never stored: something else may lie there."""
    if content is not None:
        with suppress(Exception):
            return restore(content)
    return None
