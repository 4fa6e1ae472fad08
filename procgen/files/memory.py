"""What was found out before, and need not be found out again: handed in from above, by those who can keep things."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence
from hashlib import sha256
from typing import Any, TypeVar

from procgen.files.problems import Problem
from procgen.files.records import from_data, to_data

T = TypeVar("T")


def digest(*parts: bytes | str) -> str:
    """One name for all of it: each part counts with its length, so that no two lists of parts run together."""
    whole = sha256()  # which processors have instructions for
    for part in parts:
        content = part.encode() if isinstance(part, str) else part
        whole.update(f"{len(content)}:".encode())
        whole.update(content)
    return whole.hexdigest()


class Memory:
    """Remembers nothing: all is found out anew. Whoever remembers overrides these.

    A key is a digest of all that a finding depends on, but for our own code and schemas: of those whoever keeps it
    takes care.
    """

    def recall(self, key: str) -> Any:
        """What was kept under that key, made of lists, maps with keys of text, texts and numbers; None if nothing."""
        return None

    def keep(self, key: str, record: Any) -> None:
        """Keep it, where it can be kept."""

    def model(self, key: str, make: Callable[[], T]) -> T:
        """What `make` gives, of dataclasses of the model and plain values; or its equal from before."""
        return make()

    def has(self, key: str) -> bool:
        """Whether anything was kept under that key; asked for it, it may yet turn out to be damaged."""
        return False

    def held(self, key: Hashable, make: Callable[[], T]) -> T:
        """What `make` gives, or the very thing that it gave under that key before, within this process."""
        return make()

    def said(self, thing: T, words: Callable[[T], str] = repr) -> str:
        """A digest of all that a thing says; of one that nobody changes."""
        return self.held(("said", id(thing)), lambda: (digest(words(thing)), thing))[0]  # held, its id stays its own

    def problems(self, key: str, find: Callable[[], Sequence[Problem]]) -> tuple[Problem, ...]:
        """What `find` finds, or what it found before."""
        known = self.recall(key)
        if known is not None:
            return from_data(known)
        found = tuple(find())
        self.keep(key, to_data(found))
        return found


NOTHING = Memory()
