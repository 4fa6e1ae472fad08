"""A card's formulas as JSON trees for its page, and texts with marks for what waits for readings."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from procgen.compose.figures import Units
from procgen.compose.scope import CardScope
from procgen.compose.spoken import Bound, Speaker
from procgen.formula import Cell, Spread, State, evaluate
from procgen.formula.fold import Folded
from procgen.formula.tree import cell_json, to_json
from procgen.model.card import Prose, Run, plain
from procgen.model.formula import Compare, Formula
from procgen.units.dimension import Dimension

Json = Any  # what json.dumps takes
_MARK = re.compile("\x02(.*?)\x03")


class Trees:
    """`scope` is an open one. `needs`: the other cards that the trees name; `unknown`: what the family leaves out."""

    def __init__(self, scope: CardScope) -> None:
        self._scope = scope
        self.needs: dict[str, None] = {}
        self.unknown: dict[str, None] = {}
        self._waits: dict[str, bool] = {}

    def waits(self, name: str) -> bool:
        """Whether a reading, or a person, has a say in that name."""
        if name not in self._waits:
            cells = self._scope.whole(name).cells.values()
            self._waits[name] = any(cell.state is State.WANTING for cell in cells)
        return self._waits[name]

    def folded(self, formula: Formula, each: tuple[str, ...]) -> Folded:
        return self._scope.folded(formula.tree, each)

    def written(self, formula: Formula, each: tuple[str, ...]) -> Json:
        return self.inlined(self.folded(formula, each))

    def inlined(self, folded: Folded) -> Json:
        """The tree with its settled parts in place: ["value", cell], or ["cells", axes, [[members, cell], ...]]."""
        return self._with(folded, to_json(folded.tree, folded.steps))

    def named(self, name: str) -> Json:
        """The node of a name, of this card or another."""
        card = self._scope.lexicon.meanings[name].card
        if card is not None and card.id != self._scope.procedure.id:
            self.needs[card.id] = None
            return ["of", card.id, name.partition(".")[2]]
        return ["name", name]

    def dimension(self, tree: Compare, each: tuple[str, ...]) -> Dimension:
        """What the two sides of a comparison are."""
        found = [evaluate(side, self._scope, keep=each).dimension for side in (tree.left, tree.right)]
        return next((dimension for dimension in found if not dimension.is_number), found[0])

    def _with(self, folded: Folded, node: Json) -> Json:
        if not isinstance(node, list):
            return node
        if node[:1] != ["name"]:
            return [self._with(folded, part) for part in node]
        name = node[1]
        return self._settled(folded.settled[name]) if name in folded.settled else self.named(name)

    def _settled(self, spread: Spread) -> Json:
        for cell in spread.cells.values():
            self.unknown.update(dict.fromkeys(sorted(cell.because)))
        if not spread.axes:
            return ["value", _cell(spread.one)]
        return ["cells", spread.axes, [[key, _cell(cell)] for key, cell in spread.cells.items()]]


class Marking(Speaker):
    """Leaves a mark for what waits for readings, or differs from member to member, so that the page can fill it in.

    `marked`: what differs though no reading has a say in it, by member. `needs`: the other cards that are named so.
    """

    def __init__(self, scopes: Mapping[str, CardScope], units: Units) -> None:
        super().__init__(scopes, units)
        self.marked: dict[str, Json] = {}
        self.needs: dict[str, None] = {}

    def fill(self, name: str, bound: Bound | None = None) -> Prose:
        mark = (Run(f"\x02{name}\x03", figure=True),)
        card = self.meaning(name).card
        if any(cell.state is State.WANTING for cell in self.first.whole(name).cells.values()):
            if card is not None and card.id != self.first.procedure.id:
                self.needs[card.id] = None
            return mark
        axes = self.first.axes(self.meaning(name))
        said = [[list(of.values()), plain(super(Marking, self).fill(name, of))] for of in self.first.indices(axes)]
        if len({text for _, text in said}) < 2:
            return super().fill(name, bound)
        self.marked[name] = [axes, said]
        return mark


def parts(text: str) -> Json:
    """A text as it is, or in parts where it has marks: words and [name] by turns."""
    found = _MARK.split(text)
    return found[0] if len(found) == 1 else [[part] if odd % 2 else part for odd, part in enumerate(found) if part]


def _cell(cell: Cell) -> Json:
    written = cell_json(cell)
    return {"state": cell.state.value, "refused": cell.refused.message} if cell.refused is not None else written
