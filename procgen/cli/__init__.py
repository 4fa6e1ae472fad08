"""The commands: each reads its words, calls one function of the rooms below, prints, and gives an exit code.

Only this room prints or exits. Heavy imports stand inside the commands: `procgen --help` must answer at once.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence

SOUND, PROBLEMS, USAGE = 0, 1, 2


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command. Exit codes: 0 sound, 1 problems (or old output kept), 2 mistyped."""
    given = sys.argv[1:] if arguments is None else list(arguments)
    if given[:1] == ["make"] and _has_nothing_to_do(given):
        return SOUND
    if given in (["--help"], ["-h"]):
        from procgen.cli.helping import HELP

        print(HELP, end="")
        return SOUND
    from procgen.cli.words import parser

    try:
        words = parser().parse_args(given)
        words.given = given
    except SystemExit as stop:  # argparse has said why
        return int(stop.code or 0)
    from importlib import import_module

    try:
        return int(import_module(f"procgen.cli.{words.command}").run(words))
    except KeyboardInterrupt:
        print("stopped; the old output is untouched", file=sys.stderr)
        return 130
    except BrokenPipeError:  # the reader of a pipe has gone: nothing to tell anybody
        sys.stderr.close()
        return SOUND
    except OSError as failed:  # a full disk, a folder that may not be written to
        if failed.strerror is None:
            raise
        where = f"{failed.filename}: " if failed.filename else ""
        print(f"procgen {words.command}: {where}{failed.strerror}; the old output is untouched", file=sys.stderr)
        return PROBLEMS


def _has_nothing_to_do(given: Sequence[str]) -> bool:
    """Whether the last build by these words still holds; what it said is said again."""
    from procgen.cli.folders import cache
    from procgen.make.unchanged import told

    said = told(given, cache())
    if said is not None:
        print(said, end="", file=sys.stderr)
    return said is not None
