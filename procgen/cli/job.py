"""`procgen job FILE`: verdicts on the terminal, and the packet to print."""

from __future__ import annotations

import json
import shutil
import sys
from argparse import Namespace
from pathlib import Path

from procgen.cli import PROBLEMS, SOUND, USAGE
from procgen.cli.folders import cache
from procgen.cli.packet_text import packet_lines
from procgen.cli.ways import read, tell
from procgen.compose.packet.record import record
from procgen.files.reporters import as_json
from procgen.make.jobs import Settled, print_packet, work_out
from procgen.make.order import Order, UnknownName
from procgen.make.printing import NoLayout

UNSETTLED = 3
WIDEST = 110


def run(words: Namespace) -> int:
    try:
        settled = work_out(words.workshop, words.job, words.readings, read)
    except UnknownName as unknown:
        print(f"procgen job: {unknown}", file=sys.stderr)
        return USAGE
    if settled.packet is None or settled.judged is None:
        if words.json:
            print(as_json(settled.problems), end="")
        else:
            tell(settled.problems, settled.sources)
        return PROBLEMS
    if words.json:
        print(json.dumps(record(settled.packet, settled.judged), ensure_ascii=False, indent=1))
    else:
        tell(settled.problems, settled.sources)
        width = min(shutil.get_terminal_size((WIDEST, 40)).columns, WIDEST)
        print("\n".join(packet_lines(settled.packet, width)))
    printed = words.no_packet or _print(words, settled)
    return PROBLEMS if not printed else SOUND if settled.packet.is_settled else UNSETTLED


def _print(words: Namespace, settled: Settled) -> bool:
    """Whether the packet was written."""
    order = Order(
        root=words.workshop,
        out=words.out or words.workshop / "site",
        cache=Path(cache()),
        theme=words.theme or "",
        sheets=(words.paper,) if words.paper else (),
    )
    try:
        path, problems = print_packet(settled, order)
    except NoLayout as missing:
        print(f"procgen job: {missing}", file=sys.stderr)
        return False
    tell(problems, {})
    if any(problem.is_error for problem in problems):
        return False
    print(f"packet: {path}", file=sys.stderr)
    return True
