"""Spreads that say the same, as one object, and what was worked out from them, once.

Members, variants and families of a workshop mostly agree in what a formula asks. What it comes to follows from itself
and the spreads of its names alone: once equal spreads are one object, it is known by which these are.
"""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from functools import cached_property

from procgen.formula import Cell, Spread, names, nodes
from procgen.formula.fold import Folded
from procgen.formula.prove import Proof
from procgen.model.formula import Compare, Expr, Pick

Index = tuple[str, ...]


class Results:
    """What was worked out from one formula's tree, by the spreads that its names had."""

    def __init__(self, tree: Expr) -> None:
        self.tree = tree  # held, so that its id stays its own
        self.names = names(tree)
        self.picks = any(isinstance(node, Pick) for node in nodes(tree))  # and asks for members of axes, then
        self.cells: dict[Hashable, Cell] = {}
        self.left: dict[Hashable, Expr | Cell] = {}
        self.lefts: dict[Hashable, Sequence[Expr | bool]] = {}
        self.folded: dict[Hashable, Folded] = {}

    @cached_property
    def compares(self) -> Sequence[Compare]:
        """Its comparisons, in the order in which they are written."""
        return [node for node in nodes(self.tree) if isinstance(node, Compare)]


class Alike:
    """Of one workshop, for as long as its benches are in use."""

    def __init__(self) -> None:
        self._spreads: dict[Hashable, Spread] = {}
        self._slices: dict[tuple[int, Index], Mapping[Index, Spread]] = {}
        self._results: dict[int, Results] = {}
        self.proofs: dict[Hashable, Proof] = {}  # by the decision, and what its names stand for and say

    def one(self, spread: Spread) -> Spread:
        """The one that says the same: it stays for good, and with it its id."""
        cells = tuple([(index, *_said(cell)) for index, cell in spread.cells.items()])
        return self._spreads.setdefault((spread.axes, spread.dimension, cells), spread)

    def slices(self, spread: Spread, axes: Index) -> Mapping[Index, Spread]:
        """What `spread`, which is one of these, says of each member of `axes`."""
        key = (id(spread), axes)
        found = self._slices.get(key)
        if found is None:
            found = self._slices[key] = {m: self.one(part) for m, part in sliced(spread, axes).items()}
        return found

    def results(self, tree: Expr) -> Results:
        found = self._results.get(id(tree))
        if found is None:
            found = self._results[id(tree)] = Results(tree)
        return found


def _said(cell: Cell) -> tuple[object, ...]:
    """All of a cell: 1.0, True and "1" are not the same, nor are 0.0 and -0.0."""
    value = cell.value
    exact: Hashable = value if value and not isinstance(value, tuple) else repr(value)
    return cell.state, type(value), exact, cell.because, cell.refused, tuple(cell.partials.items())


def sliced(spread: Spread, axes: Index) -> Mapping[Index, Spread]:
    """What `picked` gives for each of the members of some of its axes."""
    fixed = [spread.axes.index(axis) for axis in axes]
    kept = [place for place, axis in enumerate(spread.axes) if axis not in axes]
    cells: dict[Index, dict[Index, Cell]] = {}
    for index, cell in spread.cells.items():
        key = tuple([index[place] for place in fixed])
        cells.setdefault(key, {})[tuple([index[place] for place in kept])] = cell
    free = tuple(spread.axes[place] for place in kept)
    return {key: Spread(free, part, spread.dimension) for key, part in cells.items()}


def picked(spread: Spread, bound: Mapping[str, str]) -> Spread:
    """The part of a spread that lies on the bound members, over the axes that are left."""
    free = tuple(axis for axis in spread.axes if axis not in bound)
    if free == spread.axes:
        return spread
    if not free:  # by far the most asked for
        key = tuple(bound[axis] for axis in spread.axes)
        return Spread((), {(): spread.cells[key]} if key in spread.cells else {}, spread.dimension)
    fixed = [(place, bound[axis]) for place, axis in enumerate(spread.axes) if axis in bound]
    kept = [place for place, axis in enumerate(spread.axes) if axis not in bound]
    cells = {
        tuple([index[place] for place in kept]): cell
        for index, cell in spread.cells.items()
        if all(index[place] == member for place, member in fixed)
    }
    return Spread(free, cells, spread.dimension)
