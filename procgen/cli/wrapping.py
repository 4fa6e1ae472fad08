"""Long lines for a terminal."""

from __future__ import annotations

import textwrap

WIDTH = 110


def wrapped(line: str, width: int = WIDTH, further: int | None = None) -> list[str]:
    """A line in pieces no wider; what goes on stands `further` in, else by two more than the line itself."""
    if further is None:
        further = len(line) - len(line.lstrip()) + 2
    pieces = textwrap.wrap(
        line, width, subsequent_indent=" " * further, break_long_words=False, break_on_hyphens=False
    )  # fmt: skip
    return pieces or [""]
