"""What hangs on walls: which card was printed in which revision, and what each revision said."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field

from procgen.files.problems import Place
from procgen.values import dataclass


@dataclass(frozen=True, slots=True)
class Print:
    """One card, printed in one revision on one day (`on`, year-month-day, "" where nobody noted it).

    `where` it hangs, and `down`, the day that it was taken off the wall, are written by hand.
    """

    family: str
    card: str
    revision: str
    stock: str
    on: str
    where: str
    down: str
    place: Place

    @property
    def address(self) -> str:
        """As of the Card."""
        return f"{self.family}/{self.card}"

    @property
    def hangs_as(self) -> tuple[str, str, str, str]:
        """A later print of the same takes its place; one on another stock may hang beside it."""
        return self.family, self.card, self.stock, self.where


@dataclass(frozen=True, slots=True)
class Said:
    """What one revision of a card said: the dump that its code was made from."""

    family: str
    card: str
    revision: str
    text: str
    place: Place

    @property
    def address(self) -> str:
        return f"{self.family}/{self.card}"


@dataclass(frozen=True, slots=True)
class Ledger:
    """`prints` in the order in which they were noted; `texts` by address and revision."""

    prints: tuple[Print, ...] = ()
    texts: Mapping[tuple[str, str], Said] = field(default_factory=dict)
