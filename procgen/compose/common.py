"""What the benches of one workshop have in common: its cards' names, and what was worked out from their formulas."""

from __future__ import annotations

from procgen.compose.alike import Alike
from procgen.compose.amend import amended
from procgen.compose.lexicon import Lexicons
from procgen.model.family import Family
from procgen.model.workshop import Workshop
from procgen.trade.derived import Derived, Worked


class Common:
    """Kept for one workshop and handed to each of its benches."""

    def __init__(self, workshop: Workshop) -> None:
        self.lexicons = Lexicons(workshop, workshop.procedures)
        self.alike = Alike()
        self._of_families: dict[str, Lexicons] = {}
        self._derived: dict[str, dict[str, Worked]] = {}

    def lexicons_of(self, family: Family) -> Lexicons:
        """Those of a family's cards, amended as it amends them."""
        if not family.amendments:
            return self.lexicons
        if family.id not in self._of_families:
            procedures = {id: amended(card, family) for id, card in self.lexicons.procedures.items()}
            self._of_families[family.id] = self.lexicons.amended(procedures)
        return self._of_families[family.id]

    def derived(self, derived: Derived, family: Family) -> Worked:
        """A figure worked out from the layout, by member: the same in all variants."""
        found = self._derived.setdefault(family.id, {})
        if derived.name not in found:
            found[derived.name] = derived.work_out(family)
        return found[derived.name]

    def forget(self, family: str) -> None:
        """Let go of what is its own; what it has in common with other families stays."""
        self._of_families.pop(family, None)
        self._derived.pop(family, None)
