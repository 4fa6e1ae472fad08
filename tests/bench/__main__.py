"""`python -m tests.bench`: one table of ratios. Nothing here is a test; nothing here is run by one.

--peers PYTHON names a Python with playwright, for the row that wants it. Rows can be chosen by name.
"""

from __future__ import annotations

import argparse
import os
import platform
import shutil
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from tempfile import mkdtemp
from time import time

from tests.bench import peers, workshops
from tests.bench.timing import Ratio, free_cores, pairs, run

PASS = [sys.executable, "-c", "pass"]


class Bench:
    """Workshops, caches and outputs in one folder. Fonts are made beforehand, for us and for the others."""

    def __init__(self, folder: Path, small: int, large: int, rounds: int, peer: str) -> None:
        from procgen.draw.fonts import prepare

        self.folder, self.rounds, self.peer = folder, rounds, peer
        self.sizes = {"small": small, "large": large}
        self.turn = int(time()) % 1000
        prepare(folder / "prepared")
        for name, cards in self.sizes.items():
            self.sizes[name] = workshops.write(folder / name, cards)

    def make(self, name: str, *words: str, keep: bool = False, gone: bool = False) -> tuple[float, int]:
        """One `make`; from nothing unless `keep`, with its output `gone` beforehand or not."""
        cache, out = self.folder / f"{name}-cache", self.folder / f"{name}-site"
        if not keep:
            shutil.rmtree(cache, ignore_errors=True)
            shutil.copytree(self.folder / "prepared", cache / "fonts")
        if not keep or gone:
            shutil.rmtree(out, ignore_errors=True)
        words = ("make", "--workshop", str(self.folder / name), "--out", str(out), *words)
        return run([sys.executable, "-m", "procgen", *words], {"PROCGEN_CACHE": str(cache)})

    def check(self, name: str) -> float:
        return run([sys.executable, "-m", "procgen", "check", "--workshop", str(self.folder / name)])[0]

    def pages(self) -> Path:
        folder = self.folder / "pages"
        if not folder.exists():
            peers.export(self.folder / "small", self.folder / "peer-cache", folder)
        return folder

    def peer_run(self, way: str) -> float:
        python = self.peer if way == "chromium" else sys.executable
        return run([python, "-m", "tests.bench.peers", way, str(self.pages())])[0]


def rows(bench: Bench) -> Iterator[tuple[str, str, float, Callable[[], Ratio]]]:
    """Name, what is held against what, the goal, and a function that measures it."""
    r = bench.rounds

    def cold(workers: int, way: str) -> Ratio:
        bench.pages()
        return pairs(lambda: bench.make("small", "--workers", str(workers))[0], lambda: bench.peer_run(way), r)

    def against_cold(change: Callable[[Path, int], None] | None, gone: bool = False) -> Ratio:
        def warm() -> float:
            bench.turn += 1
            if change is not None:
                change(bench.folder / "large", bench.turn)
            return bench.make("large", keep=True, gone=gone)[0]

        bench.make("large", "--workers", "2")
        return pairs(warm, lambda: bench.make("large", "--workers", "2")[0], r)

    def site_alone() -> Ratio:
        return pairs(lambda: bench.make("large", "--only", "site")[0], lambda: bench.make("large")[0], r)

    def check() -> Ratio:
        return pairs(lambda: bench.check("large"), lambda: bench.make("large")[0], r)

    def one_card() -> Ratio:
        html = sorted(bench.pages().glob("*.html"))[0]
        engine = [str(Path(sys.executable).with_name("weasyprint")), str(html), str(html.with_suffix(".one.pdf"))]
        bench.make("small")

        def edited() -> float:
            bench.turn += 1
            workshops.edit_card(bench.folder / "small", bench.turn)
            chosen = ("--family", workshops.first_family(bench.folder / "small").stem, "--card", "strip")
            return bench.make("small", *chosen, "--only", "cards", keep=True)[0]

        return pairs(edited, lambda: run([*engine, "--pdf-variant", "pdf/ua-1"])[0], r)

    def nothing() -> Ratio:
        bench.make("small")
        for path in (bench.folder / "small").rglob("*"):
            os.utime(path, (1_000_000_000, 1_000_000_000))
        bench.make("small", keep=True)
        return pairs(lambda: bench.make("small", keep=True)[0], lambda: run(PASS)[0], 4 * r)

    def help_() -> Ratio:
        return pairs(lambda: run([sys.executable, "-m", "procgen", "--help"])[0], lambda: run(PASS)[0], 4 * r)

    def growth(memory: bool) -> Ratio:
        which = 1 if memory else 0
        share = (1.0, 1.0) if memory else (bench.sizes["large"], bench.sizes["small"])
        return pairs(lambda: bench.make("large")[which] / share[0], lambda: bench.make("small")[which] / share[1], r)

    small, large = bench.sizes["small"], bench.sizes["large"]
    yield "cold", f"cold make, {small} cards, 2 workers / naive, PDF alone", 0.42, lambda: cold(2, "naive")
    yield "chromium", f"cold make, {small} cards, 2 workers / Chromium, one session", 0.75, lambda: cold(2, "chromium")
    yield "serial", f"cold make, {small} cards, 1 worker / naive", 0.80, lambda: cold(1, "naive")
    yield "site", f"site alone, {large} cards / cold make", 0.05, site_alone
    yield "gone", f"cache kept, output gone, {large} cards / cold make", 0.02, lambda: against_cold(None, gone=True)
    yield "family", f"one family edited, {large} cards / cold make", 0.12, lambda: against_cold(workshops.edit_family)
    yield "card", "one card edited, new process / one weasyprint command", 1.15, one_card
    yield "nothing", f"nothing changed, {small} cards / python -c pass", 3.0, nothing
    yield "help", "procgen --help / python -c pass", 2.5, help_
    yield "check", f"check, {large} cards / cold make", 0.05, check
    yield "growth", f"time a card at {large} / at {small}", 1.05, lambda: growth(False)
    yield "memory", f"largest process at {large} / at {small}", 1.2, lambda: growth(True)


def main() -> None:
    words = argparse.ArgumentParser(prog="python -m tests.bench", description=__doc__)
    words.add_argument("rows", nargs="*", help="names of rows; all, if none is given")
    words.add_argument("--small", type=int, default=100)
    words.add_argument("--large", type=int, default=400)
    words.add_argument("--rounds", type=int, default=5)
    words.add_argument("--peers", default=sys.executable, metavar="PYTHON")
    words.add_argument("--folder", type=Path)
    given = words.parse_args()
    folder = given.folder or Path(mkdtemp(prefix="bench-"))
    bench = Bench(folder, given.small, given.large, given.rounds, given.peers)
    print(f"Python {platform.python_version()}, {os.cpu_count()} cores, load {os.getloadavg()[0]:.1f}")
    print("| row | what / held against | median (least–most) | goal | seconds | cores |\n|---|---|---|---|---|---|")
    for name, what, goal, measure in rows(bench):
        if given.rows and name not in given.rows:
            continue
        cores = free_cores()
        found = measure()
        seconds = " / ".join(f"{one:.3g}" for one in found.seconds)
        print(f"| {name} | {what} | {found} | {goal} | {seconds} | {cores:.2f} × |", flush=True)


if __name__ == "__main__":
    main()
