"""What is to be made."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from pathlib import Path

from procgen.model.workshop import Workshop
from procgen.units.nearest import did_you_mean


@dataclass(frozen=True, slots=True)
class Order:
    """Empty `cards` and `families` mean all, `only` "" both site and cards, `stock` and `theme` "" the shop's own."""

    root: Path
    out: Path
    cache: Path
    cards: tuple[str, ...] = ()
    families: tuple[str, ...] = ()
    only: str = ""  # or "site", "cards"
    stock: str = ""
    theme: str = ""
    workers: int = 1

    @property
    def is_partial(self) -> bool:
        """Whether files that are not made anew stay as they are."""
        return bool(self.cards or self.families or self.only == "cards")

    def prints(self, family: str, card: str) -> bool:
        """Whether that card's PDF is to be made."""
        chosen = (not self.families or family in self.families) and (not self.cards or card in self.cards)
        return self.only != "site" and chosen


class UnknownName(ValueError):
    """A name in the order that the workshop does not have; the message has the mend."""


def refuse_unknown(order: Order, workshop: Workshop) -> None:
    """Raise UnknownName for a card, family or stock that isn't there."""
    deck = [card for card, _ in workshop.deck]
    for kind, asked, known in (
        ("card", order.cards, deck),
        ("family", order.families, workshop.families),
        ("stock", (order.stock,) if order.stock else (), workshop.stocks),
    ):
        for name in asked:
            require(kind, name, known)


def require(kind: str, name: str, known: Collection[str]) -> None:
    """Raise UnknownName unless `name` is among the known ones."""
    if name not in known:
        hint = did_you_mean(name, known)
        raise UnknownName(f"there is no {kind} `{name}`" + (f"; {hint}" if hint else ""))
