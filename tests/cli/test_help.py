"""`--help` answers without loading the parser, and says what the parser would."""

from __future__ import annotations

import subprocess
import sys

import pytest

from procgen.cli import main
from procgen.cli.words import parser


@pytest.mark.parametrize("word", ["-h", "--help"])
def test_it_says_what_the_parser_would(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], word: str
) -> None:
    monkeypatch.setenv("COLUMNS", "80")
    assert main([word]) == 0
    assert capsys.readouterr().out == parser().format_help()


def test_it_loads_next_to_nothing() -> None:
    code = "import sys; from procgen.cli import main; main(['--help']); print(*sorted(sys.modules))"
    said = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout
    assert {"argparse", "typing", "pathlib", "yaml"}.isdisjoint(said.splitlines()[-1].split())
