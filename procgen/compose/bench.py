"""Where formulas find their numbers: one family in one variant, with every card's values."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from procgen.compose.alike import Alike
from procgen.compose.common import Common
from procgen.compose.readings import Readings
from procgen.compose.scope import UNNAMED, CardScope, Index
from procgen.formula import Cell, Spread, known, unknown
from procgen.model.family import Fact, Family, Variant
from procgen.model.scene import Scene
from procgen.model.workshop import Trait, Workshop
from procgen.trade.derived import Derived, Worked
from procgen.trade.traits import CONCLUSIONS


class Bench:
    """One family in one variant; `built`: the figures in which it goes back together otherwise than the family says.

    `card(id)` is the scope in which that card's formulas are evaluated. `common`: what it shares with other benches of
    the workshop, so that nothing is worked out twice.
    """

    def __init__(
        self,
        workshop: Workshop,
        family: Family,
        variant: Variant | None,
        readings: Readings | None = None,
        built: Mapping[str, Fact] | None = None,
        common: Common | None = None,
    ) -> None:
        self.workshop = workshop
        self.family = family
        self.variant = variant
        self.readings = readings
        self._built = built
        self.common = Common(workshop) if common is None else common
        self.alike = self.common.alike if readings is None else Alike()  # readings come with doubts of their own
        self.lexicons = self.common.lexicons_of(family)
        self.procedures = self.lexicons.procedures
        self._cards: dict[str, CardScope] = {}
        self._shared: dict[str, Spread] = {}
        self.drawn: dict[tuple[str, ...], tuple[Scene, ...]] = {}  # by view, and the variants that are drawn with this
        self._traits: dict[str, Cell] = {}

    def card(self, id: str) -> CardScope:
        if id not in self._cards:
            self._cards[id] = CardScope(self, self.lexicons.card(id))
        return self._cards[id]

    def shared(self, name: str, settle: Callable[[], Spread]) -> Spread:
        """The spread of a name that means the same on all cards."""
        if name not in self._shared:
            self._shared[name] = settle()
        return self._shared[name]

    def members(self, axis: str) -> Index:
        """The names of what the family has several of; (UNNAMED,) while it does not name them."""
        named = self.family.members.get(axis)
        return (UNNAMED,) if named is None else tuple(named)

    def built_fact(self, name: str) -> Fact | None:
        """A figure of the engine as it goes back together; as it was found where nobody says otherwise."""
        if self._built is None:
            return self.family.fact(name, self.variant)
        return self._built.get(name) or self.family.facts.get(name)

    def count(self, axis: str) -> Cell:
        if axis == "cylinder" and self.family.layout.cylinders is not None:
            return known(float(self.family.layout.cylinders))
        named = self.family.members.get(axis)
        return unknown(f"count.{axis}") if named is None else known(float(len(named)))

    def trait(self, trait: Trait) -> Cell:
        if trait.id not in self._traits:
            self._traits[trait.id] = self._settle(trait)
        return self._traits[trait.id]

    def derived(self, derived: Derived) -> Worked:
        """A figure worked out from the layout, by member."""
        return self.common.derived(derived, self.family)

    def _settle(self, trait: Trait) -> Cell:
        if trait.concluded_by:
            word, _ = CONCLUSIONS[trait.concluded_by](self.family)
        else:
            word = self.family.traits[trait.id][0] if trait.id in self.family.traits else None
        return unknown(trait.id) if word is None else known(word)


def variant_of(family: Family, id: str) -> Variant | None:
    """The variant of that id; the only one there is, where none is named; else None."""
    found = [variant for variant in family.variants if not id or variant.id == id]
    return found[0] if len(found) == 1 else None
