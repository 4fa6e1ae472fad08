"""Workshops of any size, with the mix of steps, drawings and tables that the demo has."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

DEMO = Path(__file__).resolve().parents[2] / "procedures"
_BORE = re.compile(r"^(\s+bore: )(\d+\.\d+)", re.MULTILINE)


def deck_size() -> int:
    return len(list((DEMO / "deck").glob("*.yaml")))


def write(root: Path, cards: int, jobs: int = 0) -> int:
    """A workshop with as many families as give about that many cards, and that many jobs; gives the number of cards.

    Families are the demo's over and over, each under a name of its own and with a bore that no other has, so that its
    numbers are its own. Words are shared as the demo's own families share them.
    """
    procedures = root / "procedures"
    shutil.rmtree(root, ignore_errors=True)
    procedures.mkdir(parents=True)
    shutil.copytree(DEMO / "deck", procedures / "deck")
    shutil.copy(DEMO / "workshop.yaml", procedures)
    for folder in ("families", "jobs"):
        (procedures / folder).mkdir()
    demo = sorted((DEMO / "families").glob("*.yaml"), key=lambda path: (path.stem < "b", path.stem))
    count = max(round(cards / deck_size()), 1)
    names = [_family(procedures, demo[number % len(demo)], number // len(demo)) for number in range(count)]
    for number in range(jobs):
        for job in (DEMO / "jobs").glob("*.yaml"):
            text = job.read_text().replace(f"id: {job.stem}", f"id: {job.stem}-n{number}", 1)
            (procedures / "jobs" / f"{job.stem}-n{number}.yaml").write_text(text)
    return len(names) * deck_size()


def _family(procedures: Path, source: Path, turn: int) -> str:
    text, id = source.read_text(), source.stem
    if turn:
        id = f"{source.stem}-n{turn}"
        text = re.sub(rf"\b{source.stem}\b", id, text)
        text = re.sub(r"^name: (.*)$", lambda found: f"name: {found[1]} {turn + 1}", text, count=1, flags=re.MULTILINE)
        text = _BORE.sub(lambda found: f"{found[1]}{float(found[2]) + 0.01 * turn:.2f}", text, count=1)
    (procedures / "families" / f"{id}.yaml").write_text(text)
    return id


def first_family(root: Path) -> Path:
    return min((root / "procedures/families").glob("*.yaml"))


def edit_family(root: Path, turn: int) -> None:
    """Another bore and other words under the name of one family, so that every card of its deck changes."""
    path = first_family(root)
    path.write_text(_BORE.sub(lambda found: f"{found[1]}{float(found[2]) + 0.01:.2f}", path.read_text(), count=1))
    edit_words(root, turn)


def edit_words(root: Path, turn: int) -> None:
    """Other words under the name of one family."""
    path = first_family(root)
    text = path.read_text()
    path.write_text(re.sub(r"^(describe: .*?)( \d+)?$", rf"\g<1> {turn}", text, count=1, flags=re.MULTILINE))
