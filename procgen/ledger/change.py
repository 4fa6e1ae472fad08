"""One change of what a card says."""

from __future__ import annotations

import re

from procgen.values import dataclass

AS_PRINTED = "as printed"
"""What was, where only a picture or an order would show it."""
LONG = 90
_NUMBER = re.compile(r"\d+(?:[.,/:]\d+)*")
_FIGURE = re.compile(r"((?:[<>≤≥] )?)(\d\S*) (\S+)")


@dataclass(frozen=True, slots=True)
class Change:
    """`what` changed, and how it read before and after; "" for what was not there. Alike on two cards, it is one.

    `kind`: deck, family, title, reason, bring, caution, step, right, because, order, value, table, reading, decision,
    branch (of one), limit (that branches judge by), conclusion, drawing, hold, record, unknown, other.
    """

    kind: str
    what: str
    was: str
    now: str

    @property
    def said(self) -> str:
        """One line: "Out-of-round, most: 0.05 → 0.06 mm"."""
        if self.was == AS_PRINTED:
            return f"{self.what}: {self.now}"
        if self.was and self.now:
            return f"{self.what}: {' → '.join(_shared_unit(self.was, self.now))}"
        return f"{self.what}, new: {self.now}" if self.now else f"{self.what}, gone: {self.was}"

    @property
    def is_long(self) -> bool:
        """Whether before and after are better read on lines of their own."""
        return bool(self.was and self.now) and self.was != AS_PRINTED and len(self.said) > LONG

    @property
    def figures(self) -> frozenset[tuple[str, str]]:
        """The numbers that took each other's place, where nothing but numbers differs; else nothing."""
        if _NUMBER.sub("#", self.was) != _NUMBER.sub("#", self.now):
            return frozenset()
        pairs = zip(_NUMBER.findall(self.was), _NUMBER.findall(self.now), strict=True)
        return frozenset((was, now) for was, now in pairs if was != now)


def _shared_unit(was: str, now: str) -> tuple[str, str]:
    """The unit once, and what stands before both figures too: "≤ 0.05", "0.06 mm"."""
    one, other = _FIGURE.fullmatch(was), _FIGURE.fullmatch(now)
    if one and other and (one[1], one[3]) == (other[1], other[3]):
        return f"{one[1]}{one[2]}", f"{other[2]} {other[3]}"
    return was, now
