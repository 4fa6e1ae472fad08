"""What stands for a name on a card: its title, its figures (one a variant where they differ), its words."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from decimal import Decimal
from functools import cached_property

from procgen.compose import figures
from procgen.compose.figures import Units
from procgen.compose.names import Kind, Meaning
from procgen.compose.scope import CardScope, picked
from procgen.formula import Cell, State
from procgen.formula.words import lowered
from procgen.load.names import FamilyName
from procgen.model.card import Figure, Prose, Run
from procgen.model.formula import Formula, Name
from procgen.model.procedure import Limits, Reading, ValueSpec
from procgen.model.workshop import Rule, Trait
from procgen.trade.derived import Derived
from procgen.units.dimension import ANGLE, CLOCK, LENGTH, NAMES, NUMBER, Dimension
from procgen.units.quantity import Quantity, Show, parse_show
from procgen.units.table import units_of

Bound = Mapping[str, str]
FigureOf = Callable[[CardScope], Figure]
AXIS_WORDS = {
    "cam_bearing": "cam bearing",
    "core_plug": "core plug",
    "drain_plug": "drain plug",
    "main": "main bearing",
}
_COUNTED = Show(Decimal(1), units_of(NUMBER)[-1])


class Speaker:
    """Speaks of one card's names for a family: `scopes` holds one scope a variant, by the variant's name."""

    def __init__(self, scopes: Mapping[str, CardScope], units: Units) -> None:
        self.scopes = scopes
        self.units = units
        self.first = next(iter(scopes.values()))

    def of_card(self, id: str) -> Speaker:
        """The speaker of another card, or this one for its own."""
        if id == self.first.procedure.id:
            return self
        return Speaker({variant: scope.bench.card(id) for variant, scope in self.scopes.items()}, self.units)

    def meaning(self, name: str) -> Meaning:
        meaning = self.first.lexicon.meanings.get(name)
        if meaning is None:
            raise KeyError(name)
        return meaning

    def title(self, name: str) -> str:
        return self.meaning(name).title

    def full_title(self, name: str) -> str:
        """What something that the family does not state yet is called, with what there is one for each of; "" for what
        the card itself works out or reads, which only waits for others.
        """
        meaning = self.first.lexicon.meanings.get(name)
        match meaning:
            case Meaning(kind=Kind.FACT | Kind.DERIVED | Kind.TRAIT | Kind.RULE):
                of = "".join(f"{axis_word(axis)}: " for axis in self.first.axes(meaning))
                return of + lowered(meaning.title)
            case Meaning(kind=Kind.COUNT):
                return f"number of {axis_word(meaning.title)}s"
            case _:
                return ""

    def figures(self, name: str, bound: Bound | None = None, relation: str = "") -> tuple[Figure, ...]:
        """The name's figures: one, or one a variant where the variants differ."""
        return self.by_variant(lambda scope: self._figure(scope, name, bound or {}, relation))

    def by_variant(self, figure: FigureOf) -> tuple[Figure, ...]:
        found = {variant: figure(scope) for variant, scope in self.scopes.items()}
        distinct = list(dict.fromkeys(found.values()))
        if len(distinct) == 1:
            return (distinct[0],)
        return tuple(replace(one, variant=variant) for variant, one in found.items())

    def fill(self, name: str) -> Prose:
        """What stands for {name} in a sentence."""
        said = list(dict.fromkeys(figures.in_line(figure) for figure in self._all_figures(name)))
        return (Run(", ".join(said[:-1]) + (" or " if len(said) > 1 else "") + said[-1], figure=True),)

    def limit(self, limits: Limits, bound: Bound) -> tuple[Figure, ...]:
        """A value's limits as one figure: "≤ 0.05", "≥ 0.03" or "0.03–0.08"."""
        if limits.min is not None and limits.max is not None:
            least, most = (self._limit(f, bound, r) for f, r in ((limits.min, "≥"), (limits.max, "≤")))
            return tuple(_range(low, high) for low, high in zip(least, most, strict=False))
        formula, relation = (limits.min, "≥") if limits.min is not None else (limits.max, "≤")
        assert formula is not None
        return self._limit(formula, bound, relation)

    def constant(self, name: str) -> str | None:
        """The one figure of a name that no reading touches and all members and variants share, for a condition."""
        for scope in self.scopes.values():
            cells = scope.whole(name).cells
            if not cells or any(cell.state is not State.KNOWN for cell in cells.values()):
                return None
        said = {figures.in_line(figure) for figure in self._all_figures(name)}
        return said.pop() if len(said) == 1 else None

    def in_words(self, name: str, cell: Cell) -> str:
        """A cell as it would print under that name, within a sentence."""
        return figures.in_line(self._of_cell(cell, self.meaning(name), ""))

    def _limit(self, formula: Formula, bound: Bound, relation: str) -> tuple[Figure, ...]:
        if isinstance(formula.tree, Name):
            name = formula.tree.name
            axes = self.first.axes(self.meaning(name))
            return self.figures(name, {a: m for a, m in bound.items() if a in axes}, relation)
        return self.by_variant(lambda scope: self._worked_out(scope.cell(formula, bound), None, NUMBER, relation))

    def _all_figures(self, name: str) -> Iterable[Figure]:
        for scope in self.scopes.values():
            for bound in scope.indices(scope.axes(self.meaning(name))):
                figure = self._figure(scope, name, bound, self.side(name))
                yield replace(figure, relation="", variant="" if len(self.scopes) == 1 else figure.variant)

    def side(self, name: str) -> str:
        """Which limit of some value a name is: "≤", "≥", or "" for none."""
        return self._sides.get(name, "")

    @cached_property
    def _sides(self) -> Mapping[str, str]:
        """Of each name that is a limit of some value, which: it rounds inward wherever it prints."""
        found = {}
        for value in self.first.procedure.values.values():
            limits = (value.limits.min, value.limits.max) if value.limits is not None else (None, None)
            for limit, relation in zip(limits, ("≥", "≤"), strict=True):
                if limit is not None and isinstance(limit.tree, Name):
                    found[limit.tree.name] = relation
        return found

    def _figure(self, scope: CardScope, name: str, bound: Bound, relation: str) -> Figure:
        meaning = self.meaning(name)
        if meaning.card is not None and meaning.card.id != scope.procedure.id:
            scope, name = scope.bench.card(meaning.card.id), name.partition(".")[2]
        spec = meaning.spec
        if isinstance(spec, FamilyName):
            fact = scope.fact(spec, bound)
            return self._stated(None if fact is None else fact.value, spec, relation)
        if isinstance(spec, Rule):
            return figures.written(spec.value, self.units, relation)
        if isinstance(spec, ValueSpec) and spec.fixed is not None:
            return figures.written(spec.fixed, self.units, relation)
        cell = picked(scope.whole(name), bound).one
        return self._of_cell(cell, meaning, relation)

    def _of_cell(self, cell: Cell, meaning: Meaning, relation: str) -> Figure:
        match meaning.spec:
            case ValueSpec(show=show):
                return self._worked_out(cell, show, NUMBER, relation)
            case Derived(dimension=None) | Trait():
                words = meaning.spec.values if isinstance(meaning.spec, Trait) else {}
                if cell.state is not State.KNOWN:
                    return Figure("", state="none") if cell.state is State.NONE else figures.blank()
                return Figure(words.get(str(cell.value), str(cell.value)))
            case Derived(show=show):
                return self._worked_out(cell, parse_show(show), NUMBER, relation)
            case Reading(dimension=dimension):
                return self._worked_out(cell, None, NAMES.get(dimension, NUMBER), relation)
            case _:
                return self._worked_out(cell, _COUNTED if meaning.kind is Kind.COUNT else None, NUMBER, relation)

    def _worked_out(self, cell: Cell, show: Show | None, dimension: Dimension, relation: str) -> Figure:
        return figures.computed(cell, show or default_show(dimension), self.units, relation)

    def _stated(self, value: object, name: FamilyName, relation: str) -> Figure:
        if isinstance(value, Quantity):
            return figures.written(value, self.units, relation)
        if isinstance(value, tuple):
            parts = [figures.written(v, self.units) for v in value]
            return Figure(", ".join(p.text for p in parts), parts[0].unit if parts else "", relation)
        if isinstance(value, str):
            return Figure(value)
        unit = "" if name.dimension is None else self.units.of(units_of(name.dimension)[0]).symbol
        return figures.blank(unit, relation)


def axis_word(axis: str) -> str:
    """One member of an axis, as people call it."""
    return AXIS_WORDS.get(axis, axis)


def default_show(dimension: Dimension) -> Show:
    """How a value prints whose author did not say: fine enough for a length that is measured."""
    return _DEFAULT_SHOWS.get(dimension) or Show(Decimal("0.01"), units_of(dimension)[0])


def _range(low: Figure, high: Figure) -> Figure:
    """Two limits as one figure."""
    if low.state != "known" or high.state != "known":
        return replace(low if low.state != "known" else high, relation="")
    also = f"{low.also.rpartition(' ')[0]}–{high.also}" if low.also and high.also else ""
    return replace(high, text=f"{low.text}–{high.text}", relation="", also=also)


_DEFAULT_SHOWS = {LENGTH: parse_show("0.001 mm"), ANGLE: parse_show("1 deg"), CLOCK: parse_show("0:05")}
