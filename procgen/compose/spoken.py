"""What stands for a name on a card: its title, its figures (one a variant where they differ), its words."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace
from decimal import Decimal
from functools import cache, cached_property
from types import MappingProxyType

from procgen.compose import figures
from procgen.compose.figures import Units
from procgen.compose.names import Kind, Meaning
from procgen.compose.prose import prose, sentence_and_rest
from procgen.compose.scope import CardScope
from procgen.formula import Cell, State
from procgen.formula.normal import MIRRORED
from procgen.formula.walk import nodes
from procgen.formula.words import lowered
from procgen.load.names import FamilyName
from procgen.model.card import Figure, Prose, Run, plain
from procgen.model.formula import Compare, Formula, Name
from procgen.model.procedure import Decision, Limits, Reading, ValueSpec
from procgen.model.workshop import Rule, Trait
from procgen.trade.derived import Derived
from procgen.units.dimension import ANGLE, CLOCK, LENGTH, Dimension
from procgen.units.lists import listed
from procgen.units.quantity import Quantity, Show, parse_show
from procgen.units.table import COUNT, usual

Bound = Mapping[str, str]
FigureOf = Callable[[CardScope], Figure]
AXIS_WORDS = {
    "cam_bearing": "cam bearing",
    "core_plug": "core plug",
    "drain_plug": "drain plug",
    "main": "main bearing",
}
_COUNTED = Show(Decimal(1), COUNT)


class Speaker:
    """Speaks of one card's names for a family: `scopes` holds one scope a variant, by the variant's name."""

    def __init__(self, scopes: Mapping[str, CardScope], units: Units) -> None:
        self.scopes = scopes
        self.units = units
        self.first = next(iter(scopes.values()))
        self._constants: dict[str, str | None] = {}

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
        meaning = self.meaning(name)
        return f"Number of {axis_word(meaning.title)}s" if meaning.kind is Kind.COUNT else meaning.title

    def not_yet_known(self, names: Iterable[str]) -> tuple[str, ...]:
        """What these names need and the family does not state yet, in words, each once."""
        found: dict[str, None] = {}
        for name in names:
            for cell in self._unknown(name):
                found.update(dict.fromkeys(sorted(cell.because)))
        return self.unstated(found)

    def is_known(self, name: str) -> bool:
        """Whether the family states all that the name needs, for every variant and member."""
        return next(self._unknown(name), None) is None

    def _unknown(self, name: str) -> Iterator[Cell]:
        cells = (cell for scope in self.scopes.values() for cell in scope.whole(name).cells.values())
        return (cell for cell in cells if cell.state is State.UNKNOWN)

    def unstated(self, names: Iterable[str]) -> tuple[str, ...]:
        """What these are called where the family does not state them yet, each once: "plug (number / thread)" of what
        there is one for each of; titles have commas themselves. Nothing for what the card itself works out or reads,
        which only waits for others.
        """
        found: dict[str, dict[str, None]] = {}
        for name in names:
            meaning = self.first.lexicon.meanings.get(name)
            match meaning:
                case Meaning(kind=Kind.FACT | Kind.DERIVED | Kind.TRAIT | Kind.RULE):
                    of = ", ".join(axis_word(axis) for axis in self.first.axes(meaning))
                    title = lowered(meaning.title)
                    found.setdefault(of or title, {}).update({title: None} if of else {})
                case Meaning(kind=Kind.COUNT):
                    found[lowered(self.title(name))] = {}
        return tuple(f"{of} ({' / '.join(titles)})" if titles else of for of, titles in found.items())

    def figures(self, name: str, bound: Bound | None = None, relation: str = "") -> tuple[Figure, ...]:
        """The name's figures: one, or one a variant where the variants differ."""
        return self.by_variant(lambda scope: self._figure(scope, name, bound or {}, relation))

    def rounded(self, name: str, bound: Bound) -> tuple[Figure, ...]:
        """The same without a relation, for a row whose title says it; a limit's other unit is still rounded inward."""
        return tuple(replace(figure, relation="") for figure in self.figures(name, bound, self.side(name)))

    def by_variant(self, figure: FigureOf) -> tuple[Figure, ...]:
        found = {variant: figure(scope) for variant, scope in self.scopes.items()}
        distinct = list(dict.fromkeys(found.values()))
        if len(distinct) == 1:
            return (distinct[0],)
        return tuple(replace(one, variant=variant) for variant, one in found.items())

    def fill(self, name: str, bound: Bound | None = None) -> Prose:
        """What stands for {name} in a sentence; `bound`: of that member alone, where there is one for each."""
        said = list(dict.fromkeys(figures.in_line(figure) for figure in self._all_figures(name, bound or {}))) or ["–"]
        return (Run(listed(said, "or"), figure=True),)

    def limit(self, name: str, bound: Bound) -> tuple[Figure, ...]:
        """A value's limits as one figure, or one a variant: "≤ 0.05", "≥ 0.03" or "0.03–0.08"."""
        meaning = self.meaning(name)
        assert isinstance(meaning.spec, ValueSpec)
        assert meaning.card is not None
        of_value = self.of_card(meaning.card.id)  # whose names the limits are written in
        show, value = self.show_of(name), meaning.spec
        return of_value.by_variant(lambda scope: of_value._limits(scope, value.limits, bound, show))

    def constant(self, name: str) -> str | None:
        """The one figure of a name that no reading touches and all members and variants share, for a condition."""
        if name not in self._constants:
            self._constants[name] = self._constant(name)
        return self._constants[name]

    def _constant(self, name: str) -> str | None:
        for scope in self.scopes.values():
            cells = scope.whole(name).cells
            if not cells or any(cell.state is not State.KNOWN for cell in cells.values()):
                return None
        said = {figures.in_line(figure) for figure in self._all_figures(name)}
        return said.pop() if len(said) == 1 else None

    def in_words(self, name: str, cell: Cell) -> str:
        """A cell as it would print under that name, within a sentence."""
        return figures.in_line(self._of_cell(cell, name, ""))

    def _limits(self, scope: CardScope, limits: Limits | None, bound: Bound, show: Show) -> Figure:
        sides = () if limits is None else ((limits.min, "≥"), (limits.max, "≤"))
        stated = ((formula, relation) for formula, relation in sides if formula is not None)
        found = [self._limit(scope, formula, bound, relation, show) for formula, relation in stated]
        there = [figure for figure in found if figure.state != "none"] or found[:1]
        return there[0] if len(there) == 1 else figures.between(*there)

    def _limit(self, scope: CardScope, formula: Formula, bound: Bound, relation: str, show: Show) -> Figure:
        if isinstance(formula.tree, Name):
            name = formula.tree.name
            axes = scope.axes(self.meaning(name))
            return self._figure(scope, name, {a: m for a, m in bound.items() if a in axes}, relation)
        return figures.computed(scope.cell(formula, bound), show, self.units, relation)

    def _all_figures(self, name: str, member: Bound = MappingProxyType({})) -> Iterable[Figure]:
        for scope in self.scopes.values():
            for bound in scope.indices(scope.axes(self.meaning(name))):
                if any(bound.get(axis, one) != one for axis, one in member.items()):
                    continue
                figure = self._figure(scope, name, bound, self.side(name))
                yield replace(figure, relation="", variant="" if len(self.scopes) == 1 else figure.variant)

    def side(self, name: str) -> str:
        """Which limit of some value a name is: "≤", "≥", or "" for none."""
        spec = self.meaning(name).spec
        return self._sides.get(name, spec.side if isinstance(spec, Derived) else "")

    @cached_property
    def _sides(self) -> Mapping[str, str]:
        """Of each name that is a limit of some value, or a rule or limit that branches compare with, which: it
        rounds inward wherever it prints. Names that branches compare with from both sides are left out.
        """
        found = self._compared()
        for value in self.first.procedure.values.values():
            limits = (value.limits.min, value.limits.max) if value.limits is not None else (None, None)
            for limit, relation in zip(limits, ("≥", "≤"), strict=True):
                if limit is not None and isinstance(limit.tree, Name):
                    found[limit.tree.name] = relation
        for value in self.first.procedure.values.values():  # what a limit is but another name for
            if value.name in found and value.formula is not None and isinstance(value.formula.tree, Name):
                found.setdefault(value.formula.tree.name, found[value.name])
        return found

    def _compared(self) -> dict[str, str]:
        whens = (branch.when for decision in self.first.procedure.decisions.values() for branch in decision.branches)
        sides: dict[str, set[str]] = {}
        for node in (node for when in whens if when is not None for node in nodes(when.tree)):
            if isinstance(node, Compare):
                for name, operator in ((node.right, node.operator), (node.left, MIRRORED[node.operator])):
                    if isinstance(name, Name) and name.name.startswith(("shop.", "limits.")):
                        sides.setdefault(name.name, set()).add("≤" if operator in (">", "<=") else "≥")
        return {name: one.pop() for name, one in sides.items() if len(one) == 1}

    def _figure(self, scope: CardScope, asked: str, bound: Bound, relation: str) -> Figure:
        meaning, name = self.meaning(asked), asked
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
        cell = scope.spread(name, bound).one
        return self._of_cell(cell, asked, relation)

    def _of_cell(self, cell: Cell, name: str, relation: str) -> Figure:
        if isinstance(cell.value, (str, bool)):
            return Figure(self.word(name, cell.value))
        return figures.computed(cell, self.show_of(name), self.units, relation)

    def word(self, name: str, value: str | bool) -> str:
        """A word that a name may come to, as people see it."""
        spec = self.meaning(name).spec
        match value, spec:
            case bool(), _:
                return "yes" if value else "no"
            case str(), Reading():
                return (spec.choices or spec.axis).get(value, value)
            case str(), Trait():
                return spec.values.get(value, value)
            case str(), Decision():
                return lowered(self._action(name, spec, value))
            case str(), FamilyName(kind="word"):
                return value.replace("_", " ")
            case _:
                return value

    def _action(self, name: str, decision: Decision, id: str) -> str:
        """What a branch does, told with the names of the card that it stands on."""
        then = next((branch.then.value for branch in decision.branches if branch.id == id), id)
        card = self.meaning(name).card
        speaker = self if card is None else self.of_card(card.id)
        return plain(sentence_and_rest(prose(then, speaker.fill))[0]).rstrip(".")

    def show_of(self, name: str) -> Show:
        """The steps in which a name prints."""
        meaning = self.meaning(name)
        match meaning.spec:
            case ValueSpec(show=Show() as show):
                return show
            case Derived(dimension=Dimension(), show=text):
                return _parsed(text)
        found = self.first.lexicon.type_of(name)
        if meaning.kind is Kind.COUNT or found is None or found.kind != "number":
            return _COUNTED
        return default_show(found.dimension)

    def _stated(self, value: object, name: FamilyName, relation: str) -> Figure:
        if isinstance(value, Quantity):
            return figures.written(value, self.units, relation)
        if isinstance(value, tuple):
            parts = [figures.written(v, self.units) for v in value]
            return Figure(", ".join(p.text for p in parts), parts[0].unit if parts else "", relation)
        if isinstance(value, str):
            return Figure(value)
        return figures.blank(COUNT if name.dimension is None else self.units.usual(name.dimension), relation)


def axis_word(axis: str) -> str:
    """One member of an axis, as people call it."""
    return AXIS_WORDS.get(axis, axis)


def default_show(dimension: Dimension) -> Show:
    """How a value prints whose author did not say: fine enough for a length that is measured."""
    return _DEFAULT_SHOWS.get(dimension) or Show(Decimal("0.01"), usual(dimension))


_parsed = cache(parse_show)
_DEFAULT_SHOWS = {LENGTH: parse_show("0.001 mm"), ANGLE: parse_show("1 deg"), CLOCK: parse_show("0:05")}
