"""Whole processes, timed."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Mapping, Sequence
from time import perf_counter


def run(words: Sequence[str], env: Mapping[str, str] | None = None, cwd: str | None = None) -> tuple[float, int]:
    """Wall seconds, and the most memory that any process of it held, KB. Its output is thrown away.

    Raises:
        RuntimeError: where it does not end with 0.
    """
    begun = perf_counter()
    process = subprocess.Popen(
        words, env={**os.environ, **(env or {})}, cwd=cwd, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    )
    _, status, used = os.wait4(process.pid, 0)
    taken = perf_counter() - begun
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode:
        raise RuntimeError(f"{' '.join(words)} ended with {process.returncode}")
    return taken, used.ru_maxrss


def free_cores() -> float:
    """How many times as fast two busy loops are side by side as one after the other: near 2 on two free cores."""
    loop = [sys.executable, "-c", "for _ in range(20_000_000): pass"]
    alone = run(loop)[0] + run(loop)[0]
    begun = perf_counter()
    both = [subprocess.Popen(loop) for _ in range(2)]
    for process in both:
        process.wait()
    return alone / (perf_counter() - begun)
