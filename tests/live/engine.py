"""The page's interpreter run by node: many jobs, or many formulas, at one start."""

from __future__ import annotations

import json
import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest

from procgen.web.scripts import CORE, SELDOM

LIVE = Path(__file__).resolve().parents[2] / "templates" / "site" / "live"
NODE = shutil.which("node")

START = "eval(require('fs').readFileSync(0, 'utf8'))"
ASK = "console.log(JSON.stringify(ASKED.map(one => answer(one))))"


def run(answer: str, asked: list[Any], known: Any = None) -> list[Any]:
    """What the JavaScript function `answer` makes of each of `asked`, with `known` as KNOWN."""
    if NODE is None:
        pytest.skip("no node on this machine")
    source = ";\n".join((LIVE / name).read_text() for name in (*CORE, *SELDOM))
    given = f"const ASKED = {json.dumps(asked)}\nconst KNOWN = {json.dumps(known)}\n"
    script = f"{source}\n{given}\n{answer}\n{ASK}"
    done = subprocess.run([NODE, "-e", START], input=script, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr[-3000:]
    found: list[Any] = json.loads(done.stdout)
    return found
