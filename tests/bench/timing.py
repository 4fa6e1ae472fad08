"""Whole processes, timed and watched."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from threading import Event, Thread
from time import perf_counter

_LOOK = 0.1  # s, between two looks at the memory


@dataclass(frozen=True)
class Run:
    """Wall seconds; the most memory that the process itself held, and that any process begun by it did, KB (0: none
    seen, or a system without /proc)."""

    seconds: float
    parent: int
    worker: int


def environment(env: Mapping[str, str] | None = None) -> dict[str, str]:
    """Ours and `env`, in which Python keeps bytecode, as every installed program has it."""
    return {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"} | dict(env or {})


def run(words: Sequence[str], env: Mapping[str, str] | None = None) -> Run:
    """Its output is thrown away.

    Raises:
        RuntimeError: where it does not end with 0.
    """
    begun = perf_counter()
    process = subprocess.Popen(words, env=environment(env), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    peaks: dict[int, int] = {}
    over = Event()
    looking = Thread(target=_look, args=(process.pid, peaks, over))
    looking.start()
    process.wait()
    taken = perf_counter() - begun
    over.set()
    looking.join()
    if process.returncode:
        raise RuntimeError(f"{' '.join(words)} ended with {process.returncode}")
    own = peaks.pop(process.pid, 0)
    return Run(taken, own, max(peaks.values(), default=0))


def _look(pid: int, peaks: dict[int, int], over: Event) -> None:
    """Note peaks of a process and of its children until it is over; a peak never falls, so now and then will do."""
    while not over.wait(_LOOK):
        with suppress(OSError, ValueError):
            children = Path(f"/proc/{pid}/task/{pid}/children").read_text().split()
            for one in (pid, *map(int, children)):
                with suppress(OSError, IndexError):  # it has ended, or is about to
                    status = Path(f"/proc/{one}/status").read_text()
                    peaks[one] = int(status.partition("VmHWM:")[2].split()[0])


def free_cores() -> float:
    """How many times as fast two busy loops are side by side as one after the other: near 2 on two free cores."""
    loop = [sys.executable, "-c", "for _ in range(20_000_000): pass"]
    alone = run(loop).seconds + run(loop).seconds
    begun = perf_counter()
    both = [subprocess.Popen(loop) for _ in range(2)]
    for process in both:
        process.wait()
    return alone / (perf_counter() - begun)
