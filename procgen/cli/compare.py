"""`procgen compare CARD A B`: how a card differs between two families, or two variants."""

from __future__ import annotations

import sys
from argparse import Namespace

from procgen.cli import PROBLEMS, SOUND, USAGE
from procgen.cli.ways import read, tell
from procgen.compose.compare import differences, engines
from procgen.make.build import read_and_check
from procgen.make.order import UnknownName, require


def run(words: Namespace) -> int:
    checked = read_and_check(words.workshop, read)
    if not checked.is_sound:
        tell([problem for problem in checked.problems if problem.is_error], checked.sources)
        return PROBLEMS
    assert checked.context is not None
    known = engines(checked.context.benches)
    try:
        require("card", words.card, checked.workshop.procedures)
        for name in (words.a, words.b):
            require("family or variant", name, known)
    except UnknownName as unknown:
        print(f"procgen compare: {unknown}", file=sys.stderr)
        return USAGE
    for line in differences(words.card, known[words.a], known[words.b]):
        print(line)
    return SOUND
