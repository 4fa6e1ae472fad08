"""The types of the names that a card may use, for the formulas' checks. No family has a say in them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cached_property

from procgen.compose.names import Kind, Meaning, Names, shared_names
from procgen.formula import Type, infer
from procgen.load.names import FamilyName
from procgen.model.formula import Function
from procgen.model.procedure import Decision, Procedure, Reading, ValueSpec
from procgen.model.workshop import Rule, Trait, Workshop
from procgen.trade.derived import Derived
from procgen.trade.registry import FUNCTIONS
from procgen.units.dimension import LENGTH, NAMES, NUMBER


class Lexicons:
    """A lexicon for each card of a set of procedures (a workshop's, or a family's amended ones)."""

    def __init__(
        self, workshop: Workshop, procedures: Mapping[str, Procedure], shared: Mapping[str, Meaning] | None = None
    ) -> None:
        self.workshop = workshop
        self.procedures = procedures
        self.shared = shared_names(workshop) if shared is None else shared
        self._cards: dict[str, Lexicon] = {}

    def amended(self, procedures: Mapping[str, Procedure]) -> Lexicons:
        """The same for other procedures of the workshop."""
        return Lexicons(self.workshop, procedures, self.shared)

    def card(self, id: str) -> Lexicon:
        if id not in self._cards:
            self._cards[id] = Lexicon(self, self.procedures[id])
        return self._cards[id]


class Lexicon:
    """One card's names with their types: the `Vocabulary` of its formulas."""

    def __init__(self, lexicons: Lexicons, procedure: Procedure) -> None:
        self._lexicons = lexicons
        self.procedure = procedure
        self.meanings = Names(lexicons.shared, procedure, lexicons.procedures)
        self._types: dict[str, Type | None] = {}
        self._open: list[str] = []

    def type_of(self, name: str) -> Type | None:
        meaning = self.meanings.get(name)
        if meaning is None:
            return None
        if name not in self._types:
            self._types[name] = self._infer(name, meaning)
        return self._types[name]

    def names(self) -> Sequence[str]:
        return self._names

    def functions(self) -> Mapping[str, Function]:
        return FUNCTIONS

    def members(self, axis: str) -> tuple[str, ...] | None:
        if axis != "axis":
            return None
        return tuple(member for reading in self.procedure.readings.values() for member in reading.axis) or None

    @cached_property
    def _names(self) -> tuple[str, ...]:
        return tuple(self.meanings)

    def _infer(self, name: str, meaning: Meaning) -> Type | None:
        if meaning.card is not None and meaning.card.id != self.procedure.id:
            return self._lexicons.card(meaning.card.id).type_of(name.partition(".")[2])
        spec = meaning.spec
        match spec:
            case ValueSpec():
                return self._value(name, spec)
            case Reading():
                if spec.choices:
                    return Type("choice", options=tuple(spec.choices), axes=spec.each)
                return Type("number", NAMES.get(spec.dimension, NUMBER), axes=spec.each)
            case Decision():
                return Type("choice", options=tuple(branch.id for branch in spec.branches), axes=spec.each)
            case Trait():
                return Type("choice", options=tuple(spec.values))
            case Rule():
                return Type("number", spec.value.dimension)
            case FamilyName():
                return family_type(spec)
            case Derived():
                return derived_type(spec)
            case _:
                return Type("number", LENGTH, axes=(spec,)) if meaning.kind is Kind.AXIS else Type("number")

    def _value(self, name: str, spec: ValueSpec) -> Type | None:
        if spec.formula is None:
            return Type("number", spec.fixed.dimension, axes=spec.each) if spec.fixed is not None else None
        if name in self._open:  # it needs itself, which is told elsewhere
            return None
        self._open.append(name)
        try:
            found, _ = infer(spec.formula, self, spec.each, None)
        finally:
            self._open.pop()
        return None if found is None else Type(found.kind, found.dimension, found.options, spec.each)


def family_type(name: FamilyName) -> Type:
    """What a family's figure is in a formula; free text can only be shown."""
    match name.kind:
        case "quantity":
            return Type("number", name.dimension or NUMBER, axes=name.axes)
        case "quantities":
            return Type("list", name.dimension or NUMBER, axes=name.axes)
        case _:
            return Type("choice", options=name.words, axes=name.axes)


def derived_type(derived: Derived) -> Type:
    if derived.dimension is None:
        return Type("choice", axes=derived.axes)
    return Type("number", derived.dimension, axes=derived.axes)
