"""A workshop in portions that are checked each by itself, and what was found in them, known by what it depends on.

The deck as written depends on neither families nor jobs; a family on the deck and itself; a job on those and itself.
`describe` alone, words under a family's name, has no say in any check.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence, Set
from dataclasses import fields, replace
from functools import cached_property
from typing import Any

from procgen.check.context import Context
from procgen.files.memory import Memory, T, digest
from procgen.files.problems import Problem
from procgen.model.family import Family
from procgen.model.job import Job

Find = Callable[[Context], Sequence[Problem]]

APART = ("root", "procedures", "families", "jobs", "ledger")
"""Of a workshop: what is asked by itself, or by no check that is kept."""


class Portions:
    """`what` names what is looked for; a `find` is called with the part alone, where it is not known yet."""

    def __init__(self, context: Context, memory: Memory) -> None:
        self.context = context
        self._memory = memory
        self._families: dict[str, str] = {}

    def without(self, files: Set[str]) -> Portions:
        """Those of the workshop without what is in these files."""
        return Portions(self.context.without(files), self._memory)

    def deck(self, what: str, find: Find) -> Sequence[Problem]:
        return self._memory.problems(digest(what, self._deck), lambda: find(self.context.deck()))

    def family(self, what: str, id: str, find: Find) -> Sequence[Problem]:
        return self._memory.problems(digest(what, self._family(id)), lambda: find(self.context.family(id)))

    def job(self, what: str, job: Job, find: Find) -> Sequence[Problem]:
        key = digest(what, self._family(job.family), repr(job))
        return self._memory.problems(key, lambda: find(self.context.job(job.id)))

    def gathered(self, id: str, gather: Callable[[Context], list[Any]]) -> list[Any]:
        return list(self.known(gather.__name__, id, lambda: gather(self.context.family(id))))

    def known(self, what: str, id: str, find: Callable[[], T]) -> T:
        """Anything of a family that its `describe` has no say in, as a Memory can keep it."""
        key = digest(what, self._family(id))
        found = self._memory.recall(key)
        if found is None:
            found = find()
            self._memory.keep(key, found)
        known: T = found
        return known

    def model(self, what: str, id: str, find: Callable[[], T], *words: str) -> T:
        """What of a family depends on its `describe` too, and on further words, made of dataclasses of the model."""
        return self._memory.model(self._named(what, id, words), find)

    def has(self, what: str, id: str) -> bool:
        """Whether it is known."""
        return self._memory.has(digest(what, self._family(id)))

    def has_model(self, what: str, id: str, *words: str) -> bool:
        return self._memory.has(self._named(what, id, words))

    def _named(self, what: str, id: str, words: Sequence[str]) -> str:
        return digest(what, self._family(id), self.context.workshop.families[id].describe, *words)

    @cached_property
    def _deck(self) -> str:
        """All that the workshop has but families, jobs and what was printed; and which cards do not hold together."""
        shop = self.context.workshop
        rest = [getattr(shop, field.name) for field in fields(shop) if field.name not in APART]
        said = map(self._memory.said, (*rest, *shop.procedures.values()))
        return digest(*said, *sorted(self.context.broken), "and", *sorted(self.context.lost))

    def _family(self, id: str) -> str:
        if id not in self._families:
            said = self._memory.said(self.context.workshop.families[id], _but_words)
            self._families[id] = digest(self._deck, said)
        return self._families[id]


def _but_words(family: Family) -> str:
    return repr(replace(family, describe=""))
