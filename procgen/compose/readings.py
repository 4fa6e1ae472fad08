"""A job's readings as cells, and how sure they are.

A gauge's error has two parts: what it gets wrong the same way each time (its setting, the temperature), and what
differs from reading to reading. A difference between two readings of one gauge at one setting carries the second only.
A gauge that states both (`uncertainty`, `difference_uncertainty`) has them told apart; of one that states only the
first nothing is known of how its error divides, and the larger of the two ways to add up is taken.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Collection, Iterator, Mapping

from procgen.formula import Cell, known, reading
from procgen.load.job import WITHIN, depth_of
from procgen.model.job import Index, Job, Session, Taken
from procgen.model.procedure import Procedure
from procgen.model.workshop import Gauge
from procgen.units.quantity import Quantity
from procgen.values import dataclass

Key = tuple[str, str, Index]
"""Card, reading, members."""


@dataclass(frozen=True, slots=True)
class Reported:
    """A reading that stands, with the session it came from and the gauge that took it."""

    taken: Taken
    session: Session
    gauge: Gauge | None


class Readings:
    """What of a job's readings stands.

    What a later session read of a member takes the place of all that was read of it before, at whatever depths: metal
    may have been cut between. Only a session that `continues` another adds to it.
    """

    def __init__(self, job: Job, procedures: Mapping[str, Procedure], guard: float) -> None:
        self.job = job
        self._guard = guard
        self._standing: dict[Key, Reported] = {}
        self._depths: dict[tuple[str, Index], dict[str, float | None]] = {}
        self.earlier: dict[Key, list[Reported]] = defaultdict(list)
        for session in job.sessions:
            if session.card not in procedures:
                continue
            card = procedures[session.card]
            there = [taken for taken in session.taken if taken.value is not None]
            if not session.continues:
                self._put_aside(session.card, {(t.reading, self._members(card, t)) for t in there}, card)
            for taken in there:
                self._take(session, taken, card)
        self._named = {name_of(key): reported for key, reported in self._standing.items()}

    def standing(self, card: str, name: str, index: Index) -> Reported | None:
        return self._standing.get((card, name, index))

    def cell(self, card: str, name: str, index: Index) -> Cell | None:
        """The reading, or None while it is not taken."""
        key = (card, name, index)
        found = self._standing.get(key)
        if found is None:
            return None
        value = found.taken.value
        return reading(value.value, name_of(key)) if isinstance(value, Quantity) else known(value or "")

    def reported(self, name: str) -> Reported:
        """By the name that partials use."""
        return self._named[name]

    def all(self) -> Iterator[Reported]:
        """Every reading that stands."""
        yield from self._standing.values()

    def depths(self, card: str, members: Index) -> tuple[str, ...]:
        """The depths at which anything of that member was read, in the order of the file."""
        return tuple(self._depths.get((card, members), ()))

    def all_depths(self, card: str) -> dict[str, float | None]:
        """Every depth at which something was read for that card, mm, by its text."""
        return {text: mm for (of, _), depths in self._depths.items() if of == card for text, mm in depths.items()}

    def uncertainty(self, cell: Cell, instead: Gauge | None = None) -> float:
        """The expanded uncertainty (k = 2) of a value, base units. Source: JCGM 100, first order; see above.

        `instead`: as if that gauge had taken what others of its kind took.
        """
        own: list[float] = []
        common: dict[tuple[str, str], float] = defaultdict(float)
        undivided: list[float] = []
        for name, partial in cell.partials.items():
            reported = self._named[name]
            gauge = reported.gauge
            if instead is not None and gauge is not None and gauge.kind == instead.kind:
                gauge = instead
            whole = gauge.uncertainty.value if gauge is not None and gauge.uncertainty is not None else 0.0
            if gauge is not None and gauge.difference_uncertainty is not None:
                each = gauge.difference_uncertainty.value / math.sqrt(2)
                own.append(partial * each)
                common[gauge.id, reported.session.id] += partial * math.sqrt(max(whole**2 - each**2, 0.0))
            else:
                undivided.append(partial * whole)
        shared = list(common.values())
        independent = math.hypot(*own, *shared, *undivided)
        together = math.hypot(*own, math.fsum(shared) + math.fsum(undivided))
        return max(independent, together)

    def guard(self, cell: Cell, instead: Gauge | None = None) -> float:
        """The guard band of a difference: how near to its limit it may be and still be called (ISO 14253-1)."""
        return self._guard * self.uncertainty(cell, instead)

    def others(self, cell: Cell) -> Iterator[Gauge]:
        """The gauges that could have taken readings of the cell as well: of the kind, and reaching so far."""
        taken = [self._named[name] for name in cell.partials]
        for gauge in self.job.gauges.values():
            replaced = [one for one in taken if one.gauge is not None and one.gauge.kind == gauge.kind]
            if replaced and gauge.uncertainty is not None and all(map(gauge.reaches, map(_size, replaced))):
                yield gauge

    def override(self, card: str, decision: str, member: Mapping[str, str]) -> str | None:
        """The branch that a person chose, the last one where there are several."""
        chosen = [
            o for o in self.job.overrides if (o.card, o.decision) == (card, decision) and o.member == dict(member)
        ]
        return chosen[-1].branch if chosen else None

    @staticmethod
    def _members(card: Procedure, taken: Taken) -> Index:
        """Whose reading it is, apart from depth and way across."""
        each = card.readings[taken.reading].each
        return tuple(m for m, axis in zip(taken.index, each, strict=True) if axis not in WITHIN)

    def _put_aside(self, card: str, renewed: Collection[tuple[str, Index]], procedure: Procedure) -> None:
        for key, reported in list(self._standing.items()):
            if key[0] == card and (key[1], self._members(procedure, reported.taken)) in renewed:
                self.earlier[key].append(self._standing.pop(key))
                if "depth" in procedure.readings[key[1]].each:
                    self._depths.pop((card, self._members(procedure, reported.taken)), None)

    def _take(self, session: Session, taken: Taken, card: Procedure) -> None:
        key = (session.card, taken.reading, taken.index)
        if key in self._standing:
            self.earlier[key].append(self._standing[key])
        self._standing[key] = Reported(taken, session, self._gauge(session, taken, card))
        each = card.readings[taken.reading].each
        if "depth" in each:
            at = each.index("depth")
            self._depths.setdefault((session.card, taken.index[:at]), {})[taken.index[at]] = depth_of(taken.index[at])

    def _gauge(self, session: Session, taken: Taken, card: Procedure) -> Gauge | None:
        """The gauge named for the reading; else the only one of its kind that the shop has."""
        named = session.gauges.get(taken.reading)
        if named is not None:
            return self.job.gauges.get(named)
        kind = card.readings[taken.reading].gauge
        of_kind = [gauge for gauge in self.job.gauges.values() if kind and gauge.kind == kind]
        return of_kind[0] if len(of_kind) == 1 else None


def _size(reported: Reported) -> float:
    assert isinstance(reported.taken.value, Quantity)
    return reported.taken.value.value


def name_of(key: Key) -> str:
    """The name of one reading in partials and messages: "cylinder-survey/bore A1 12 thrust"."""
    card, name, index = key
    return " ".join([f"{card}/{name}", *index])


def in_words(name: str) -> str:
    """The same for a person: "bore A1 12 thrust"."""
    return name.partition("/")[2].replace("_", " ") or name
