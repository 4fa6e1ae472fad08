"""What is composed of a family: its deck, and what its pages judge readings by. Known by all that it depends on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import astuple

from procgen.check.portions import Portions
from procgen.compose import compose_deck, enlivened, lives
from procgen.compose.characters import characters
from procgen.make.order import Order
from procgen.make.printing import Said, said
from procgen.model.card import Deck
from procgen.values import dataclass


@dataclass(frozen=True, slots=True)
class Composing:
    """Of the families that an order wants."""

    order: Order

    def wants(self, family: str) -> bool:
        return self._has_pages or not self.order.families or family in self.order.families

    def has(self, portions: Portions, family: str) -> bool:
        """Whether nothing of it need be composed."""
        if not self.wants(family):
            return True
        has_pages = not self._has_pages or (portions.has("live", family) and portions.has_model("characters", family))
        return has_pages and portions.has_model("deck", family, *self.order.alone)

    def compose(self, portions: Portions, family: str) -> None:
        """All that is wanted of it, so that it is known."""
        if self.wants(family):
            deck = self.deck(portions, family)
            self.said(portions, deck)
            if self._has_pages:
                self.characters(portions, self.enlivened(portions, deck))

    @property
    def _has_pages(self) -> bool:
        return self.order.only != "cards"

    def deck(self, portions: Portions, family: str) -> Deck:
        """Without what its pages judge readings by, which cards need not wait for."""
        shop, alone = portions.context.workshop, self.order.alone
        return portions.model(
            "deck",
            family,
            lambda: compose_deck(shop, shop.families[family], portions.context.benches[family], alone, is_live=False),
            *alone,
        )

    def said(self, portions: Portions, deck: Deck) -> Mapping[str, Said]:
        """What its cards say on paper, by address."""
        made = portions.model(
            "said",
            deck.family.id,
            lambda: {card.address: astuple(said(card)) for card in deck.cards},
            *self.order.alone,
        )
        return {address: Said(*values) for address, values in made.items()}

    def enlivened(self, portions: Portions, deck: Deck) -> Deck:
        family = deck.family.id
        return enlivened(deck, portions.known("live", family, lambda: lives(deck, portions.context.benches[family])))

    def characters(self, portions: Portions, enlivened: Deck) -> frozenset[str]:
        """Those that its pages write."""
        return frozenset(
            portions.model("characters", enlivened.family.id, lambda: "".join(sorted(characters(enlivened))))
        )
