"""One card's names with their values, for one family and variant: what `formula.evaluate` asks.

Each name is worked out once for all its members and kept; a formula then picks what it needs.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import cached_property
from itertools import product
from typing import TYPE_CHECKING

from procgen.compose.alike import Results, picked
from procgen.compose.lexicon import Lexicon
from procgen.compose.names import BUILT, LOCAL_AXES, Kind, Meaning
from procgen.compose.readings import Readings
from procgen.formula import NONE, Cell, Spread, State, evaluate, known, unknown, wanting
from procgen.formula.fold import Folded, fold, simplified
from procgen.load.names import FamilyName
from procgen.model.family import Fact
from procgen.model.formula import Compare, Expr, Formula, Function
from procgen.model.job import Taken
from procgen.model.procedure import Decision, Reading, ValueSpec
from procgen.model.workshop import Rule, Trait
from procgen.trade.derived import Derived, Worked
from procgen.trade.registry import FUNCTIONS
from procgen.units.dimension import NUMBER
from procgen.units.quantity import Quantity

if TYPE_CHECKING:
    from procgen.compose.bench import Bench

UNNAMED = ""
"""The one member of something whose members the family does not name yet, so that its blanks still print."""

_ALWAYS = known(True)

Index = tuple[str, ...]
Cells = Mapping[Index, Cell]


class CardScope:
    """The names of one card, for `formula.evaluate`."""

    def __init__(self, bench: Bench, lexicon: Lexicon) -> None:
        self.bench = bench
        self.lexicon = lexicon
        self.procedure = lexicon.procedure
        self._alike = bench.alike
        self._whole: dict[str, Spread] = {}

    @property
    def functions(self) -> Mapping[str, Function]:
        return FUNCTIONS

    def spread(self, name: str, bound: Mapping[str, str]) -> Spread:
        """The name over those of its axes that are not bound."""
        whole = self.whole(name)
        if not bound or not whole.axes:
            return whole
        axes = tuple([axis for axis in whole.axes if axis in bound])
        if not axes:
            return whole
        slice = self._alike.slices(whole, axes).get(tuple([bound[axis] for axis in axes]))
        return self._alike.one(picked(whole, bound)) if slice is None else slice

    def whole(self, name: str) -> Spread:
        """The name over all its axes."""
        found = self._whole.get(name)
        if found is None:
            found = self._whole[name] = self._alike.one(self._settle(name))
        return found

    def agrees(self, other: CardScope) -> bool:
        """Whether the card says the same in another variant, to the letter, of all that was asked of it in this one."""
        for name, spread in self._whole.items():
            if other.whole(name) is not spread:
                return False
            spec = self.lexicon.meanings[name].spec
            if isinstance(spec, FamilyName) and not spec.axes and other.fact(spec, {}) is not self.fact(spec, {}):
                return False  # it may be written otherwise
        return True

    def cell(self, formula: Formula, bound: Mapping[str, str]) -> Cell:
        """A formula for one entry."""
        results = self._alike.results(formula.tree)
        given = self._given(results, bound)
        cell = results.cells.get(given)
        if cell is None:
            readings = self.bench.readings
            doubt = None if readings is None else readings.guard
            cell = results.cells[given] = evaluate(formula.tree, self, bound, doubt=doubt).one
        return cell

    def left(self, tree: Expr, bound: Mapping[str, str]) -> Expr | Cell:
        """What `simplified` leaves of a condition for one entry."""
        results = self._alike.results(tree)
        given = self._given(results, bound)
        left = results.left.get(given)
        if left is None:
            left = results.left[given] = simplified(tree, self, bound)
        return left

    def lefts(self, tree: Expr, each: tuple[str, ...]) -> Sequence[Expr | bool]:
        """What `simplified` leaves to a person of a condition that there is one of for `each`, or whether it holds:
        whatever some member is left with, once.
        """
        results = self._alike.results(tree)
        given = (self._given(results, {}), each, tuple(map(self.members, each)))
        lefts = results.lefts.get(given)
        if lefts is None:
            found = [self.left(tree, bound) for bound in self.indices(each)]
            distinct = [left.holds if isinstance(left, Cell) else left for left in found]
            lefts = results.lefts[given] = tuple({id(left): left for left in distinct}.values())
        return lefts

    def folded(self, tree: Expr, each: tuple[str, ...]) -> Folded:
        """What `fold` makes of a formula that there is one of for `each`."""
        results = self._alike.results(tree)
        given = (self._given(results, {}), each)
        folded = results.folded.get(given)
        if folded is None:
            folded = results.folded[given] = fold(tree, self, keep=each)
        return folded

    def names(self, tree: Expr) -> tuple[str, ...]:
        """The names that a formula uses, as `formula.names` has them."""
        return self._alike.results(tree).names

    def compares(self, tree: Expr) -> Sequence[Compare]:
        """A formula's comparisons."""
        return self._alike.results(tree).compares

    def _given(self, results: Results, bound: Mapping[str, str]) -> Hashable:
        """All that has a say in what a formula comes to for one entry."""
        spreads = [self.spread(name, bound) for name in results.names] if bound else [*map(self.whole, results.names)]
        given = tuple([id(spread) for spread in spreads])
        return (given, *(self.members(axis) for spread in spreads for axis in spread.axes)) if results.picks else given

    def applies(self, when: Formula | None, bound: Mapping[str, str]) -> Cell:
        """Whether something with that `when` is there at all."""
        return _ALWAYS if when is None else self.cell(when, bound)

    def members(self, axis: str) -> Index:
        """The members of an axis, this card's own axes (`depth`, `axis`) among them."""
        if axis == "axis":
            return tuple(member for reading in self._readings_over(axis) for member in reading.axis)
        if axis == "depth":
            return tuple(self.stations)
        return self.bench.members(axis)

    @cached_property
    def stations(self) -> Mapping[str, float | None]:
        """The depths to measure at, mm, by the name they print under; one without a depth while it is not known."""
        for reading in self._readings_over("depth"):
            if reading.at is not None:
                cell = self.cell(reading.at, {})
                if cell.state is State.KNOWN and isinstance(cell.value, tuple):
                    return {f"{depth:g}": depth for depth in cell.value}
        return {UNNAMED: None}

    def indices(self, each: tuple[str, ...], bound: Mapping[str, str] | None = None) -> Iterator[dict[str, str]]:
        """Every combination of members of these axes; the depths of a cylinder are those at which it was read."""
        bound = bound or {}
        if "depth" in each and self.bench.readings is not None:
            yield from self._indices_as_read(each, bound)
            return
        for members in product(*map(self.members, each)):
            yield {**bound, **dict(zip(each, members, strict=True))}

    def _indices_as_read(self, each: tuple[str, ...], bound: Mapping[str, str]) -> Iterator[dict[str, str]]:
        if not each:
            yield dict(bound)
            return
        members, readings = self.members(each[0]), self.bench.readings
        if each[0] == "depth" and readings is not None:
            members = readings.depths(self.procedure.id, tuple(bound.values())) or members
        for member in members:
            yield from self._indices_as_read(each[1:], {**bound, each[0]: member})

    def _readings_over(self, axis: str) -> Iterator[Reading]:
        return (reading for reading in self.procedure.readings.values() if axis in reading.each)

    def _settle(self, name: str) -> Spread:
        meaning = self.lexicon.meanings.get(name)
        if meaning is None:
            raise KeyError(name)
        if meaning.card is not None and meaning.card.id != self.procedure.id:
            prefix, _, rest = name.partition(".")
            return abroad(self.bench.card(meaning.card.id).whole(rest), prefix)
        if meaning.card is None:
            return self.bench.shared(name, lambda: self._spread(name, meaning))
        return self._spread(name, meaning)

    def _spread(self, name: str, meaning: Meaning) -> Spread:
        cells = self._cells(name, meaning)
        found = self.lexicon.type_of(name)
        return Spread(self.axes(meaning), cells, NUMBER if found is None else found.dimension)

    @staticmethod
    def axes(meaning: Meaning) -> tuple[str, ...]:
        """What there is one for each of."""
        match meaning.spec:
            case ValueSpec() | Reading() | Decision():
                return meaning.spec.each
            case Derived():
                return meaning.spec.axes
            case FamilyName():
                return meaning.spec.axes
            case str():
                return (meaning.spec,) if meaning.kind is Kind.AXIS else ()
            case _:
                return ()

    def _cells(self, name: str, meaning: Meaning) -> Cells:
        spec = meaning.spec
        match spec:
            case ValueSpec():
                return self._each(spec, lambda bound: self._value(spec, bound))
            case Reading():
                return self._readings(spec)
            case Decision():
                return self._each(spec, lambda bound: self._taken(spec, bound))
            case Trait():
                return {(): self.bench.trait(spec)}
            case Rule():
                return {(): known(spec.value.value)}
            case Derived():
                values = self.bench.derived(spec)
                if not spec.axes:
                    return {(): worked_out(values, "", name)}
                return {(m,): worked_out(values, m, name) for m in self.bench.members(spec.each)}
            case FamilyName():
                return self._facts(spec)
            case _ if meaning.kind is Kind.COUNT:
                return {(): self.bench.count(spec)}
            case _:
                return {(depth,): maybe(mm, name) for depth, mm in self._depths().items()}

    def _depths(self) -> Mapping[str, float | None]:
        """Every depth that is read or to be read."""
        readings = self.bench.readings
        taken = readings.all_depths(self.procedure.id) if readings is not None else {}
        return {**self.stations, **taken}

    def _readings(self, spec: Reading) -> Cells:
        """What was read; wanting where it was not, or where fewer were taken than the card asks for."""
        readings = self.bench.readings
        if readings is None:
            return self._each(spec, lambda bound: wanting(spec.name))
        cells = dict(self._each(spec, lambda bound: self._read(spec, bound, readings)))
        outer = tuple(axis for axis in spec.each if axis not in LOCAL_AXES)
        for bound in self.indices(outer) if spec.least else ():
            if any(self._fewer(spec, bound, cells, where, least) for where, least in spec.least.items()):
                key = tuple(bound.values()) + ("",) * (len(spec.each) - len(outer))
                cells[key] = wanting(spec.name)  # stands for those that are not there
        return cells

    def _read(self, spec: Reading, bound: Mapping[str, str], readings: Readings) -> Cell:
        key = (self.procedure.id, spec.name, tuple(bound.values()))
        cell, reported = readings.cell(*key), readings.standing(*key)
        slip = reported is not None and self.queried(spec, reported.taken) is not None
        return wanting(spec.name) if cell is None or slip else cell

    def queried(self, spec: Reading, taken: Taken) -> tuple[float, float] | None:
        """Between what the reading should lie, base units, where it lies outside and nobody has confirmed it."""
        if spec.expect is None or not isinstance(taken.value, Quantity) or taken.because:
            return None
        near = self.cell(spec.expect.near, dict(zip(spec.each, taken.index, strict=True)))
        if near.state is not State.KNOWN:
            return None
        low, high = near.number - spec.expect.below.value, near.number + spec.expect.above.value
        return None if low <= taken.value.value <= high else (low, high)

    def _fewer(self, spec: Reading, bound: Mapping[str, str], cells: Cells, where: str, least: int) -> bool:
        """Whether that member was read at fewer depths where `where` holds than `least`."""
        there = picked(self.whole(where), bound)
        mine = picked(Spread(spec.each, cells, NUMBER), bound)
        at = tuple(mine.axes.index(axis) for axis in there.axes)
        depth = mine.axes.index("depth") if "depth" in mine.axes else None
        depths = set()
        for index, cell in mine.cells.items():
            if cell.state is State.KNOWN:
                inside = there.cells.get(tuple(index[place] for place in at))
                if inside is not None and inside.holds:
                    depths.add("" if depth is None else index[depth])
        return len(depths) < least

    def _each(self, spec: ValueSpec | Reading | Decision, work_out: Callable[[Mapping[str, str]], Cell]) -> Cells:
        if spec.when is None:
            return {tuple(bound.values()): work_out(bound) for bound in self.indices(spec.each)}
        cells = {}
        for bound in self.indices(spec.each):
            there = self.applies(spec.when, bound)
            excluded = there.state is State.NONE or there.value is False
            cells[tuple(bound.values())] = NONE if excluded else self._first(spec, there) or work_out(bound)
        return cells

    def _first(self, spec: ValueSpec | Reading | Decision, there: Cell) -> Cell | None:
        """What must be known before anybody can tell whether a reading is to be taken at all."""
        asked = isinstance(spec, Reading) and self.bench.readings is not None
        return there if asked and there.state is State.WANTING else None

    def _value(self, spec: ValueSpec, bound: Mapping[str, str]) -> Cell:
        if spec.formula is not None:
            return self.cell(spec.formula, bound)
        return maybe(None if spec.fixed is None else spec.fixed.value, spec.name)

    def _taken(self, decision: Decision, bound: Mapping[str, str]) -> Cell:
        """The branch taken: the one that a person chose, else the only one still possible (a decision is complete)."""
        readings = self.bench.readings
        chosen = None if readings is None else readings.override(self.procedure.id, decision.name, bound)
        if chosen is not None:
            return known(chosen)
        branches, waits = self.possible(decision, bound)
        if len(branches) == 1:
            return known(branches[0])
        return waits[0] if waits else NONE

    def possible(self, decision: Decision, bound: Mapping[str, str]) -> tuple[tuple[str, ...], tuple[Cell, ...]]:
        """The branches that may still be the first to hold, and what those that cannot be told yet wait for."""
        branches, waits = [], []
        for branch in decision.branches:
            holds = self.applies(branch.when, bound)
            if holds.state in (State.UNKNOWN, State.WANTING, State.CLOSE):
                waits.append(holds)
                branches.append(branch.id)
            elif holds.holds:
                branches.append(branch.id)
                break
        return tuple(branches), tuple(waits)

    def _facts(self, name: FamilyName) -> Cells:
        said = name.name.removeprefix(BUILT)
        return {tuple(bound.values()): stated(self.fact(name, bound), said) for bound in self.indices(name.axes)}

    def fact(self, name: FamilyName, bound: Mapping[str, str]) -> Fact | None:
        """What the family states under that name, of the bound member where it has one for each of something."""
        family = self.bench.family
        if name.name.startswith(BUILT):
            return self.bench.built_fact(name.name.removeprefix(BUILT))
        if not name.axes:
            return family.fact(name.name, self.bench.variant)
        (axis,) = name.axes
        return family.members.get(axis, {}).get(bound[axis], {}).get(name.name.partition(".")[2])


def stated(fact: Fact | None, name: str) -> Cell:
    """A family's figure as a cell; what it leaves out or empty is not yet known."""
    if fact is None or fact.value is None:
        return unknown(name)
    if isinstance(fact.value, tuple):
        return known(tuple(q.value for q in fact.value))
    return known(fact.value.value if isinstance(fact.value, Quantity) else fact.value)


def worked_out(values: Worked, member: str, name: str) -> Cell:
    """A figure from the layout: not yet known where it was left out, none where it does not apply."""
    value = values.get(member)
    return NONE if member in values and value is None else maybe(value, name)


def maybe(value: float | str | None, name: str) -> Cell:
    return unknown(name) if value is None else known(value)


def abroad(spread: Spread, prefix: str) -> Spread:
    """A spread of another card: what it waits for is called as this card calls it."""
    if not any(cell.because for cell in spread.cells.values()):
        return spread

    def named(cell: Cell) -> Cell:
        if cell.state is State.CLOSE:  # which names readings as taken
            return cell
        return replace(cell, because=frozenset(name if "." in name else f"{prefix}.{name}" for name in cell.because))

    return replace(spread, cells={index: named(cell) for index, cell in spread.cells.items()})
