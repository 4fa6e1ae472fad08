"""`python -m tests.bench`: one table of ratios. Nothing here is a test; nothing here is run by one.

Every round runs each process once, one after the other, so that what else the machine does hits all alike; a ratio is
of two processes of the same round. --peers names a Python with playwright, for the row that wants Chromium.
"""

from __future__ import annotations

import argparse
import os
import platform
import sys
from pathlib import Path
from statistics import median
from tempfile import mkdtemp

from tests.bench.processes import Processes
from tests.bench.timing import free_cores

ROWS = (
    ("full cold make, {small} cards, 2 workers", "cold-2", "naive, PDF alone", "naive", 0.42),
    ("the same", "cold-2", "Chromium, one warm session, tagged", "chromium", 0.75),
    ("the same with 1 worker", "cold-1", "naive", "naive", 0.80),
    ("site alone, {large} cards", "site", "full cold make", "large", 0.05),
    ("cache kept, output gone, {large} cards", "gone", "full cold make", "large", 0.02),
    ("one family of {families} edited, {large} cards", "family", "full cold make", "large", 0.12),
    ("one card edited, new process", "card", "one `weasyprint` command on its HTML", "command", 1.15),
    ("nothing changed, {large} cards", "nothing", "`python -c pass`", "pass", 3.0),
    ("`procgen --help`", "help", "`python -c pass`", "pass", 2.5),
    ("`procgen check`, {large} cards", "check", "full cold make", "large", 0.05),
    ("time a card at {large}", "large per card", "at {small}", "cold-2 per card", 1.05),
    ("largest process at {large}", "large memory", "at {small}", "cold-2 memory", 1.2),
)


def main() -> None:
    words = argparse.ArgumentParser(prog="python -m tests.bench", description=__doc__)
    words.add_argument("--small", type=int, default=100)
    words.add_argument("--large", type=int, default=400)
    words.add_argument("--rounds", type=int, default=5)
    words.add_argument("--peers", default="", metavar="PYTHON")
    words.add_argument("--folder", type=Path)
    given = words.parse_args()
    processes = Processes(given.folder or Path(mkdtemp(prefix="bench-")), given.small, given.large, given.peers)
    print(f"Python {platform.python_version()}, {os.cpu_count()} cores, {given.rounds} rounds", flush=True)
    rounds: list[dict[str, float]] = []
    for number in range(given.rounds):
        cores, load = free_cores(), os.getloadavg()[0]
        rounds.append(processes.round())
        seconds = ", ".join(f"{name} {taken:.3g}" for name, taken in rounds[-1].items())
        print(f"round {number + 1}: cores {cores:.2f} ×, load {load:.1f}; {seconds}", file=sys.stderr, flush=True)
    print("| what | held against | goal | median | least–most | seconds |\n|---|---|---|---|---|---|")
    for what, one, other, base, goal in ROWS:
        found = [each[one] / each[base] for each in rounds if one in each and base in each]
        if found:
            names = [text.format(**processes.sizes) for text in (what, other)]
            seconds = f"{median(each[one] for each in rounds):.3g} / {median(each[base] for each in rounds):.3g}"
            print(f"| {names[0]} | {names[1]} | ≤ {goal} ", end="")
            print(f"| {median(found):.3g} | {min(found):.3g}–{max(found):.3g} | {seconds} |")


if __name__ == "__main__":
    main()
