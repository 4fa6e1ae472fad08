"""What reading and checking found before: kept in the cache, and by a process that stays, in its memory."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from typing import Any

from procgen.files.memory import Memory, T, digest
from procgen.make import causes
from procgen.make.cache import Cache

ROOMS = ("units", "files", "model", "formula", "trade", "load", "compose", "check")
"""The parts of procgen that read and check."""


class Kept(Memory):
    """In the cache, under a name that takes in our own code, the schemas, and the libraries that read."""

    def __init__(self, cache: Cache) -> None:
        self._cache = cache
        self._base = digest("found", causes.code(ROOMS), causes.own_resources(), causes.libraries())

    def recall(self, key: str) -> Any:
        return self._cache.get_record(digest(self._base, key))

    def keep(self, key: str, record: Any) -> None:
        self._cache.put_record(digest(self._base, key), record)


class Resident(Memory):
    """Of a process that builds again and again: what the last two builds used, before what the cache has."""

    def __init__(self) -> None:
        self._kept = Memory()
        self._now: dict[Hashable, Any] = {}
        self._before: dict[Hashable, Any] = {}

    def begin(self, kept: Memory) -> Memory:
        """A build begins, over that cache."""
        self._kept, self._before, self._now = kept, self._now, {}
        return self

    def recall(self, key: str) -> Any:
        return self.held(("record", key), lambda: self._kept.recall(key))

    def keep(self, key: str, record: Any) -> None:
        self._now["record", key] = record
        self._kept.keep(key, record)

    def held(self, key: Hashable, make: Callable[[], T]) -> T:
        if key not in self._now:
            self._now[key] = self._before[key] if key in self._before else make()
        found: T = self._now[key]
        return found
