"""What a person may type."""

from __future__ import annotations

import argparse
import os

from procgen import __version__

TYPE_CHECKING = False  # as type checkers know it: `typing` takes a fifth of the time that `--help` has
if TYPE_CHECKING:
    from datetime import date
    from pathlib import Path
    from typing import Any

SHEETS = "sheets of cards on a4 or letter paper, turned about its long or short edge, or fold for one-sided printers"
SHARD = "print the K-th of N parts of the cards into the cache and write nothing: for several machines"
STOCK = "card stock, instead of the workshop's (repeatable: each stock after the first into a folder of its own)"
GLANCE = "print glance cards too, on this stock: limits and decisions alone, to be read from 2 m"
KINDS = ("family", "procedure", "job")
LAST_PORT = 65535


class _Command(argparse.ArgumentParser):
    """Says of a word that it does not know what may have been meant, below its own usage instead of `procgen`'s."""

    def parse_known_args(self, args: Any = None, namespace: Any = None) -> tuple[Any, list[str]]:
        words, others = super().parse_known_args(args, namespace)
        if others:
            from procgen.units.nearest import did_you_mean  # not for `--help` to wait for

            other = next((word for word in others if word.startswith("-")), others[0])
            hint = did_you_mean(other, self._option_string_actions)
            self.error(f"there is no `{other}` here" + (f"; {hint}" if hint else ""))
        return words, others


def parser() -> argparse.ArgumentParser:
    top = argparse.ArgumentParser(
        prog="procgen", description="Engine-rebuild procedures from YAML to cards and a site."
    )
    top.add_argument("--version", action="version", version=f"procgen {__version__}")
    commands = top.add_subparsers(dest="command", required=True, metavar="COMMAND", parser_class=_Command)

    check = commands.add_parser("check", help="read and check everything, write nothing")
    _workshop(check)
    check.add_argument("--json", action="store_true", help="the problems as JSON, for machines")
    check.add_argument("--lines", action="store_true", help="one line a problem, for editors")

    make = commands.add_parser("make", help="check, then make the site and the cards")
    _order(make)

    watch = commands.add_parser("watch", help="make again whatever is edited, and serve it on this machine")
    _order(watch)
    watch.add_argument("--port", type=_port, default=8000, metavar="N", help="0 for any that is free")

    trace = commands.add_parser("trace", help="where a number comes from, down to the YAML lines")
    _workshop(trace)
    trace.add_argument("card", metavar="CARD")
    trace.add_argument("value", metavar="VALUE")
    whose = trace.add_mutually_exclusive_group(required=True)
    whose.add_argument("--family", metavar="F")
    whose.add_argument("--job", metavar="JOB", help="id of a job: with its readings")
    trace.add_argument("--variant", metavar="V", help="of the family; default: each")
    trace.add_argument(
        "--of", action="append", default=[], metavar="MEMBER", help="of which cylinder, main, … (repeatable)"
    )

    compare = commands.add_parser("compare", help="how a card differs between two families or variants")
    _workshop(compare)
    compare.add_argument("card", metavar="CARD")
    compare.add_argument("a", metavar="A", help="a family or a variant")
    compare.add_argument("b", metavar="B")

    add = commands.add_parser("add", help="write a commented file to fill in")
    _workshop(add)
    add.add_argument("kind", choices=KINDS)
    add.add_argument("name", metavar="NAME", help="as people call it: 'Reed Warbler'")
    job = commands.add_parser("job", help="verdicts for one engine on the stand")
    _workshop(job)
    job.add_argument("job", metavar="FILE", help="a job's file, or the id of one in procedures/jobs")
    job.add_argument("--readings", type=_path, metavar="CSV", help="readings to add, as sessions of their own")
    job.add_argument("--json", action="store_true", help="the verdicts as JSON, for machines")
    job.add_argument("--out", type=_path, metavar="DIR", help="the site to put the packet in (default: site/)")
    job.add_argument("--paper", choices=("a4", "letter"), help="of the packet (default: the workshop's)")
    job.add_argument("--theme", choices=("colour", "mono"), help="mono for grey printers")
    job.add_argument("--no-packet", action="store_true", help="only the verdicts, no PDF")

    printed = commands.add_parser("printed", help="note which cards were printed, to be reminded of once they change")
    _workshop(printed)
    printed.add_argument("--card", action="append", default=[], metavar="CARD", help="only this card (repeatable)")
    printed.add_argument("--family", action="append", default=[], metavar="F", help="only this family (repeatable)")
    printed.add_argument("--date", type=_day, metavar="DAY", help="year-month-day (default: today)")
    printed.add_argument("--stock", metavar="STOCK", help="card stock, instead of the workshop's")
    printed.add_argument(
        "--out", type=_path, metavar="DIR", help="the site that they were printed from (default: site/)"
    )

    reprint = commands.add_parser("reprint", help="which printed cards are superseded, and what changed")
    _workshop(reprint)
    reprint.add_argument("--json", action="store_true", help="as JSON, for machines")
    return top


def _workshop(command: argparse.ArgumentParser) -> None:
    command.add_argument("--workshop", type=_path, default="", metavar="DIR", help="default: this directory")


def _order(make: argparse.ArgumentParser) -> None:
    """What is to be made."""
    _workshop(make)
    make.add_argument("--card", action="append", default=[], metavar="CARD", help="only this card's PDF (repeatable)")
    make.add_argument("--family", action="append", default=[], metavar="F", help="only this family's PDFs (repeatable)")
    make.add_argument("--only", choices=("site", "cards"), help="only the pages, or only the PDFs")
    make.add_argument("--stock", action="append", default=[], metavar="STOCK", help=STOCK)
    make.add_argument("--glance", metavar="STOCK", help=GLANCE)
    make.add_argument("--sheets", type=_words, default=(), metavar="PAPER,TURN", help=SHEETS)
    make.add_argument("--faces", action="store_true", help="say how many faces a card takes, why, what goes overleaf")
    make.add_argument("--theme", choices=("colour", "mono"), help="mono for grey printers")
    make.add_argument("--out", type=_path, metavar="DIR", help="where to put it (default: site/ in the workshop)")
    make.add_argument("--workers", type=_count, default=os.cpu_count() or 1, metavar="N", help="processes at once")
    make.add_argument("--shard", type=_shard, default=(1, 1), metavar="K/N", help=SHARD)


def _path(text: str) -> Path:
    from pathlib import Path  # takes longer to import than all that `--help` needs

    return Path(text)


def _words(text: str) -> tuple[str, ...]:
    return tuple(text.split(","))


def _day(text: str) -> date:
    from datetime import date

    try:
        if len(text) == 10:
            return date.fromisoformat(text)
    except ValueError:
        pass
    raise argparse.ArgumentTypeError(f"there is no day `{text}`; write year-month-day, as in 2026-03-14")


def _port(text: str) -> int:
    if not text.isdecimal() or int(text) > LAST_PORT:
        raise argparse.ArgumentTypeError(f"a number from 0 to {LAST_PORT}")
    return int(text)


def _count(text: str) -> int:
    if not text.isdecimal() or int(text) < 1:
        raise argparse.ArgumentTypeError("a number, at least 1")
    return int(text)


def _shard(text: str) -> tuple[int, int]:
    which, slash, parts = text.partition("/")
    if not slash or not 1 <= int(which) <= int(parts):
        raise argparse.ArgumentTypeError("K/N, as in 1/2 and 2/2")
    return int(which), int(parts)
