"""What a name in a formula or a text means: one place that types, numbers, titles and problems all ask.

A name is, in this order: one of the card's own values, readings or decisions; a figure that the family states
(`geometry.bore`, `cam_bearing.journal`), or the same of the engine as it is built (`built.geometry.stroke`); a figure
worked out from the layout (`passage.length`); a trait (`cam.shells`); a shop rule (`shop.ridge_hone_max`); a count
(`count.plug`); an axis of the readings (`depth`); or one of these of another card, with the card's id in front
(`cylinder_survey.hone_or_bore`).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from enum import Enum

from procgen.load.names import FamilyName, family_names
from procgen.model.procedure import Decision, Procedure, Reading, ValueSpec
from procgen.model.workshop import Rule, Trait, Workshop
from procgen.trade.derived import DERIVED, Derived
from procgen.values import dataclass


class Kind(Enum):
    VALUE = "value"
    READING = "reading"
    DECISION = "decision"
    FACT = "figure of the family"
    DERIVED = "figure worked out from the layout"
    TRAIT = "trait"
    RULE = "shop rule"
    COUNT = "count"
    AXIS = "axis"


Spec = ValueSpec | Reading | Decision | FamilyName | Derived | Trait | Rule | str


@dataclass(frozen=True, slots=True)
class Meaning:
    """What a name is: its kind, what it was written as, and the card it belongs to (None for what all cards share)."""

    kind: Kind
    spec: Spec
    card: Procedure | None = None

    @property
    def title(self) -> str:
        return self.spec if isinstance(self.spec, str) else self.spec.title


class Names:
    """The names that one card may use."""

    def __init__(
        self, shared: Mapping[str, Meaning], procedure: Procedure, procedures: Mapping[str, Procedure]
    ) -> None:
        self._own = dict(_own_names(procedure))
        self._shared = shared
        self._others = {id.replace("-", "_"): other for id, other in procedures.items() if id != procedure.id}
        self._of_others: dict[str, dict[str, Meaning]] = {}

    def __iter__(self) -> Iterator[str]:
        yield from self._own
        yield from self._shared
        for prefix, other in self._others.items():
            yield from (f"{prefix}.{name}" for name, _ in _own_names(other))

    def __getitem__(self, name: str) -> Meaning:
        meaning = self.get(name)
        if meaning is None:
            raise KeyError(name)
        return meaning

    def get(self, name: str) -> Meaning | None:
        if name in self._own:
            return self._own[name]
        if name in self._shared:
            return self._shared[name]
        prefix, _, rest = name.partition(".")
        if prefix not in self._others:
            return None
        if prefix not in self._of_others:
            self._of_others[prefix] = dict(_own_names(self._others[prefix]))
        return self._of_others[prefix].get(rest)


def _own_names(card: Procedure) -> Iterator[tuple[str, Meaning]]:
    for name, value in card.values.items():
        yield name, Meaning(Kind.VALUE, value, card)
    for name, reading in card.readings.items():
        yield name, Meaning(Kind.READING, reading, card)
        for axis in reading.each:
            if axis in LOCAL_AXES:
                yield axis, Meaning(Kind.AXIS, axis, card)
    for name, decision in card.decisions.items():
        yield name, Meaning(Kind.DECISION, decision, card)


def shared_names(workshop: Workshop) -> Mapping[str, Meaning]:
    """What all cards of a workshop may use; worked out once for all of them."""
    return dict(_shared_names(workshop))


def _shared_names(workshop: Workshop) -> Iterator[tuple[str, Meaning]]:
    axes: set[str] = set()
    for name, fact in family_names().items():
        yield name, Meaning(Kind.FACT, fact)
        axes.update(fact.axes)
        if not fact.axes:
            built = replace(fact, name=f"{BUILT}{name}", title=f"{fact.title}, as built")
            yield built.name, Meaning(Kind.FACT, built)
    for name, derived in DERIVED.items():
        yield name, Meaning(Kind.DERIVED, derived)
    for name, trait in workshop.traits.items():
        yield name, Meaning(Kind.TRAIT, trait)
    for name, rule in workshop.rules.items():
        yield f"shop.{name}", Meaning(Kind.RULE, rule)
    for axis in sorted(axes):
        yield f"count.{axis}", Meaning(Kind.COUNT, axis)


BUILT = "built."
"""Before a family's figure: as the engine goes back together. Without a job the same as the figure itself."""

LOCAL_AXES = ("depth", "axis")
"""Axes whose members come from a reading (its stations, its ways across), not from the family."""
