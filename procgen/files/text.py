"""Text that an author wrote, and where each of its characters stands in the file."""

from __future__ import annotations

from procgen.files.problems import Place
from procgen.values import dataclass


@dataclass(frozen=True, slots=True)
class Text:
    """A scalar's value with its place and the source it was read from.

    `raw` is the scalar as it stands in the file (quotes, folds and indentation included), beginning at `place`.
    """

    value: str
    place: Place
    raw: str = ""

    def __str__(self) -> str:
        return self.value

    def at(self, offset: int) -> Place:
        """The place of the character `offset` of `value`.

        Folding and indentation only add or remove white space, so counting the other characters finds it in any style
        of scalar. Escapes in double quotes may put it a few columns off; the line still holds.
        """
        wanted = sum(not c.isspace() for c in self.value[:offset])
        line, column = self.place.line, self.place.column
        raw = self.raw
        start = 0
        if raw.startswith(("'", '"')):
            start, column = 1, column + 1
        elif raw.startswith(("|", ">")):  # a block scalar's header line is not part of its text
            start = raw.find("\n") + 1
            line, column = line + 1, 1
        doubled = False
        for i, character in enumerate(raw[start:], start):
            doubled = raw.startswith("''", i) and raw[:1] == "'" and not doubled
            if not character.isspace() and not doubled:  # '' stands for one quote in a text in single quotes
                if wanted == 0:
                    return Place(self.place.path, line, column)
                wanted -= 1
            line, column = (line + 1, 1) if character == "\n" else (line, column + 1)
        return Place(self.place.path, line, column)
