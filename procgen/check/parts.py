"""A workshop in parts that are checked each by itself, and what was found in them, known by what it depends on.

The deck as written depends on neither families nor jobs; a family on the deck and itself; a job on those and itself.
`describe` alone, words under a family's name, has no say in any check.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import cached_property
from pathlib import Path
from typing import Any

from procgen.check.context import Context
from procgen.files.memory import Memory, digest
from procgen.files.problems import Problem
from procgen.model.job import Job
from procgen.model.ledger import Ledger

Find = Callable[[Context], Sequence[Problem]]


class Parts:
    """`what` names what is looked for; a `find` is called with the part alone, where it is not known yet."""

    def __init__(self, context: Context, memory: Memory) -> None:
        self._context = context
        self._memory = memory
        self._families: dict[str, str] = {}

    def deck(self, what: str, find: Find) -> Sequence[Problem]:
        return self._memory.problems(digest(what, self._deck), lambda: find(self._context.deck()))

    def family(self, what: str, id: str, find: Find) -> Sequence[Problem]:
        return self._memory.problems(digest(what, self._family(id)), lambda: find(self._context.family(id)))

    def job(self, what: str, job: Job, find: Find) -> Sequence[Problem]:
        key = digest(what, self._family(job.family), repr(job))
        return self._memory.problems(key, lambda: find(self._context.job(job.id)))

    def proved(self, id: str, prove: Callable[[Context], list[Any]]) -> list[Any]:
        key = digest("proved", self._family(id))
        found = self._memory.recall(key)
        if found is None:
            found = prove(self._context.family(id))
            self._memory.keep(key, found)
        return list(found)

    @cached_property
    def _deck(self) -> str:
        """All that the workshop has but families, jobs and what was printed; and which cards do not hold together."""
        shop = replace(self._context.workshop, root=Path(), families={}, jobs={}, ledger=Ledger())
        return digest(repr(shop), *sorted(self._context.broken), "and", *sorted(self._context.lost))

    def _family(self, id: str) -> str:
        if id not in self._families:
            family = replace(self._context.workshop.families[id], describe="")
            self._families[id] = digest(self._deck, repr(family))
        return self._families[id]
