"""A family's bench on which nothing is settled that a reading, or a person, may still change."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import cached_property

from procgen.compose.bench import Bench
from procgen.compose.lexicon import Lexicon
from procgen.compose.names import LOCAL_AXES, Kind, Meaning
from procgen.compose.scope import UNNAMED, CardScope, Cells
from procgen.formula import Cell, Spread, State, wanting
from procgen.model.procedure import Decision, Reading, ValueSpec


class OpenBench(Bench):
    """`card(id)` is a scope for folding: see OpenScope."""

    @cached_property
    def asked(self) -> frozenset[str]:
        """All that readings and persons have a say in, by the names that cells wait for."""
        found = set(LOCAL_AXES)
        for id, card in self.procedures.items():
            own = (*card.readings, *card.values, *card.decisions, *LOCAL_AXES)
            found.update(own, (f"{id.replace('-', '_')}.{name}" for name in own))
        return frozenset(found)

    def card(self, id: str) -> CardScope:
        if id not in self._cards:
            self._cards[id] = OpenScope(self, self.lexicons.card(id))
        return self._cards[id]


class OpenScope(CardScope):
    """Depths may be others than the card's, a decision may be a person's, and what depends on one may not be there.

    What waits for a reading is wanting here also where it waits for the family as well, so that it is never folded.
    """

    def __init__(self, bench: OpenBench, lexicon: Lexicon) -> None:
        super().__init__(bench, lexicon)
        self._asked = bench.asked

    def _settle(self, name: str) -> Spread:
        spread = super()._settle(name)
        waits = [cell.state is State.UNKNOWN and bool(cell.because & self._asked) for cell in spread.cells.values()]
        if not any(waits):
            return spread
        cells = zip(spread.cells.items(), waits, strict=True)
        return replace(spread, cells={key: wanting(name) if waiting else cell for (key, cell), waiting in cells})

    @cached_property
    def stations(self) -> Mapping[str, float | None]:
        return {UNNAMED: None}

    def _cells(self, name: str, meaning: Meaning) -> Cells:
        if meaning.kind is Kind.AXIS:
            return {(UNNAMED,): wanting(name)}
        if isinstance(meaning.spec, Decision):
            return self._each(meaning.spec, lambda bound: wanting(name))
        return super()._cells(name, meaning)

    def _each(self, spec: ValueSpec | Reading | Decision, work_out: Callable[[Mapping[str, str]], Cell]) -> Cells:
        if spec.when is None:
            return super()._each(spec, work_out)
        cells = dict(super()._each(spec, work_out))
        for bound in self.indices(spec.each):
            if self.applies(spec.when, bound).state is State.WANTING:
                cells[tuple(bound.values())] = wanting(spec.name)
        return cells
