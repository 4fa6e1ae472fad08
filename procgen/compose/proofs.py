"""The proof of every decision, for each variant of a family and each member; later decisions take what earlier ones
can reach."""

from __future__ import annotations

from collections.abc import Collection, Hashable, Iterable, Iterator, Mapping

from procgen.compose.bench import Bench
from procgen.compose.grounds import DecisionGround
from procgen.compose.scope import CardScope
from procgen.formula import State
from procgen.formula.prove import Case, Proof, prove
from procgen.model.formula import Compare, Name, Not
from procgen.model.procedure import Decision, Reading, ValueSpec
from procgen.values import dataclass


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
        known = self.bench.alike.proofs
        asked = grounds_of(scope, decision)
        impossible += tuple(_crossed(asked))
        whose = (id(decision), *self._meant(scope, asked))
        for member in scope.indices(decision.each):
            there = scope.applies(decision.when, member)
            if there.state is State.NONE or there.value is False:
                continue
            alike = (whose, *(_said(scope, name, member) for name in asked))
            proof = known.get(alike)
            if proof is None:
                proof = known[alike] = prove(cases, DecisionGround(scope, member, self.outcomes), impossible)
            yield Proven(scope.procedure.id, decision, variant, member, proof)

    def _meant(self, scope: CardScope, asked: Iterable[str]) -> Iterator[Hashable]:
        """What the names stand for; of earlier decisions, what these can reach."""
        for name in asked:
            meaning = scope.lexicon.meanings[name]
            yield id(meaning.spec)
            if isinstance(meaning.spec, Decision) and meaning.card is not None:
                yield self.outcomes(scope.bench.card(meaning.card.id), meaning.spec)


def _crossed(asked: Collection[str]) -> Iterator[Compare]:
    """That a least figure is above its most: refused where a family states both, so false of those it leaves empty."""
    for least in asked:
        most = f"{least.removesuffix('_min')}_max"
        if least.endswith("_min") and most in asked:
            yield Compare(">", Name(least, 0), Name(most, 0), 0)


def grounds_of(scope: CardScope, decision: Decision) -> tuple[str, ...]:
    """Every name that a proof of the decision may ask something of: see `DecisionGround`.

    Members, variants and families that agree in all of these share one proof.
    """
    formulas = [branch.when for branch in decision.branches] + [decision.when, *(f for f, _ in decision.impossible)]
    waiting = [formula for formula in formulas if formula is not None]
    found: dict[str, None] = {}
    while waiting:
        for name in scope.bench.alike.results(waiting.pop().tree).names:
            meaning = scope.lexicon.meanings.get(name)
            if name in found or meaning is None:
                continue
            found[name] = None
            if meaning.card is None or meaning.card.id != scope.procedure.id:
                continue  # another card's is free to be anything
            spec = meaning.spec
            inner = [spec.formula] if isinstance(spec, ValueSpec) else []
            inner += [spec.when] if isinstance(spec, (ValueSpec, Reading, Decision)) else []
            waiting += [formula for formula in inner if formula is not None]
    return tuple(found)


def _said(scope: CardScope, name: str, member: Mapping[str, str]) -> Hashable:
    """All that the name says of the member."""
    spread = scope.spread(name, member)
    return id(spread), *map(scope.members, spread.axes)
