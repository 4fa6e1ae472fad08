"""Every process that is timed, each once a round, and what a round needs of them."""

from __future__ import annotations

import os
import shutil
import sys
from collections.abc import Callable, Iterator
from itertools import count
from pathlib import Path

from tests.bench import peers, workshops
from tests.bench.timing import Run, run
from tests.bench.watching import edited_while_watched

_PASS = [sys.executable, "-c", "pass"]
_SHORT = 9  # times that a process of milliseconds is run in a round
_TYPST = Path(__file__).with_name("typst_deck.py")


class Processes:
    """Workshops, caches and outputs in one folder. Fonts are made beforehand, for us and for the others.

    `chromium`, `typst`: Pythons that have playwright and Typst; "" for none.
    """

    def __init__(self, folder: Path, sizes: dict[str, int], chromium: str, typst: str) -> None:
        from procgen.draw.fonts import prepare
        from procgen.make import causes
        from procgen.make.cache import digest

        self._folder, self._chromium, self._typst, self._turn = folder, chromium, typst, 0
        prepare(folder / "prepared")
        self.sizes = {name: workshops.write(folder / name, cards) for name, cards in sizes.items()}
        self.sizes |= {"families": self.sizes["large"] // workshops.deck_size(), "deck": peers.DECK}
        self._pages, self._deck = folder / "pages", folder / "typst" / "deck.typ"
        of, whose = self._pages / "of", digest(causes.code(), causes.own_resources(), str(self.sizes["small"]))
        if not (of.exists() and of.read_text() == whose):  # else they are there from before
            shutil.rmtree(self._pages, ignore_errors=True)
            peers.export(folder / "small", folder / "peers", self._pages, self._deck)
            of.write_text(whose)

    def round(self, wanted: set[str]) -> dict[str, float]:
        """Seconds by name, memory in KB, seconds a card: all that is wanted, and what comes with it."""
        self._turn += 1
        steps: tuple[tuple[tuple[str, ...], Callable[[], Iterator[tuple[str, float]]]], ...] = (
            (("cold-2", "cold-2 per card", "cold-2 worker", "cold-2 parent"), lambda: self._cold("small", "cold-2")),
            (("naive",), lambda: self._peer("naive", sys.executable)),
            (("cold-1",), lambda: self._cold("small", "cold-1", "1")),
            (("chromium",), lambda: self._peer("chromium", self._chromium)),
            (("card", "command"), self._card),
            (("watch", "typst"), self._watch),
            (("large", "gone", "family", "nothing", "check", "site"), lambda: self._large(wanted)),
            (("help", "pass"), self._help),
            (("huge per card", "huge worker", "huge parent"), lambda: self._cold("huge", "huge")),
        )
        found: dict[str, float] = {}
        for names, measure in steps:
            if wanted.intersection(names):
                found |= measure()
        return found

    def _cold(self, size: str, name: str, workers: str = "2") -> Iterator[tuple[str, float]]:
        made = self._make(size, "--workers", workers)
        yield name, made.seconds
        yield f"{name} per card", made.seconds / self.sizes[size]
        yield f"{name} parent", made.parent
        yield f"{name} worker", made.worker

    def _peer(self, name: str, python: str) -> Iterator[tuple[str, float]]:
        yield name, run([python, "-m", "tests.bench.peers", name, str(self._pages)]).seconds

    def _large(self, wanted: set[str]) -> Iterator[tuple[str, float]]:
        yield "large", self._make("large", "--workers", "2").seconds
        if "gone" in wanted:
            yield "gone", self._make("large", "--workers", "2", keep=True, gone=True).seconds
        if "family" in wanted:
            workshops.edit_family(self._folder / "large", self._turn)
            yield "family", self._make("large", "--workers", "2", keep=True).seconds
        if "nothing" in wanted:
            yield from self._nothing()
        if "check" in wanted:
            yield "check", self._procgen("large", "check").seconds
        if "site" in wanted:
            yield "site", self._make("large", "--workers", "2", "--only", "site").seconds

    def _nothing(self) -> Iterator[tuple[str, float]]:
        for path in (self._folder / "large").rglob("*"):
            os.utime(path, (1_000_000_000, 1_000_000_000))
        self._make("large", "--workers", "2", keep=True)
        yield "nothing", min(self._make("large", "--workers", "2", keep=True).seconds for _ in range(_SHORT))
        yield "pass", min(run(_PASS).seconds for _ in range(_SHORT))

    def _help(self) -> Iterator[tuple[str, float]]:
        yield "help", min(run([sys.executable, "-m", "procgen", "--help"]).seconds for _ in range(_SHORT))
        yield "pass", min(run(_PASS).seconds for _ in range(_SHORT))

    def _card(self) -> Iterator[tuple[str, float]]:
        words = self._one_card()
        if not (self._folder / "small-site").is_dir():
            self._make("small", "--workers", "2")
        workshops.edit_words(self._folder / "small", self._turn)
        yield "card", self._make("small", *words, keep=True).seconds
        html = next(self._pages.glob("*-strip.html"))
        engine = Path(sys.executable).with_name("weasyprint")
        pdf = html.with_suffix(".one.pdf")
        yield "command", run([str(engine), str(html), str(pdf), "--pdf-variant", "pdf/ua-1"]).seconds

    def _watch(self) -> Iterator[tuple[str, float]]:
        words = ["watch", *self._where("small"), *self._one_card(), "--port", "0"]
        root, number = self._folder / "small", count(1_000 * self._turn)
        yield "watch", edited_while_watched(words, self._env("small"), lambda: workshops.edit_words(root, next(number)))
        yield "typst", run([self._typst, str(_TYPST), str(self._deck)]).seconds

    def _one_card(self) -> list[str]:
        family = workshops.first_family(self._folder / "small").stem
        return ["--family", family, "--card", "strip", "--only", "cards"]

    def _make(self, name: str, *words: str, keep: bool = False, gone: bool = False) -> Run:
        """From nothing unless `keep`; with its output `gone` beforehand or not."""
        cache, out = self._folder / f"{name}-cache", self._folder / f"{name}-site"
        if not keep:
            shutil.rmtree(cache, ignore_errors=True)
            shutil.copytree(self._folder / "prepared", cache / "fonts")
        if not keep or gone:
            shutil.rmtree(out, ignore_errors=True)
        return run([sys.executable, "-m", "procgen", "make", *self._where(name), *words], self._env(name))

    def _procgen(self, name: str, command: str) -> Run:
        """With nothing cached."""
        cache, root = self._folder / "no-cache", str(self._folder / name)
        shutil.rmtree(cache, ignore_errors=True)
        given = [sys.executable, "-m", "procgen", command, "--workshop", root]
        return run(given, {"PROCGEN_CACHE": str(cache)})

    def _where(self, name: str) -> tuple[str, ...]:
        return "--workshop", str(self._folder / name), "--out", str(self._folder / f"{name}-site")

    def _env(self, name: str) -> dict[str, str]:
        return {"PROCGEN_CACHE": str(self._folder / f"{name}-cache")}
