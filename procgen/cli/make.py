"""`procgen make`: check, then the site and the cards."""

from __future__ import annotations

import sys
from argparse import Namespace

from procgen.cli import PROBLEMS, SOUND, USAGE
from procgen.cli.ways import Bar, cache, read, tell
from procgen.make.build import Made, make
from procgen.make.order import Order, UnknownName
from procgen.make.printing import NoLayout


def run(words: Namespace) -> int:
    order = Order(
        root=words.workshop,
        out=words.out or words.workshop / "site",
        cache=cache(),
        cards=tuple(words.card),
        families=tuple(words.family),
        only=words.only or "",
        stock=words.stock or "",
        theme=words.theme or "",
        workers=words.workers,
    )
    try:
        made = make(order, read, Bar())
    except UnknownName as unknown:
        print(f"procgen make: {unknown}", file=sys.stderr)
        return USAGE
    except NoLayout as missing:
        print(f"procgen make: {missing}", file=sys.stderr)
        return PROBLEMS
    tell(made.problems, made.checked.sources)
    if not made.is_sound:
        print(f"nothing written: {order.out} is as it was", file=sys.stderr)
        return PROBLEMS
    print(f"{order.out}: {_summary(made)}", file=sys.stderr)
    return SOUND


def _summary(made: Made) -> str:
    faces = [count for one in made.printed for count in one.faces]
    parts = [f"{made.pages} pages and files of the site"] if made.pages else []
    if faces:
        parts.append(f"{len(faces)} cards on {sum(faces)} faces")
    return ", ".join(parts)
