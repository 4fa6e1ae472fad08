"""What a proof may ask about one decision, for one family, variant and member."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from procgen.compose.names import Kind
from procgen.compose.scope import CardScope
from procgen.formula import State, evaluate
from procgen.formula.prove import Constant
from procgen.load.names import FamilyName
from procgen.model.formula import Call, Expr
from procgen.model.procedure import Decision, Reading, ValueSpec
from procgen.model.workshop import Trait

Outcomes = Callable[[CardScope, Decision], tuple[str, ...]]
_GIVEN = (Kind.FACT, Kind.DERIVED, Kind.TRAIT, Kind.RULE, Kind.COUNT)


class DecisionGround:
    """A `prove.Ground`. `outcomes` gives what an earlier decision can reach."""

    def __init__(self, scope: CardScope, bound: Mapping[str, str], outcomes: Outcomes) -> None:
        self.scope, self.bound, self.outcomes = scope, bound, outcomes

    def applies(self, name: str) -> bool:
        cells = self.scope.spread(name, self.bound).cells.values()
        return not cells or any(cell.state is not State.NONE for cell in cells)

    def when(self, name: str) -> Expr | None:
        spec = self._spec(name)
        if self._foreign(name) or not isinstance(spec, (ValueSpec, Reading, Decision)) or spec.when is None:
            return None
        return None if self.scope.applies(spec.when, self.bound).state is State.KNOWN else spec.when.tree

    def constant(self, name: str) -> Constant | None:
        values = {
            cell.value if cell.state is State.KNOWN else None
            for cell in self.scope.spread(name, self.bound).cells.values()
        }
        value = values.pop() if len(values) == 1 else None
        return None if isinstance(value, bool) else value

    def call(self, call: Call) -> Constant | None:
        cell = evaluate(call, self.scope, self.bound).one
        return None if cell.state is not State.KNOWN or isinstance(cell.value, bool) else cell.value

    def definition(self, name: str) -> Expr | None:
        spec = self._spec(name)
        if self._foreign(name) or not isinstance(spec, ValueSpec) or spec.formula is None:
            return None
        return spec.formula.tree

    def unknown(self, name: str) -> bool:
        meaning = self.scope.lexicon.meanings.get(name)
        if meaning is None or meaning.kind not in _GIVEN:
            return False
        cells = self.scope.spread(name, self.bound).cells.values()
        return any(cell.state is State.UNKNOWN for cell in cells)

    def options(self, name: str) -> tuple[str, ...] | None:
        spec = self._spec(name)
        match spec:
            case Reading():
                return tuple(spec.choices) or None
            case Trait():
                return tuple(spec.values)
            case FamilyName():
                return spec.words or None
            case Decision():
                meaning = self.scope.lexicon.meanings.get(name)
                assert meaning is not None
                assert meaning.card is not None
                return self.outcomes(self.scope.bench.card(meaning.card.id), spec)
            case _:
                return None

    def spread(self, name: str) -> bool:
        meaning = self.scope.lexicon.meanings.get(name)
        return meaning is not None and any(axis not in self.bound for axis in self.scope.axes(meaning))

    def bounds(self, name: str) -> tuple[float | None, float | None]:
        meaning = self.scope.lexicon.meanings.get(name)
        measured = isinstance(self._spec(name), Reading)
        if meaning is None or not (measured or meaning.kind is Kind.COUNT):
            return (None, None)
        found = self.scope.lexicon.type_of(name)
        return (None, None) if found is None or found.dimension.point else (0.0, None)

    def whole(self, name: str) -> bool:
        meaning = self.scope.lexicon.meanings.get(name)
        if meaning is None:
            return False
        spec = meaning.spec
        counted = isinstance(spec, Reading) and not spec.choices and spec.dimension == "number" and not spec.gauge
        return counted or meaning.kind is Kind.COUNT

    def _foreign(self, name: str) -> bool:
        """Whether it is another card's: its formulas mean that card's names, so here it is free to be anything."""
        meaning = self.scope.lexicon.meanings.get(name)
        return meaning is not None and meaning.card is not None and meaning.card.id != self.scope.procedure.id

    def _spec(self, name: str) -> object:
        meaning = self.scope.lexicon.meanings.get(name)
        return None if meaning is None else meaning.spec
