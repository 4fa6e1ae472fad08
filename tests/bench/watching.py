"""An edit while a build is kept resident."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable, Mapping, Sequence
from time import perf_counter

from tests.bench.timing import environment

_EDITS = 3


def edited_while_watched(words: Sequence[str], env: Mapping[str, str], edit: Callable[[], None]) -> float:
    """Seconds from an edit to its having been made; the first build, and the first edit, only warm it up."""
    given = [sys.executable, "-u", "-m", "procgen", *words]
    watch = subprocess.Popen(given, env=environment(env), stderr=subprocess.PIPE, text=True)
    try:
        _made(watch)
        taken = []
        for _ in range(_EDITS):
            begun = perf_counter()
            edit()
            _made(watch)
            taken.append(perf_counter() - begun)
        return min(taken[1:])
    finally:
        watch.terminate()
        watch.wait()


def _made(watch: subprocess.Popen[str]) -> None:
    assert watch.stderr is not None
    for line in watch.stderr:
        if line.startswith("made in"):
            return
    raise RuntimeError("procgen watch ended before it had made anything")
