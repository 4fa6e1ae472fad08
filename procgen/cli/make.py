"""`procgen make`: check, then the site and the cards."""

from __future__ import annotations

import sys
from argparse import Namespace
from pathlib import Path

from procgen.cli import PROBLEMS, SOUND, USAGE
from procgen.cli.folders import cache
from procgen.cli.ways import Bar, many, read, told
from procgen.make.known import Resident
from procgen.make.making import Made, make
from procgen.make.order import Order, PartFailed, UnknownName
from procgen.make.printing import NoLayout
from procgen.make.publish import objection
from procgen.make.unchanged import Watch
from procgen.make.whole import inputs, outputs

OF_FACES = ("faces", "cut-by-a-face")
"""What is told of cards only where it is asked for: nothing is wrong."""


def run(words: Namespace) -> int:
    order = order_of(words)
    watch = Watch(words.given, cache(), inputs(order))
    done, said = build(order, words.faces)
    if done == SOUND and not order.is_shard:
        watch.settle(outputs(order), inputs(order), said)
    return done


def order_of(words: Namespace) -> Order:
    return Order(
        root=words.workshop,
        out=words.out or words.workshop / "site",
        cache=Path(cache()),
        cards=tuple(words.card),
        families=tuple(words.family),
        only=words.only or "",
        stocks=tuple(dict.fromkeys(words.stock)),
        glance=words.glance or "",
        theme=words.theme or "",
        sheets=words.sheets,
        workers=words.workers,
        shard=words.shard,
    )


def build(order: Order, faces: bool, resident: Resident | None = None) -> tuple[int, str]:
    """Exit code, and all that was said of a sound build. `faces`: of each card's faces too, and what goes overleaf."""
    if not order.is_shard and (why := objection(order.out, order.root, order.is_partial)):
        print(f"procgen make: {why}; name another folder with --out", file=sys.stderr)
        return USAGE, ""
    try:
        made = make(order, read, Bar(), resident)
    except UnknownName as unknown:
        print(f"procgen make: {unknown}", file=sys.stderr)
        return USAGE, ""
    except NoLayout as missing:
        print(f"procgen make: {missing}", file=sys.stderr)
        return PROBLEMS, ""
    except PartFailed as failed:
        print(f"procgen make: {failed}\nnothing written: {order.out} is as it was", file=sys.stderr)
        return PROBLEMS, ""
    wanted = [one for one in made.problems if faces or one.code not in OF_FACES]
    said = told(wanted, made.sources, brief=True)
    if made.is_sound and any(one.code == "not-yet-known" for one in wanted):
        said += "`procgen check` lists what is blank, card by card\n"
    print(said, end="", file=sys.stderr)
    if not made.is_sound:
        print(f"nothing written: {order.out} is as it was", file=sys.stderr)
        return PROBLEMS, ""
    if made.slow:
        print(f"procgen make: {made.slow}", file=sys.stderr)
    which, parts = order.shard
    summary = f"{f'shard {which}/{parts}' if order.is_shard else order.out}: {_summary(made)}\n"
    print(summary, end="", file=sys.stderr)
    return SOUND, said + summary


def _summary(made: Made) -> str:
    parts = [many(made.pages, "page or file", "pages and files") + " of the site"] if made.pages else []
    if made.faces:
        parts.append(f"{many(len(made.faces), 'card')} on {many(sum(made.faces), 'face')}")
    return ", ".join(parts) or "nothing to do"
