"""`procgen watch`, as a process: after any edits it has made what a fresh build makes, and a slip changes nothing."""

import os
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

SOUND = Path(__file__).resolve().parents[1] / "check" / "workshop"
FAMILY, CARD = "procedures/families/teal.yaml", "procedures/deck/wear.yaml"
WORDS = ("--family", "teal", "--card", "wear", "--only", "cards")


class Watched:
    """`until` reads on to the line that begins so, and gives the lines before it."""

    def __init__(self, root: Path) -> None:
        self.root, self.out = root / "shop", root / "out"
        shutil.copytree(SOUND, self.root)
        self._env = {**os.environ, "PROCGEN_CACHE": str(root / "cache")}
        words = ["watch", *WORDS, "--workshop", str(self.root), "--out", str(self.out), "--port", "0"]
        given = [sys.executable, "-u", "-m", "procgen", *words]
        self.process = subprocess.Popen(given, env=self._env, stderr=subprocess.PIPE, text=True)

    def until(self, begin: str) -> list[str]:
        assert self.process.stderr is not None
        lines: list[str] = []
        for line in self.process.stderr:
            if line.startswith(begin):
                return lines
            lines.append(line)
        raise AssertionError(f"it ended with {lines}")

    def edit(self, path: str, old: str, new: str) -> None:
        """In one step, so that no half of it is seen."""
        file = self.root / path
        text = file.read_text()
        assert old in text
        (self.root / "new").write_text(text.replace(old, new, 1))
        os.replace(self.root / "new", file)

    def made(self) -> dict[str, bytes]:
        return files(self.out)

    def fresh(self) -> dict[str, bytes]:
        """What a build makes that knows of no other."""
        out, cache = self.out.with_name("fresh"), self.out.with_name("fresh-cache")
        for folder in (out, cache):
            shutil.rmtree(folder, ignore_errors=True)
        shutil.copytree(self.out.with_name("cache") / "fonts", cache / "fonts")
        words = ["make", *WORDS, "--workshop", str(self.root), "--out", str(out)]
        env = self._env | {"PROCGEN_CACHE": str(cache)}
        subprocess.run([sys.executable, "-m", "procgen", *words], env=env, check=True, capture_output=True)
        return files(out)


def files(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


@pytest.fixture
def watched(tmp_path: Path) -> Iterator[Watched]:
    found = Watched(tmp_path)
    yield found
    found.process.terminate()
    found.process.wait(10)


def test_edits_slips_and_mends(watched: Watched) -> None:
    watched.until("made in")
    first = watched.made()
    assert first == watched.fresh()
    watched.edit(FAMILY, "name: Teal", "name: Old Teal")
    assert watched.until("made in")[0] == f"edited: {os.path.relpath(watched.root / FAMILY)}\n"
    named = watched.made()
    assert named.keys() == first.keys()
    assert named != first
    watched.edit(CARD, "formula: size - geometry.bore", "formula: size - geometry.bor")
    said = "".join(watched.until("nothing written"))
    assert re.search(rf"{CARD}:\d+:\d+", said)
    assert "geometry.bor`" in said
    assert watched.made() == named
    watched.edit(CARD, "formula: size - geometry.bor", "formula: size - geometry.bore")
    watched.until("made in")
    watched.edit(CARD, "title: Wear", "title: Wear and tear")
    watched.until("made in")
    assert watched.made() == watched.fresh()
    assert watched.made() != named
    watched.process.terminate()
    watched.process.wait(10)
