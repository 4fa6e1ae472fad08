"""Whether every open end has its plug, every plug an end, and whether plugs go in without shutting anything."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.model.family import Family
from procgen.trade.finding import Finding, mm
from procgen.trade.noses import nose
from procgen.trade.threads import ThreadError, parse
from procgen.units.compare import at_most
from procgen.units.dimension import LENGTH


def open_ends(family: Family) -> Iterator[Finding]:
    """An end stands open where nothing closes it, or where what it is said to open to is not there."""
    for passage in family.passages.values():
        for opening in passage.opens:
            subject = (("passage", passage.id),)
            if opening.kind == "open":
                yield Finding("open-end", f"an end of {passage.id} stands open", subject, "name what closes it")
            elif opening.kind == "plug" and opening.of not in family.plugs:
                yield Finding(
                    "open-end",
                    f"an end of {passage.id} opens to plug {opening.of}, which is not listed",
                    subject,
                    f"list {opening.of} under plugs",
                )
            elif opening.kind == "passage" and opening.of not in family.passages:
                yield Finding(
                    "open-end",
                    f"an end of {passage.id} opens to {opening.of}, which is not listed",
                    subject,
                    f"list {opening.of} under passages",
                )


def idle_plugs(family: Family) -> Iterator[Finding]:
    """A plug closes some passage."""
    for plug in family.plugs.values():
        if not any(closed in family.passages for closed in plug.closes):
            yield Finding("idle-plug", f"plug {plug.id} closes no passage", (("plug", plug.id),))


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
                    f"{plug.thread} is tapped from {mm(drill)}, {closed} is {mm(passage.diameter)}",
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
                f"the nose of plug {plug.id} goes {mm(found.least)} to {mm(found.most)} deep; "
                f"{found.behind} opens at {mm(found.room)}",
                (("plug", plug.id), ("passage", found.behind)),
                "a shorter plug, or move the passage",
            )
