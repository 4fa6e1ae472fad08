"""The one record for everything that can be wrong, and where it is."""

from __future__ import annotations

from enum import Enum

from procgen.values import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """A spot in a file: path as shown to people (relative to the workshop), line and column counted from 1."""

    path: str
    line: int = 1
    column: int = 1

    def __str__(self) -> str:
        return f"{self.path}:{self.line}:{self.column}"


class Severity(Enum):
    """ERROR stops a build; WARNING does not; NOTE is what is not yet known, or what falls into an `otherwise`."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"


@dataclass(frozen=True, slots=True)
class Related:
    """A second place that explains a problem: "first defined here"."""

    place: Place
    message: str


@dataclass(frozen=True, slots=True)
class Problem:
    """What is wrong (`message`, with what was expected), where, and the mend (`hint`).

    `code` is a lower-case-with-hyphens name, stable between versions; each has its entry in the guide.
    """

    severity: Severity
    code: str
    message: str
    place: Place
    related: tuple[Related, ...] = ()
    hint: str = ""

    @property
    def is_error(self) -> bool:
        return self.severity is Severity.ERROR


def error(code: str, message: str, place: Place, hint: str = "", related: tuple[Related, ...] = ()) -> Problem:
    return Problem(Severity.ERROR, code, message, place, related, hint)


def warning(code: str, message: str, place: Place, hint: str = "", related: tuple[Related, ...] = ()) -> Problem:
    return Problem(Severity.WARNING, code, message, place, related, hint)


def note(code: str, message: str, place: Place, hint: str = "", related: tuple[Related, ...] = ()) -> Problem:
    return Problem(Severity.NOTE, code, message, place, related, hint)
