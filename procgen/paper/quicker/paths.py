"""Straight paths drawn without asking of each number whether it is a length in some unit, and with no marks kept for
markers that are not there: QR codes, scales and drawings are hundreds of strokes each.

`weasyprint.svg` is not its public face, so its version is pinned; what is not plainly straight is left to it, but for
what it would look at for ever. A path that it breaks off without a word is told of.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from typing import Any

from pydyf import _to_bytes
from weasyprint import svg as library
from weasyprint.logger import LOGGER
from weasyprint.svg.path import PATH_LETTERS, path
from weasyprint.svg.utils import PointError

_STRAIGHT = re.compile(r"\s*[Mm][MmLlHhVvZz\d.,\s-]*")
_PARTS = re.compile(r"([MmLlHhVvZz])([^MmLlHhVvZz]*)")
_NUMBER = re.compile(r"-?(?:\d+\.?\d*|\.\d+)")
_AFTER_END = re.compile(rf"[Zz][\s,]*[^\s,{PATH_LETTERS}]")
_LEFT = re.compile(r"[\d.-]")


class _Other(Exception):
    """A path that is not as it should be."""


def draw_straight_paths() -> None:
    """For this process."""
    library.TAGS["path"] = straight


def straight(svg: Any, node: Any, font_size: float) -> None:
    """Draw a `<path>`, as WeasyPrint does."""
    data = node.get("d", "")
    try:
        if not _STRAIGHT.fullmatch(data) or _LEFT.search(_NUMBER.sub("", data)):
            raise _Other
        if any(name.startswith("marker") for name in node.attrib):
            raise _Other
        strokes = [_written(letter, *at) for letter, at in _strokes(data)]
    except _Other:
        _left_to_library(svg, node, font_size)
        return
    svg.stream.stream.append(b"\n".join((b"0 0 m", *strokes)))  # as one: it is looked through later


def _left_to_library(svg: Any, node: Any, font_size: float) -> None:
    data = node.get("d", "")
    if _AFTER_END.search(data):  # the library would wait for the z to take it
        LOGGER.error('the path data "%s" has something after a z, which takes nothing; it is not drawn', _short(data))
        return
    try:
        path(svg, node, font_size)
    except (PointError, ValueError, IndexError):
        LOGGER.error('the path data "%s" breaks off: numbers are missing, or are none', _short(data))
        raise


def _short(data: str) -> str:
    return data if len(data) <= 60 else f"{data[:59]}…"


def _written(operator: bytes, *at: float) -> bytes:
    return b" ".join((*map(_number, at), operator))


_number = lru_cache(maxsize=4096)(_to_bytes)


def _strokes(data: str) -> Iterator[tuple[bytes, tuple[float, ...]]]:
    """PDF's operators, with what goes before each."""
    x = y = 0.0
    start: tuple[float, float] | None = None
    for letter, rest in _PARTS.findall(data):
        numbers = list(map(float, _NUMBER.findall(rest)))
        kind, is_relative = letter.upper(), letter.islower()
        if kind == "Z":
            if numbers:
                raise _Other
            if start is not None:
                yield b"h", ()
                (x, y), start = start, None
            continue
        step = 1 if kind in "HV" else 2
        if not numbers or len(numbers) % step:
            raise _Other
        for n in range(0, len(numbers), step):
            first, last = numbers[n], numbers[n + step - 1]
            old = x, y
            if kind != "V":
                x = first + x if is_relative else first
            if kind != "H":
                y = last + y if is_relative else last
            if kind == "M" and n == 0:
                start = None
                yield b"m", (x, y)
            else:
                start = start or old
                yield b"l", (x, y)
