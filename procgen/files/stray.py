"""A comma inside { } begins a new entry. Where it was meant as part of a text, the rest of the text strays."""

from __future__ import annotations

import re

from procgen.files.document import Path
from procgen.files.problems import Place, Problem, error


class Strays:
    """Gathers the pieces that commas have cut from one text of a { } map, so that they are told once, together."""

    def __init__(self, source: str) -> None:
        self.source = source
        self.path: Path = ()
        self.before: slice | None = None  # where the plain text stands that was cut short
        self.pieces: list[tuple[slice, Place]] = []

    def after(self, path: Path, where: slice | None) -> None:
        """Note an entry and where its value stands, None if it is no plain text; what strays next belongs to it."""
        self.path, self.before = path, where

    def add(self, where: slice, place: Place) -> None:
        self.pieces.append((where, place))

    def told(self, faulty: set[Path]) -> list[Problem]:
        """The problem of the pieces gathered, if any; the text that lost them joins `faulty`."""
        if not self.pieces:
            return []
        (first, place), (last, _) = self.pieces[0], self.pieces[-1]
        rest, before = self._text(first.start, last.stop), self.before
        self.pieces = []
        if before is None or before.start == before.stop:
            message = f"`{rest}` stands inside {{ }} without a colon and a value"
            return [error("stray-entry", message, place, "write `key: value`, or put quotes round a text with commas")]
        faulty.add(self.path)
        cut, whole = self._text(before.start, before.stop), self._text(before.start, last.stop)
        message = f"inside {{ }} the comma after `{cut}` ends the text; `{rest}` begins an entry and has no value"
        mark = "'" if '"' in whole else '"'
        hint = f"put quotes round the whole text: {mark}{whole}{mark}"
        if re.fullmatch(r"[-+]?[0-9]+,[0-9]+.*", whole):
            hint = f"the decimal sign is a point: {whole.replace(',', '.', 1)}"
        return [error("stray-entry", message, place, hint)]

    def _text(self, start: int, stop: int) -> str:
        return " ".join(self.source[start:stop].split())
