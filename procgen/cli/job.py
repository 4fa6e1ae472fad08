"""`procgen job FILE`: verdicts on the terminal."""

from __future__ import annotations

import sys
from argparse import Namespace
from pathlib import Path

from procgen.cli import PROBLEMS, SOUND, USAGE
from procgen.cli.ways import read, tell
from procgen.compose import judge
from procgen.make.build import read_and_check
from procgen.make.order import UnknownName, require
from procgen.model.verdict import Judged, Verdict

UNSETTLED = 3


def run(words: Namespace) -> int:
    checked = read_and_check(words.workshop, read)
    errors = [problem for problem in checked.problems if problem.is_error]
    if errors or checked.context is None:
        tell(errors, checked.sources)
        return PROBLEMS
    id = Path(words.job).stem
    try:
        require("job", id, checked.workshop.jobs)
    except UnknownName as unknown:
        print(f"procgen job: {unknown}", file=sys.stderr)
        return USAGE
    judged = judge(checked.workshop, checked.workshop.jobs[id])
    print("\n".join(_lines(judged)))
    return SOUND if judged.is_settled else UNSETTLED


def _lines(judged: Judged) -> list[str]:
    lines = []
    for verdict in judged.verdicts:
        lines += _verdict(verdict)
    return lines


def _verdict(verdict: Verdict) -> list[str]:
    who = f"{verdict.each} {verdict.member}: " if verdict.member else ""
    outcome = " or ".join(action for _, action in verdict.outcomes)
    lines = [f"{verdict.card}  {who}{verdict.title}  {verdict.state.upper()}: {outcome}"]
    for m in verdict.margins:
        lines.append(
            f"    {m.title} {m.value_text}, {m.limit_is} {m.limit_text}: {m.side}, "
            f"margin {m.margin_text}, U {m.uncertainty_text}"
        )
    lines += [f"    wanting: {what}" for what in verdict.waits_for]
    if verdict.settles:
        lines.append(f"    {verdict.settles}")
    if verdict.by:
        lines.append(f"    {verdict.by}: {verdict.reason}")
    return lines
