"""The cards' fonts for the web: only the characters that the site uses, as WOFF2."""

from __future__ import annotations

from contextlib import suppress
from hashlib import blake2b
from io import BytesIO
from pathlib import Path
from string import ascii_letters, digits, punctuation

import brotli
import fontTools

from procgen.draw.fonts import Face
from procgen.files.writing import put

ALWAYS = frozenset(ascii_letters + digits + punctuation + " \u00a0–−≤≥±×·°µ²Δ“”‘’…→")
"""In every file, so that a new word in a card seldom changes a font that people have already fetched."""

NAMES = (0, 1, 2, 13, 14)  # the notice and the licence stay with the font
ENGLISH = 0x409  # Windows's number of the language

_RECIPE = "1"  # raise when `_subset` makes other bytes from the same source
_DIGEST = 16


def web_font(face: Face, wanted: frozenset[str], folder: Path) -> bytes:
    """The face with those of the wanted characters that it has. The same input gives the same bytes.

    Kept in `folder`, with its digest, since most sites need the very same: those that write no others than the guide.
    """
    has = "".join(sorted(wanted & face.advances.keys()))
    named = blake2b(f"{_RECIPE} {fontTools.version} {brotli.__version__} {has} ".encode(), digest_size=_DIGEST)
    named.update(face.path.read_bytes())
    path = folder / "web" / f"{named.hexdigest()}.woff2"
    with suppress(OSError):
        kept = path.read_bytes()
        if kept[:_DIGEST] == _digest(kept[_DIGEST:]):
            return kept[_DIGEST:]
    made = _subset(face.path, has)
    with suppress(OSError):
        put(path, _digest(made) + made)
    return made


def _digest(content: bytes) -> bytes:
    return blake2b(content, digest_size=_DIGEST).digest()


def _subset(path: Path, characters: str) -> bytes:
    from fontTools import subset  # takes long to import, and is seldom needed
    from fontTools.ttLib import TTFont

    options = subset.Options()
    options.layout_features = ["kern", "tnum", "mark"]
    options.hinting = False
    options.recalc_timestamp = False
    font = TTFont(path, recalcTimestamp=False, lazy=True)  # pairs that are kerned are many, and few are kept
    names = font["name"]
    del font["name"]  # else all tables are looked through for names that they refer to: none of those that are kept
    subsetter = subset.Subsetter(options)
    subsetter.populate(unicodes=list(map(ord, characters)))
    subsetter.subset(font)
    names.names = [one for one in names.names if one.nameID in NAMES and one.isUnicode() and one.langID == ENGLISH]
    font["name"] = names
    font.flavor = "woff2"
    stream = BytesIO()
    font.save(stream)
    return stream.getvalue()
