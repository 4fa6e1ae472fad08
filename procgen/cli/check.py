"""`procgen check`: read and check everything, write no output."""

from __future__ import annotations

import sys
from argparse import Namespace

from procgen.cli import PROBLEMS, SOUND
from procgen.cli.ways import check_workshop, counts, tell
from procgen.files.reporters import as_json, as_lines


def run(words: Namespace) -> int:
    checked = check_workshop(words.workshop)
    if words.json:
        print(as_json(checked.problems), end="")
    elif words.lines:
        print(as_lines(checked.problems), end="")
    else:
        tell(checked.problems, checked.sources, brief=not checked.is_sound)
        if checked.is_sound:
            print(f"sound: {counts(checked.workshop)}", file=sys.stderr)
    return SOUND if checked.is_sound else PROBLEMS
