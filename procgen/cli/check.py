"""`procgen check`: read and check everything, write no output."""

from __future__ import annotations

import sys
from argparse import Namespace

from procgen.check import check_workshop
from procgen.cli import PROBLEMS, SOUND
from procgen.files.problems import Severity
from procgen.files.reporters import as_json, as_lines, as_text


def run(words: Namespace) -> int:
    checked = check_workshop(words.workshop)
    problems = checked.problems
    if not (words.notes or words.json):
        problems = tuple(p for p in problems if p.severity is not Severity.NOTE)
    if words.json:
        print(as_json(problems))
    elif words.lines:
        print(as_lines(problems), end="")
    elif problems:
        print(as_text(problems, checked.sources), end="", file=sys.stderr)
    failed = any(p.is_error for p in checked.problems)
    if not (failed or words.json or words.lines):
        print(summary(checked))
    return PROBLEMS if failed else SOUND


def summary(checked: Checked) -> str:
    ...
