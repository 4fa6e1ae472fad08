"""The pages of a build. They need only the names of what is printed, so they are written while cards are printed."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from procgen.check.functions import told
from procgen.check.guide import guide
from procgen.make.cache import Cache
from procgen.make.order import Order
from procgen.make.printing import Setting, packet_path, print_path
from procgen.values import dataclass

if TYPE_CHECKING:
    from procgen.model.card import Deck
    from procgen.model.ledger import Ledger
    from procgen.model.packet import Packet


@dataclass(frozen=True)
class Pages:
    """`settings`: of all that is printed; pages are made with the first. `folders`: where prints may lie below those of
    a family, from now or before, each with what it is called. `enliven` gives a deck what its pages need to
    judge readings, and `characters` what these are written with: worked out where they are, beside the printing.
    """

    order: Order
    settings: Sequence[Setting]
    folders: Mapping[str, str]
    decks: Sequence[Deck]
    enliven: Callable[[Deck], Deck]
    characters: Callable[[Deck], frozenset[str]]
    packets: Sequence[Packet]
    ledger: Ledger
    cache: Cache
    tree: Path

    def write(self, prints: frozenset[str]) -> dict[str, str]:
        """Digests of what was written, by path; pages link to those prints."""
        from procgen.make.parts import Parts
        from procgen.web.site import Site, build

        setting = self.settings[0]
        workers = self.order.workers if self.order.only == "site" else 1  # else busy with printing
        parts = Parts(setting.fonts, setting.templates, self.cache, self.tree, self.order.out, workers)
        decks = tuple(map(self.enliven, self.decks))
        folders, written = tuple(self.folders.items()), frozenset().union(*map(self.characters, decks))
        site = Site(setting.shop, decks, prints, guide(), self.ledger, self.packets, folders, told(), written)
        build(site, parts.prepared(), parts)
        return parts.written

    def there(self) -> frozenset[str]:
        """The prints that there are."""
        return frozenset(path for path in self._all() if (self.tree / path).exists())

    def expected(self) -> frozenset[str]:
        """The prints that there will be when all is printed; a card that fails stops the build."""
        return self.there() | frozenset(self._printed())

    def _all(self) -> Iterator[str]:
        for deck in self.decks:
            of_family = self.tree / "print" / deck.family.id
            for folder in ("", *(folder for folder in self.folders if (of_family / folder).is_dir())):
                for name in ("deck", "sheets", *(card.id for card in deck.cards)):
                    yield print_path(deck.family.id, folder, name)
        yield from (packet_path(packet.id) for packet in self.packets)

    def _printed(self) -> Iterator[str]:
        for setting in self.settings:
            for deck in self.decks:
                yield from self._of_deck(setting, deck)
        yield from (packet_path(one.id) for one in self.packets if self.order.prints_packet(one.family))

    def _of_deck(self, setting: Setting, deck: Deck) -> Iterator[str]:
        from procgen.paper.glance import views
        from procgen.paper.imposing import grid

        family = deck.family.id
        cards = [card for card in deck.cards if self.order.prints(family, card.id)]
        yield from (setting.path(family, card.id) for card in cards if not setting.glance or views(card))
        if cards and len(cards) == len(deck.cards):
            yield setting.path(family, "deck")
            if not setting.glance and grid(setting.stock, setting.sheets) is not None:
                yield setting.path(family, "sheets")
