"""Every process that is timed, each once a round."""

from __future__ import annotations

import os
import shutil
import sys
from pathlib import Path

from tests.bench import peers, workshops
from tests.bench.timing import run

_PASS = [sys.executable, "-c", "pass"]
_SHORT = 9  # times that a process of milliseconds is run in a round


class Processes:
    """Workshops, caches and outputs in one folder. Fonts are made beforehand, for us and for the others."""

    def __init__(self, folder: Path, small: int, large: int, peer: str) -> None:
        from procgen.draw.fonts import prepare

        self._folder, self._peer, self._turn = folder, peer, 0
        prepare(folder / "prepared")
        self.sizes = {
            name: workshops.write(folder / name, cards) for name, cards in (("small", small), ("large", large))
        }
        self.sizes["families"] = self.sizes["large"] // workshops.deck_size()
        self._pages = folder / "pages"
        shutil.rmtree(self._pages, ignore_errors=True)
        peers.export(folder / "small", folder / "peers", self._pages)

    def round(self) -> dict[str, float]:
        """Wall seconds by name; memory in KB; seconds a card."""
        self._turn += 1
        found: dict[str, float] = {}
        found["cold-2"], found["cold-2 memory"] = self._make("small", "--workers", "2")
        found["card"] = self._card()
        found["command"] = self._command()
        found["naive"] = run([sys.executable, "-m", "tests.bench.peers", "naive", str(self._pages)])[0]
        found["cold-1"] = self._make("small", "--workers", "1")[0]
        if self._peer:
            found["chromium"] = run([self._peer, "-m", "tests.bench.peers", "chromium", str(self._pages)])[0]
        found["large"], found["large memory"] = self._make("large", "--workers", "2")
        found["gone"] = self._make("large", "--workers", "2", keep=True, gone=True)[0]
        workshops.edit_family(self._folder / "large", self._turn)
        found["family"] = self._make("large", "--workers", "2", keep=True)[0]
        found["nothing"] = self._nothing()
        found["check"] = self._procgen("large", "check")[0]
        found["pass"] = min(run(_PASS)[0] for _ in range(_SHORT))
        found["help"] = min(run([sys.executable, "-m", "procgen", "--help"])[0] for _ in range(_SHORT))
        found["site"] = self._make("large", "--workers", "2", "--only", "site")[0]
        for name, size in (("cold-2", "small"), ("large", "large")):
            found[f"{name} per card"] = found[name] / self.sizes[size]
        return found

    def _make(self, name: str, *words: str, keep: bool = False, gone: bool = False) -> tuple[float, int]:
        """From nothing unless `keep`; with its output `gone` beforehand or not."""
        cache, out = self._folder / f"{name}-cache", self._folder / f"{name}-site"
        if not keep:
            shutil.rmtree(cache, ignore_errors=True)
            shutil.copytree(self._folder / "prepared", cache / "fonts")
        if not keep or gone:
            shutil.rmtree(out, ignore_errors=True)
        return self._procgen(name, "make", "--out", str(out), *words)

    def _procgen(self, name: str, command: str, *words: str) -> tuple[float, int]:
        given = [sys.executable, "-m", "procgen", command, "--workshop", str(self._folder / name), *words]
        return run(given, {"PROCGEN_CACHE": str(self._folder / f"{name}-cache")})

    def _card(self) -> float:
        workshops.edit_words(self._folder / "small", self._turn)
        family = workshops.first_family(self._folder / "small").stem
        return self._make("small", "--family", family, "--card", "strip", "--only", "cards", keep=True)[0]

    def _command(self) -> float:
        html = next(self._pages.glob("*-strip.html"))
        engine = Path(sys.executable).with_name("weasyprint")
        return run([str(engine), str(html), str(html.with_suffix(".one.pdf")), "--pdf-variant", "pdf/ua-1"])[0]

    def _nothing(self) -> float:
        for path in (self._folder / "large").rglob("*"):
            os.utime(path, (1_000_000_000, 1_000_000_000))
        self._make("large", "--workers", "2", keep=True)
        return min(self._make("large", "--workers", "2", keep=True)[0] for _ in range(_SHORT))
