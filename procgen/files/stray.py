"""A comma inside { } begins a new entry. Where it was meant as part of a text, the rest of the text strays."""

from __future__ import annotations

from procgen.files.document import Node, Path
from procgen.files.problems import Place, Problem, error


class Strays:
    """Gathers the pieces that commas have cut from one text of a { } map, so that they are told once, together."""

    def __init__(self) -> None:
        self.before: Node | None = None  # the plain text that was cut short
        self.path: Path = ()
        self.pieces: list[tuple[str, Place]] = []

    def after(self, path: Path, node: Node | None) -> None:
        """Note an entry; what strays after it belongs to it. `node` is None where it is no plain text."""
        self.path, self.before = path, node

    def add(self, piece: str, place: Place) -> None:
        self.pieces.append((piece, place))

    def told(self, faulty: set[Path]) -> list[Problem]:
        """The problem of the pieces gathered, if any; the text that lost them joins `faulty`."""
        if not self.pieces:
            return []
        rest, place = ", ".join(piece for piece, _ in self.pieces), self.pieces[0][1]
        self.pieces = []
        if self.before is None or not self.before.raw:
            message = f"`{rest}` stands inside {{ }} without a colon and a value"
            return [error("stray-entry", message, place, "write `key: value`, or put quotes round a text with commas")]
        faulty.add(self.path)
        raw = self.before.raw
        message = f"inside {{ }} the comma after `{raw}` ends the text; `{rest}` begins an entry and has no value"
        quoted = f"{raw}, {rest}"
        mark = "'" if '"' in quoted else '"'
        return [error("stray-entry", message, place, f"put quotes round the whole text: {mark}{quoted}{mark}")]
