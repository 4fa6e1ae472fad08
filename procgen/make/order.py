"""What is to be made."""

from __future__ import annotations

from collections.abc import Collection
from pathlib import Path
from typing import TYPE_CHECKING

from procgen.files.home import resources
from procgen.make.pool import FEW
from procgen.units.nearest import did_you_mean
from procgen.values import dataclass

if TYPE_CHECKING:
    from procgen.model.workshop import Sheets, Workshop


@dataclass(frozen=True, slots=True)
class Order:
    """Empty `cards` and `families` mean all, `only` "" both site and cards; `stocks` and `theme` the shop's own."""

    root: Path
    out: Path
    cache: Path
    cards: tuple[str, ...] = ()
    families: tuple[str, ...] = ()
    only: str = ""  # or "site", "cards"
    stocks: tuple[str, ...] = ()
    glance: str = ""  # the stock of glance cards; "" for none
    theme: str = ""
    sheets: tuple[str, ...] = ()  # a paper, a way of turning it, or both, instead of the shop's
    workers: int = 1
    shard: tuple[int, int] = (1, 1)  # the k-th of n parts: its cards go into the cache, no output is written

    @property
    def fonts(self) -> Path:
        """The folder of prepared fonts."""
        return self.cache / "fonts"

    @property
    def templates(self) -> tuple[Path, ...]:
        """Folders of templates, the shop's own first."""
        own = self.root / "templates"
        return (own, resources("templates")) if own.is_dir() else (resources("templates"),)

    @property
    def is_shard(self) -> bool:
        return self.shard[1] > 1

    @property
    def alone(self) -> tuple[str, ...]:
        """The cards that are all that is wanted, so that the others need not even be composed; () for no such order."""
        return self.cards if self.only == "cards" else ()

    @property
    def is_partial(self) -> bool:
        """Whether files that are not made anew stay as they are."""
        return bool(self.cards or self.families or self.only == "cards")

    @property
    def prints_many(self) -> bool:
        """Whether more PDFs are to be made than one process would, as far as the order tells."""
        return not (self.alone and 0 < len(self.cards) * len(self.families) < FEW)

    def prints(self, family: str, card: str) -> bool:
        """Whether that card's PDF is to be made."""
        chosen = (not self.families or family in self.families) and (not self.cards or card in self.cards)
        return self.only != "site" and chosen

    def prints_packet(self, family: str) -> bool:
        """Whether the packets of that family's jobs are to be made."""
        return self.only != "site" and not self.cards and (not self.families or family in self.families)


_FEW = 30
PAPERS = ("a4", "letter")
DUPLEX = ("long", "short", "fold")


def sheets_of(order: Order, shops: Sheets) -> Sheets:
    """The sheets that the order asks for; what it leaves open is the shop's own.

    Raises:
        UnknownName: for a word that is neither a paper nor a way of turning it.
    """
    from procgen.model.workshop import Sheets

    for word in order.sheets:
        require("paper or way of turning it", word, (*PAPERS, *DUPLEX))
    paper = next((word for word in order.sheets if word in PAPERS), shops.paper)
    return Sheets(paper, next((word for word in order.sheets if word in DUPLEX), shops.duplex))


class PartFailed(RuntimeError):
    """A part of the site could not be made; the message says which, and why."""


class UnknownName(ValueError):
    """A name in the order that the workshop does not have; the message has the mend."""


def refuse_unknown(order: Order, workshop: Workshop) -> None:
    """Raise UnknownName for a card, family or stock that isn't there."""
    deck = [card for card, _ in workshop.deck]
    for kind, asked, known in (
        ("card", order.cards, deck),
        ("family", order.families, workshop.families),
        ("stock", (*order.stocks, *((order.glance,) if order.glance else ())), workshop.stocks),
    ):
        for name in asked:
            require(kind, name, known)


def require(kind: str, name: str, known: Collection[str]) -> None:
    """Raise UnknownName unless `name` is among the known ones."""
    if name not in known:
        hint = did_you_mean(name, known) or _listed(known)
        raise UnknownName(f"there is no {kind} `{name}`" + (f"; {hint}" if hint else ""))


def _listed(known: Collection[str]) -> str:
    """All of them, where a person can take them in at a glance."""
    return f"known here: {', '.join(known)}" if 0 < len(known) <= _FEW else ""
