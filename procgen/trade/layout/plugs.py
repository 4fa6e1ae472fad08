"""Whether every open end has its plug, every plug an end, and whether plugs go in without shutting anything."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.model.family import Family, Opening
from procgen.trade.finding import Finding, said
from procgen.trade.forgotten import cost_of, in_a_sentence
from procgen.trade.noses import nose
from procgen.trade.passages import axis
from procgen.trade.threads import ThreadError, parse
from procgen.units.compare import at_most
from procgen.units.dimension import LENGTH


def open_ends(family: Family) -> Iterator[Finding]:
    """An end stands open where nothing closes it, or where what it is said to open to is not listed.

    Of a plug or passage that is listed but not yet placed, nothing is said; nor where no plugs are listed at all.
    """
    for passage in family.passages.values():
        for opening, end in zip(passage.opens, axis(passage), strict=True):
            subject = (("passage", passage.id),)
            if opening.kind == "open":
                said, mend = "stands open", "name what closes it"
            elif opening.kind in ("plug", "passage") and _is_missing(family, opening):
                said = f"opens to {opening}, which is not listed"
                mend = f"list {opening.of}, or name what closes this end"
            else:
                continue
            cost = cost_of(family, (passage.id,), end)
            told = f": {in_a_sentence(cost)}" if cost is not None else ""
            yield Finding("open-end", f"an end of {passage.id} {said}{told}", subject, mend, opening.place)


def idle_plugs(family: Family) -> Iterator[Finding]:
    """A plug closes some passage, by its own word or by a passage end's. Not asked before passages are known."""
    named = {opening.of for passage in family.passages.values() for opening in passage.opens if opening.kind == "plug"}
    listed = family.members.get("passage", {})
    for plug in family.plugs.values() if family.passages else ():
        if plug.id not in named and not any(closed in listed for closed in plug.closes):
            yield Finding("idle-plug", f"plug {plug.id} closes no passage", (("plug", plug.id),))


def drain_threads(family: Family) -> Iterator[Finding]:
    """The thread of a drain plug is one of a listed kind, as those of oil plugs are."""
    for plug in family.drain_plugs.values():
        try:
            if plug.thread:
                parse(plug.thread)
        except ThreadError as error:
            yield Finding("thread-unknown", error.message, (("drain_plug", plug.id),), error.hint)


def tap_drills(family: Family) -> Iterator[Finding]:
    """The hole under a plug's thread is no smaller than the passage, so that the plug seals beyond the drilling."""
    for plug in family.plugs.values():
        try:
            drill = parse(plug.thread).tap_drill
        except ThreadError as error:
            if plug.thread:
                yield Finding("thread-unknown", error.message, (("plug", plug.id),), error.hint)
            continue
        for closed in plug.closes:
            passage = family.passages.get(closed)
            if passage is not None and not at_most(passage.diameter, drill, LENGTH):
                yield Finding(
                    "tap-drill",
                    f"plug {plug.id} is too small for {closed}: {plug.thread} is tapped from {said(drill, family)}, "
                    f"the passage is {said(passage.diameter, family)}",
                    (("plug", plug.id), ("passage", closed)),
                    "a larger plug",
                )


def plug_noses(family: Family) -> Iterator[Finding]:
    """No plug run home covers the first passage that opens behind it."""
    for plug in family.plugs.values():
        found = nose(family, plug)
        if found is None or found.least is None or found.most is None:
            continue
        if not at_most(found.most, found.room, LENGTH):
            yield Finding(
                "plug-nose",
                f"the nose of plug {plug.id} goes {said(found.least, family)} to "
                f"{said(found.most, family)} deep; "
                f"{found.behind} opens at {said(found.room, family)}",
                (("plug", plug.id), *((("passage", found.behind),) if found.behind in family.passages else ())),
                "a shorter plug, or move the passage",
            )


def _is_missing(family: Family, opening: Opening) -> bool:
    listed = family.members.get(opening.kind)
    return listed is not None and opening.of not in listed
