"""A build that has nothing to do, told by looking at no more than the age and size of files.

Imports next to nothing: this is asked before anything else, and most builds end here.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Sequence
from time import time_ns

_FRESH = 2_000_000_000
"""ns: a file changed so shortly before it was looked at may change again without looking any different."""


def told(words: Sequence[str], cache: str) -> str | None:
    """What the last sound build by the same words said; None unless everything still is as it was then."""
    path = _path(words, cache)
    try:
        with open(path, encoding="utf-8") as file:
            seal, _, rest = file.read().partition("\n")
    except (OSError, UnicodeDecodeError):
        return None
    if seal != _seal(path, rest):
        return None
    ages, _, said = rest.partition("\n\n")
    for line in ages.split("\n"):
        then, _, name = line.partition(" ")
        if then != age(name):
            return None
    return said


class Watch:
    """What is looked at, before and after a build."""

    def __init__(self, words: Sequence[str], cache: str, inputs: Iterable[str]) -> None:
        self._path = _path(words, cache)
        self._now = time_ns()
        self._inputs = {name: age(name) for name in inputs}

    def settle(self, outputs: Iterable[str], inputs: Iterable[str], said: str) -> None:
        """Note a build that was sound, unless something was being edited."""
        if any(self._is_fresh(then) for then in self._inputs.values()) or list(inputs) != list(self._inputs):
            return
        ages = self._inputs | {name: age(name) for name in outputs}
        rest = "\n".join(f"{then} {name}" for name, then in ages.items()) + "\n\n" + said
        if any("\n" in name for name in ages):
            return
        try:
            os.makedirs(os.path.dirname(self._path), exist_ok=True)
            temporary = f"{self._path}.{os.getpid()}"
            with open(temporary, "w", encoding="utf-8") as file:
                file.write(f"{_seal(self._path, rest)}\n{rest}")
            os.replace(temporary, self._path)
        except OSError:
            return

    def _is_fresh(self, then: str) -> bool:
        return then != "-" and self._now - int(then.partition(",")[0]) < _FRESH


def age(name: str) -> str:
    """Times, size and inode of a file or folder; "-" where it isn't."""
    try:
        found = os.stat(name)
    except OSError:
        return "-"
    return f"{found.st_mtime_ns},{found.st_ctime_ns},{found.st_size},{found.st_ino}"


def _path(words: Sequence[str], cache: str) -> str:
    who = (os.getcwd(), sys.executable, sys.version, __file__, *words)
    return os.path.join(cache, "unchanged", _seal(*who))


def _seal(*parts: str) -> str:
    from hashlib import blake2b

    whole = "\0".join(parts)
    return blake2b(whole.encode("utf-8", "surrogateescape"), digest_size=16).hexdigest()
