"""`procgen check`: read and check everything, write no output."""

from __future__ import annotations

import sys
from argparse import Namespace

from procgen.cli import PROBLEMS, SOUND
from procgen.cli.ways import counts, read, tell
from procgen.files.reporters import as_json, as_lines
from procgen.make.build import read_and_check


def run(words: Namespace) -> int:
    checked = read_and_check(words.workshop, read)
    if words.json:
        print(as_json(checked.problems), end="")
    elif words.lines:
        print(as_lines(checked.problems), end="")
    else:
        tell(checked.problems, checked.sources)
        if checked.is_sound:
            print(f"sound: {counts(checked.workshop)}", file=sys.stderr)
    return SOUND if checked.is_sound else PROBLEMS
