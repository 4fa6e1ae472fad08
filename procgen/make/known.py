"""What reading and checking found before: kept in the cache, and by a process that stays, in its memory."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from contextlib import suppress
from pathlib import Path
from typing import Any

from procgen.files.memory import NOTHING, Memory, T, digest
from procgen.files.stored import restore, store
from procgen.make import causes
from procgen.make.cache import Cache

ROOMS = ("units", "files", "model", "formula", "trade", "load", "compose", "check")
"""The parts of procgen that read and check."""

LAST = 4
"""Builds that something may go unused for, as while there is a slip in a file."""


class Kept(Memory):
    """In the cache, under a name that takes in our own code, the schemas, and the libraries that read."""

    def __init__(self, cache: Cache) -> None:
        self._cache = cache
        self._said: dict[int, tuple[str, Any]] = {}
        self._base = digest("found", causes.code(ROOMS), causes.own_resources(), causes.libraries())

    def recall(self, key: str) -> Any:
        return self._cache.get_record(digest(self._base, key))

    def keep(self, key: str, record: Any) -> None:
        self._cache.put_record(digest(self._base, key), record)

    def model(self, key: str, make: Callable[[], T]) -> T:
        name = digest(self._base, key)
        content = self._cache.get(name)
        if content is not None:
            with suppress(Exception):  # something else lies there: as good as nothing
                known: T = restore(content)
                return known
        made = make()
        self._cache.put(name, store(made))
        return made

    def has(self, key: str) -> bool:
        return self._cache.has(digest(self._base, key))

    def said(self, thing: T, words: Callable[[T], str] = repr) -> str:
        """Once in a build, though it is asked for on every hand."""
        if id(thing) not in self._said:
            self._said[id(thing)] = digest(words(thing)), thing  # held, its id stays its own
        return self._said[id(thing)][0]


class Resident(Memory):
    """Of a process that builds again and again: whatever one of the last builds used, and else what the cache has.

    Pickled, it is a memory of nothing: a process that is not forked from this one shares none of it.
    """

    def __init__(self) -> None:
        self._kept = NOTHING
        self._cache: Cache | None = None
        self._held: dict[Hashable, Any] = {}
        self._used: dict[Hashable, int] = {}
        self._turn = 0

    def cache(self, folder: Path) -> Cache:
        """Of a build: what is put there is written at `settle`, once what was built can be seen."""
        self.settle()
        self._cache = Cache(folder, patient=True)
        return self._cache

    def settle(self) -> None:
        if self._cache is not None:
            self._cache.settle()

    def begin(self, kept: Memory) -> Memory:
        """A build begins, over that cache; what none of the last ones used is let go."""
        self._kept = kept
        self._turn += 1
        for key in [key for key, turn in self._used.items() if turn < self._turn - LAST]:
            del self._held[key], self._used[key]
        return self

    def recall(self, key: str) -> Any:
        found = self._held.get(key)
        if found is None:
            found = self._kept.recall(key)
            if found is None:
                return None
            self._held[key] = found
        self._used[key] = self._turn
        return found

    def keep(self, key: str, record: Any) -> None:
        self._held[key], self._used[key] = record, self._turn
        self._kept.keep(key, record)

    def model(self, key: str, make: Callable[[], T]) -> T:
        return self.held(("model", key), lambda: self._kept.model(key, make))

    def has(self, key: str) -> bool:
        return key in self._held or ("model", key) in self._held or self._kept.has(key)

    def held(self, key: Hashable, make: Callable[[], T]) -> T:
        if key not in self._held:
            self._held[key] = make()
        self._used[key] = self._turn
        found: T = self._held[key]
        return found

    def __reduce__(self) -> tuple[type[Memory], tuple[()]]:
        return Memory, ()
