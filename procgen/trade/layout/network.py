"""Whether the drillings make a sound network: each of them a line, joined as drawn, and reached from outside."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from procgen.model.family import Family, Passage
from procgen.trade.finding import Finding, said
from procgen.trade.galleys import natural
from procgen.trade.layout.ends import ends_of
from procgen.trade.passages import MEETS, axis, differences, length, nearest, stated_meetings
from procgen.units.lists import listed

SHORTEST = 1.0  # mm: nothing shorter is drilled, and a slip of the pen often makes both ends one point
NARROWEST = 1.0  # mm: no deep drill is thinner
WIDEST = 50.0  # mm: galleys of large engines stay under it; common practice, no source


def lines(family: Family) -> Iterator[Finding]:
    """Every passage has a length and a diameter."""
    for passage in family.passages.values():
        if length(passage) < SHORTEST:
            yield Finding(
                "no-length",
                f"{passage.id} has no length: it goes from one point to the same" if length(passage) == 0
                else f"{passage.id} is only {said(length(passage), family)} long",
                _passages(passage.id),
                "give `from` and `to` the two ends of the drilling",
            )  # fmt: skip
        if not NARROWEST <= passage.diameter <= WIDEST:
            is_narrow = passage.diameter < NARROWEST
            most = f"under {said(NARROWEST, family)}" if is_narrow else f"over {said(WIDEST, family)}"
            yield Finding(
                "no-diameter",
                f"{passage.id} is {said(passage.diameter, family)} across; no oil passage is {most}",
                _passages(passage.id),
                "check its diameter and the file's unit of length",
            )


def with_lines(family: Family) -> Family:
    """The family with only those passages placed that are lines; the others count as not yet placed."""
    return replace(family, passages={id: p for id, p in family.passages.items() if _is_line(p)})


def meetings(family: Family) -> Iterator[Finding]:
    """Passages said to be joined meet in the drawing, and an end that opens to a passage lies on its axis."""
    ending: set[frozenset[str]] = set()
    for passage, opening, here, _ in ends_of(family, "passage"):
        if (other := family.passages.get(opening.of)) is None:
            continue
        ending.add(frozenset((passage.id, other.id)))
        apart = nearest((here, here), axis(other)).apart
        if apart > MEETS:
            yield Finding(
                "end-off-axis",
                f"{passage.id} ends {said(apart, family, 3)} off the axis of {other.id}, which it opens to",
                _passages(passage.id, other.id),
                "move the end onto the axis, or name what it does open to",
                opening.place,
            )
    missing, _ = differences(family)
    for first, second in sorted(_pair(family, pair) for pair in missing - ending):
        apart = nearest(axis(family.passages[first]), axis(family.passages[second])).apart
        yield Finding(
            "passages-apart",
            f"{first} and {second} are said to meet, and pass {said(apart, family, 3)} apart",
            _passages(first, second),
            f"move one, or take {second} out of `crosses`",
        )


def unsaid_meetings(family: Family) -> Iterator[Finding]:
    """Passages that meet in the drawing are said to."""
    _, unsaid = differences(family)
    for first, second in sorted(_pair(family, pair) for pair in unsaid):
        yield Finding(
            "crossing-not-said",
            f"{first} and {second} meet in the drawing, and neither names the other",
            _passages(first, second),
            f"add {second} to `crosses` of {first}, or move one",
        )


def reached(family: Family) -> Iterator[Finding]:
    """Every passage is joined, at once or by others, to an end that opens to something other than a passage."""
    if family.members.get("passage", {}).keys() - family.passages.keys():
        return
    opened = {p.id for p in family.passages.values() if any(opening.kind != "passage" for opening in p.opens)}
    waiting = list(opened)
    while waiting:
        here = waiting.pop()
        beside = {id for pair in stated_meetings(family) if here in pair for id in pair} - opened
        opened |= beside
        waiting += beside
    shut = sorted(family.passages.keys() - opened, key=natural)
    if shut:
        only = "itself" if len(shut) == 1 else "one another"
        yield Finding(
            "no-opening",
            f"no opening reaches {listed(shut)}: joined only to {only}, no drill made it and no brush cleans it"
            if len(shut) == 1 else
            f"no opening reaches {listed(shut)}: joined only to {only}, no drill made them and no brush cleans them",
            _passages(*shut),
            "name the plug, bearing or port that one of them opens to",
        )  # fmt: skip


def _is_line(passage: Passage) -> bool:
    return length(passage) >= SHORTEST and NARROWEST <= passage.diameter <= WIDEST


def _pair(family: Family, pair: frozenset[str]) -> tuple[str, str]:
    """The one that names the other first; by name where neither does."""
    first, second = sorted(pair, key=natural)
    return (second, first) if first in family.passages[second].crosses else (first, second)


def _passages(*ids: str) -> tuple[tuple[str, str], ...]:
    return tuple(("passage", id) for id in ids)
