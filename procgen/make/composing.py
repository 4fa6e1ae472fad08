"""What is composed of a family: its deck, and what its pages judge readings by. Known by all that it depends on."""

from __future__ import annotations

from dataclasses import dataclass

from procgen.check.parts import Parts
from procgen.compose import compose_deck, enlivened, lives
from procgen.make.order import Order
from procgen.model.card import Deck


@dataclass(frozen=True, slots=True)
class Composing:
    """Of the families that an order wants."""

    order: Order

    def wants(self, family: str) -> bool:
        order = self.order
        return order.only != "cards" or not order.families or family in order.families

    def has(self, parts: Parts, family: str) -> bool:
        """Whether nothing of it need be composed."""
        live = self.order.only == "cards" or parts.has("live", family)
        return live and parts.has_model("deck", family, *self.order.alone)

    def deck(self, parts: Parts, family: str) -> Deck:
        """Without what its pages judge readings by, which cards need not wait for."""
        shop, alone = parts.context.workshop, self.order.alone
        return parts.model(
            "deck",
            family,
            lambda: compose_deck(shop, shop.families[family], parts.context.benches[family], alone, is_live=False),
            *alone,
        )

    def enlivened(self, parts: Parts, deck: Deck) -> Deck:
        family = deck.family.id
        return enlivened(deck, parts.known("live", family, lambda: lives(deck, parts.context.benches[family])))
