"""What a check of a family's layout has to say."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from procgen.files.problems import Place
from procgen.model.family import Family
from procgen.values import dataclass


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that does not fit. `subject`: what it is about, ("passage", "MG"), the first to be pointed at.

    `place`: where exactly it stands in the file, where that is known better than by its subject. `is_doubtful`: it may
    yet be right, and is only warned of.
    """

    code: str
    message: str
    subject: tuple[tuple[str, str], ...]
    hint: str = ""
    place: Place | None = None
    is_doubtful: bool = False


Check = Callable[[Family], Iterator[Finding]]
"""Skips in silence what it cannot tell because a figure is not yet known."""


def mm(length: float, digits: int = 2) -> str:
    """A length for a message."""
    return f"{length:.{digits}f} mm".replace("-", "−")
