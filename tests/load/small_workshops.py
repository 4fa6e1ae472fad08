"""Small workshops in a folder of their own, loaded."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from textwrap import dedent

import pytest

from procgen.files.problems import Problem
from procgen.load.workshop import Loaded, load_workshop

WORKSHOP = "procedures/workshop.yaml"
SHOP = "format: workshop/1\nname: Test shed\n"

Load = Callable[[dict[str, str]], Loaded]


@pytest.fixture
def load(tmp_path: Path) -> Load:
    """Writes files (path -> text) beside a plain workshop.yaml and loads the folder."""

    def write_and_load(files: dict[str, str]) -> Loaded:
        for path, text in {WORKSHOP: SHOP, **files}.items():
            (tmp_path / path).parent.mkdir(parents=True, exist_ok=True)
            (tmp_path / path).write_text(dedent(text), encoding="utf-8")
        return load_workshop(tmp_path, Path.read_bytes)

    return write_and_load


def told(problem: Problem) -> str:
    """A problem as text: place, severity, code, message, mend, and the related places."""
    related = "".join(f"\n  {r.place}: {r.message}" for r in problem.related)
    mend = f" -> {problem.hint}" if problem.hint else ""
    return f"{problem.place} {problem.severity.value} {problem.code}: {problem.message}{mend}{related}"


def procedure(id: str = "look-see", **parts: str) -> str:
    """A sound procedure of one step; `parts` replace its top-level parts by name."""
    whole = {
        "format": "procedure/1",
        "id": id,
        "title": "Look and see",
        "question": "Is it fit?",
        "stage": "Look",
        "reason": "Wear hides.",
        "steps": "\n  - id: look\n    do: Look all round it.",
        **parts,
    }
    return "".join(f"{key}: {value}\n" for key, value in whole.items())


def family(id: str = "teal", more: str = "") -> str:
    return f"format: family/1\nid: {id}\nname: Teal\n{dedent(more)}"
