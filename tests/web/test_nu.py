"""The Nu HTML checker finds no error in any kind of page, nor in the style sheets."""

from __future__ import annotations

import json
import shutil
import subprocess
from collections.abc import Mapping
from pathlib import Path

import pytest
from checkers import installed

JAVA = shutil.which("java")
CHECKED = ("bittern", "grebe", "jobs", "assets")


@pytest.mark.skipif(JAVA is None, reason="no java on this machine")
def test_nu_finds_no_error(site: Mapping[str, bytes], demo: Mapping[str, bytes], tmp_path: Path) -> None:
    """One family's pages, the shop's, the guide, comparison, jobs; the made-up shop's, mischief and all."""
    kinds = [p for p in demo if p.endswith((".html", ".css")) and (p.count("/") == 0 or p.split("/")[0] in CHECKED)]
    for name, made, paths in (("demo", demo, kinds), ("made", site, [p for p in site if p.endswith(".html")])):
        for path in paths:
            file = tmp_path / name / path
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_bytes(made[path])
    (tmp_path / "wrong.html").write_text("<!DOCTYPE html><title>Wrong</title><p id=a><p id=a>")
    jar = installed() / "vnu-jar" / "build" / "dist" / "vnu.jar"
    words = [JAVA or "", "-Xss8m", "-jar", str(jar), "--format", "json", "--also-check-css", "--exit-zero-always"]
    done = subprocess.run([*words, str(tmp_path)], capture_output=True, text=True, check=True)
    messages = json.loads(done.stderr)["messages"]
    errors = [(Path(one["url"].removeprefix("file:")), one["message"]) for one in messages if one["type"] == "error"]
    wrong = [message for path, message in errors if path.name == "wrong.html"]
    assert any("Duplicate ID" in message for message in wrong), "it does look"
    assert [(path.relative_to(tmp_path), message) for path, message in errors if path.name != "wrong.html"] == []
