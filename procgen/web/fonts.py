"""The cards' fonts for the web: only the characters that the site uses, as WOFF2."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from functools import cache
from io import BytesIO
from pathlib import Path
from string import ascii_letters, digits, punctuation
from typing import Any

from procgen.draw.fonts import Face

ALWAYS = frozenset(ascii_letters + digits + punctuation + " \u00a0–−≤≥±×·°µ²Δ“”‘’…→")
"""In every file, so that a new word in a card seldom changes a font that people have already fetched."""


def characters(*things: object) -> frozenset[str]:
    """Every character of every text in these dataclasses, tuples and mappings."""
    texts: set[str] = set()
    waiting = list(things)
    while waiting:
        thing = waiting.pop()
        if isinstance(thing, str):
            texts.add(thing)
        elif isinstance(thing, tuple | list):
            waiting += thing
        elif isinstance(thing, Mapping):
            waiting += thing.values()
        else:
            kind: Any = type(thing)
            waiting += [getattr(thing, name) for name in _names(kind)]
    return ALWAYS.union(*texts)


@cache
def _names(kind: Any) -> tuple[str, ...]:
    """Of a dataclass's fields."""
    return tuple(field.name for field in fields(kind)) if is_dataclass(kind) else ()


def web_font(face: Face, wanted: frozenset[str]) -> bytes:
    """The face with those of the wanted characters that it has. The same input gives the same bytes."""
    return _subset(face.path, wanted)


@cache
def _subset(path: Path, wanted: frozenset[str]) -> bytes:
    """Kept, as the characters seldom change from one build of a long-lived process to the next."""
    from fontTools import subset  # takes long to import, and is seldom needed
    from fontTools.ttLib import TTFont

    options = subset.Options()
    options.layout_features = ["kern", "tnum", "mark"]
    options.name_IDs = [0, 1, 2, 13, 14]  # the notice and the licence stay with the font
    options.hinting = False
    options.recalc_timestamp = False
    font = TTFont(path, recalcTimestamp=False)
    subsetter = subset.Subsetter(options)
    subsetter.populate(unicodes=[ord(character) for character in sorted(wanted)])
    subsetter.subset(font)
    font.flavor = "woff2"
    stream = BytesIO()
    font.save(stream)
    return stream.getvalue()
