"""`python -m tests.bench`: one table of ratios. Nothing here is a test; nothing here is run by one.

Every round runs each process once, one after the other, so that what else the machine does hits all alike; a ratio is
of two processes of the same round. A round begins when two busy loops show that both cores are free.
"""

from __future__ import annotations

import argparse
import compileall
import importlib.util
import os
import platform
import sys
from collections.abc import Sequence
from pathlib import Path
from statistics import median
from tempfile import mkdtemp
from time import perf_counter, sleep
from typing import TextIO

from procgen.make.causes import PACKAGE
from tests.bench.processes import Processes
from tests.bench.rows import ROWS, Row
from tests.bench.timing import free_cores

_FREE = 1.7
_TRIES, _PAUSE = 40, 6.0  # s

Rounds = Sequence[dict[str, float]]


def main() -> None:
    given = _words().parse_args()
    begun = perf_counter()
    peers = {"chromium": given.chromium, "typst": given.typst}
    asked = [row for row in ROWS if not given.rows or row.name in given.rows.split(",")]
    rows = [row for row in asked if not row.needs or peers[row.needs]]
    for row in asked:
        if row not in rows:
            print(f"skipped: {row.name}: no Python that has {row.needs} (--{row.needs})")
    sizes = {"small": given.small, "large": given.large, "huge": given.huge}
    folder = given.folder or Path(mkdtemp(prefix="bench-"))
    compileall.compile_dir(PACKAGE, quiet=1)
    processes = Processes(folder, sizes, given.chromium, given.typst)
    print(f"Python {platform.python_version()}, {os.cpu_count()} cores, {given.rounds} rounds", flush=True)
    rounds: list[dict[str, float]] = []
    for number in range(given.rounds):
        cores = _wait_for_cores(given.anyway)
        wanted = {name for row in rows if not (row.once and number) for name in (row.one, row.base)}
        rounds.append(processes.round(wanted))
        seconds = ", ".join(f"{name} {taken:.3g}" for name, taken in rounds[-1].items())
        print(f"round {number + 1}: cores {cores:.2f} ×; {seconds}", file=sys.stderr, flush=True)
        _table(rows, rounds, processes.sizes, sys.stderr if number + 1 < given.rounds else sys.stdout)
    print(f"\n{(perf_counter() - begun) / 60:.0f} minutes")


def _words() -> argparse.ArgumentParser:
    words = argparse.ArgumentParser(prog="python -m tests.bench", description=__doc__)
    words.add_argument("--rows", default="", metavar="A,B", help=f"of {', '.join(row.name for row in ROWS)}")
    words.add_argument("--rounds", type=int, default=5)
    words.add_argument("--small", type=int, default=100, metavar="CARDS")
    words.add_argument("--large", type=int, default=400, metavar="CARDS")
    words.add_argument("--huge", type=int, default=2000, metavar="CARDS")
    own = sys.executable if importlib.util.find_spec("playwright") else ""
    words.add_argument(
        "--chromium", default=own, metavar="PYTHON", help="one that has playwright; default: this, if so"
    )
    words.add_argument("--typst", default="", metavar="PYTHON", help="one that has Typst 0.15")
    words.add_argument("--folder", type=Path, help="where to work; default: a new one")
    words.add_argument("--anyway", action="store_true", help="measure though the cores are not free: never quote it")
    return words


def _wait_for_cores(anyway: bool) -> float:
    for _ in range(_TRIES):
        cores = free_cores()
        if cores >= _FREE or anyway:
            return cores
        sleep(_PAUSE)
    raise SystemExit(f"two busy loops reach {cores:.2f} times one, not {_FREE}: something else runs here")


def _table(rows: Sequence[Row], rounds: Rounds, sizes: dict[str, int], to: TextIO) -> None:
    head = "| what | held against | goal | median | least–most | medians of the two |\n|---|---|---|---|---|---|"
    print(head, file=to)
    for row in rows:
        ones = [each[row.one] for each in rounds if row.one in each]
        bases = [each[row.base] for each in rounds if row.base in each]
        found = [one / base for one, base in zip(ones, bases, strict=False)]
        if row.once:  # against each of the others
            found = [ones[0] / base for base in bases]
        what, other = row.what.format(**sizes), row.other.format(**sizes)
        spread = f"{median(found):.3g} | {min(found):.3g}–{max(found):.3g} | {median(ones):.3g} / {median(bases):.3g}"
        print(f"| {what} | {other} | ≤ {row.goal} | {spread} |", file=to)


if __name__ == "__main__":
    main()
