"""Heights of a card's parts, each part laid out once in a process's life: families share most of their words.

A part is a block as wide as the face, with padding and no margins, so what stands before it never changes its height.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from hashlib import blake2b

_KEPT = 5_000
_DIGITS = 6  # of a millimetre: sums of layout differ in the fifteenth, by what stands before
_PART = '<div class="part '
_LIST = re.compile(r"</?(?:ol|li)\b[^>]*>")  # they have no size of their own, and a part may be measured without
_KEY = re.compile(r'data-part="([^"]*)"')

LayOut = Callable[[str], Mapping[str, float]]
"""HTML of a whole document -> the height of each part in it, mm."""


class Measured:
    """For one stock, theme and size: nothing but the HTML may change what a part measures."""

    def __init__(self) -> None:
        self._known: dict[bytes, Mapping[str, float]] = {}

    def heights(self, html: str, lay_out: LayOut) -> dict[str, float]:
        """Of every part of a card's document, in reading order."""
        head, body = html.split("<body>")
        opening, *parts = _LIST.sub("", body.removesuffix("</html>").removesuffix("</body>\n")).split(_PART)
        pieces = {_name(head + opening): opening} | {_name(part): _PART + part for part in map(str.rstrip, parts)}
        new = {name: piece for name, piece in pieces.items() if name not in self._known}
        found: dict[str, float] = {}
        if new:
            laid_out = lay_out(f"{head}<body>{''.join(new.values())}</body></html>")
            for name, piece in new.items():
                keys = dict.fromkeys(_KEY.findall(piece))
                self._known[name] = {key: round(laid_out[key], _DIGITS) for key in keys if key in laid_out}
        for name in pieces:
            found |= self._known[name]
        while len(self._known) > _KEPT:
            del self._known[next(iter(self._known))]
        return found


def _name(piece: str) -> bytes:
    return blake2b(piece.encode(), digest_size=16).digest()
