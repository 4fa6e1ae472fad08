"""`procgen add family NAME`: a commented file to fill in."""

from __future__ import annotations

import re
import sys
from argparse import Namespace

from procgen.cli import PROBLEMS, SOUND, USAGE
from procgen.load.starters import starter

FOLDERS = {"family": "families", "procedure": "deck", "job": "jobs"}


def run(words: Namespace) -> int:
    id = re.sub(r"[^a-z0-9]+", "-", words.name.lower()).strip("-")
    if not re.fullmatch(r"[a-z][a-z0-9-]*", id):
        print(f"procgen add: `{words.name}` makes no id; begin it with a letter from a to z", file=sys.stderr)
        return USAGE
    procedures = words.workshop / "procedures"
    if not procedures.is_dir():
        print(f"procgen add: {words.workshop} is no workshop: it has no folder `procedures`", file=sys.stderr)
        return USAGE
    path = procedures / FOLDERS[words.kind] / f"{id}.yaml"
    path.parent.mkdir(exist_ok=True)
    try:
        with path.open("x", encoding="utf-8") as file:
            file.write(starter(words.kind, id, words.name))
    except FileExistsError:
        print(f"procgen add: {path} is there already; nothing was changed", file=sys.stderr)
        return PROBLEMS
    print(f"wrote {path}; fill in what you know, leave the rest empty, then: procgen check")
    return SOUND
