"""The proof of every decision, for each variant of a family and each member; later decisions take what earlier ones
can reach."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from procgen.compose.bench import Bench
from procgen.compose.grounds import DecisionGround
from procgen.compose.scope import CardScope, picked
from procgen.formula import State, names
from procgen.formula.prove import Case, Proof, prove
from procgen.model.formula import Not
from procgen.model.procedure import Decision, ValueSpec


@dataclass(frozen=True, slots=True)
class Proven:
    """One proof, and for whom it was made."""

    card: str
    decision: Decision
    variant: str
    member: Mapping[str, str]
    proof: Proof


class Proofs:
    """The proofs of one family in one variant, each made once."""

    def __init__(self, bench: Bench) -> None:
        self.bench = bench
        self._made: dict[tuple[str, str], tuple[Proven, ...]] = {}

    def of_card(self, card: str) -> Iterator[Proven]:
        scope = self.bench.card(card)
        for decision in scope.procedure.decisions.values():
            yield from self.of(scope, decision)

    def of(self, scope: CardScope, decision: Decision) -> tuple[Proven, ...]:
        key = (scope.procedure.id, decision.name)
        if key not in self._made:
            self._made[key] = tuple(self._prove(scope, decision))
        return self._made[key]

    def outcomes(self, scope: CardScope, decision: Decision) -> tuple[str, ...]:
        """The branches that some reading of some member reaches, in the order of the table."""
        taken = {id for proven in self.of(scope, decision) for id in proven.proof.taken}
        return tuple(branch.id for branch in decision.branches if branch.id in taken)

    def _prove(self, scope: CardScope, decision: Decision) -> Iterator[Proven]:
        variant = self.bench.variant.id if self.bench.variant is not None else ""
        cases = tuple(Case(b.id, None if b.when is None else b.when.tree) for b in decision.branches)
        impossible = tuple(formula.tree for formula, _ in decision.impossible)
        if decision.when is not None:  # whoever stands before the decision has met its own condition
            impossible += (Not(decision.when.tree, decision.when.tree.at),)
        asked = sorted(_asked(scope, decision))
        made: dict[tuple[object, ...], Proof] = {}
        for member in scope.indices(decision.each):
            there = scope.applies(decision.when, member)
            if there.state is State.NONE or there.value is False:
                continue
            alike = tuple(_said(scope, name, member) for name in asked)
            if alike not in made:
                made[alike] = prove(cases, DecisionGround(scope, member, self.outcomes), impossible)
            yield Proven(scope.procedure.id, decision, variant, member, made[alike])


def _asked(scope: CardScope, decision: Decision) -> set[str]:
    """Every name that has a say in the decision and that there is one of for each of its members.

    Members that agree in all of these share one proof.
    """
    formulas = [branch.when for branch in decision.branches] + [decision.when, *(f for f, _ in decision.impossible)]
    waiting = [name for formula in formulas if formula is not None for name in names(formula.tree)]
    found: set[str] = set()
    while waiting:
        name = waiting.pop()
        meaning = scope.lexicon.meanings.get(name)
        if name in found or meaning is None:
            continue
        found.add(name)
        if isinstance(meaning.spec, ValueSpec):
            inner = (meaning.spec.formula, meaning.spec.when)
            prefix = "" if meaning.card is scope.procedure else name.rpartition(".")[0] + "."
            waiting += [_of_card(prefix, used, scope) for f in inner if f is not None for used in names(f.tree)]
    return {name for name in found if set(decision.each) & set(scope.axes(scope.lexicon.meanings[name]))}


def _said(scope: CardScope, name: str, member: Mapping[str, str]) -> tuple[object, ...]:
    """All that the name says of the member."""
    cells = picked(scope.whole(name), member).cells
    return tuple((key, cell.state, cell.value, cell.because) for key, cell in cells.items())


def _of_card(prefix: str, name: str, scope: CardScope) -> str:
    """A name of another card's formula as this card calls it."""
    own = f"{prefix}{name}"
    return own if prefix and scope.lexicon.meanings.get(own) is not None else name
