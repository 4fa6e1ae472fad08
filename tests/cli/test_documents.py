"""What README and DEVELOPERS name is there: files, commands and their options."""

from __future__ import annotations

import argparse
import re
from pathlib import Path

import pytest

from procgen.cli.words import parser

TOP = Path(__file__).parents[2]
FOLDERS = ("procgen", "tests", "templates", "schemas", "shared", "procedures", ".ci")
MADE = (
    "site/",
    ".cache/",
    "procedures/printed.yaml",
    "procedures/jobs/NAME.yaml",
    "procedures/families/reed-warbler.yaml",
)
"""What is there only once somebody made it."""


def _quoted(document: str) -> set[str]:
    return set(re.findall(r"`([^`\n]+)`", (TOP / document).read_text("utf-8")))


@pytest.mark.parametrize(("document", "least"), [("README.md", 8), ("DEVELOPERS.md", 80)])
def test_every_file_that_is_named_is_there(document: str, least: int) -> None:
    files = [TOP / folder for folder in FOLDERS]
    files += [path for folder in files for path in folder.rglob("*") if "__pycache__" not in path.parts]
    written = re.compile(r"[\w.*-]+(/[\w.*-]+)*(/|\.(py|js|yaml|json|html|css|md))|\.ci/run")
    named = {word for word in _quoted(document) if written.fullmatch(word) and not word.startswith(MADE)}
    assert len(named) >= least
    assert {word for word in named if not any(path.match(word.rstrip("/")) for path in files)} == set()


def test_every_command_and_option_of_the_readme_is_there() -> None:
    (commands,) = (action for action in parser()._actions if isinstance(action, argparse._SubParsersAction))
    rows = re.findall(r"^\| `procgen (\w+)(.*)$", (TOP / "README.md").read_text("utf-8"), re.MULTILINE)
    assert {command for command, _ in rows} == set(commands.choices)
    for command, row in rows:
        named = set(re.findall(r"--[a-z-]+", row))
        assert named <= set(commands.choices[command]._option_string_actions), command
