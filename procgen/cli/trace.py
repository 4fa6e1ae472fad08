"""`procgen trace CARD VALUE --family F`: where a number comes from."""

from __future__ import annotations

import sys
from argparse import Namespace

from procgen.cli import PROBLEMS, SOUND, USAGE
from procgen.cli.ways import read, tell
from procgen.compose.card import speaker_for
from procgen.compose.origins import origin, walk
from procgen.compose.revision import figure_text
from procgen.make.build import read_and_check
from procgen.make.order import UnknownName, require
from procgen.model.card import Origin


def run(words: Namespace) -> int:
    checked = read_and_check(words.workshop, read)
    if not checked.is_sound:
        tell([problem for problem in checked.problems if problem.is_error], checked.sources)
        return PROBLEMS
    assert checked.context is not None
    workshop = checked.workshop
    try:
        require("card", words.card, workshop.procedures)
        require("family", words.family, workshop.families)
        benches = checked.context.benches[words.family]
        names = {bench.variant.id: name for name, bench in benches.items() if bench.variant is not None}
        if words.variant:
            require("variant", words.variant, names)
            benches = {names[words.variant]: benches[names[words.variant]]}
        for name, bench in benches.items():
            speaker = speaker_for(words.card, {name: bench})
            require("value", words.value, tuple(speaker.first.lexicon.names()))
            if name:
                print(f"{workshop.families[words.family].name} {name}")
            for depth, one in walk(origin(words.value, speaker)):
                print("\n".join(f"{'  ' * depth}{line}" for line in _lines(one)))
    except UnknownName as unknown:
        print(f"procgen trace: {unknown}", file=sys.stderr)
        return USAGE
    return SOUND


def _lines(one: Origin) -> list[str]:
    said = figure_text(one.figure)
    how = f" = {one.formula}" if one.formula else ""
    lines = [f"{one.name}{how}", f"    {one.title}: {said}"]
    if one.source:
        lines.append(f"    {one.source}")
    return [*lines, f"    {one.place}"]
