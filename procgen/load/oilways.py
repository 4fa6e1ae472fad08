"""A family's drillings and the plugs that close them. What isn't fully placed yet is left out, as not yet known."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial

from procgen.files.document import Cursor
from procgen.files.problems import Place
from procgen.load.facts import EVERY
from procgen.load.reader import Reader, entries, placed, word, words
from procgen.model.family import Opening, Passage, Plug, Point, WaterPlug
from procgen.trade.threads import printed
from procgen.units.dimension import LENGTH


def passages(at: Cursor | None, reader: Reader) -> dict[str, Passage]:
    found = {}
    for id, part, place in _members(at):
        start, end = point(part("from"), reader), point(part("to"), reader)
        diameter = reader.value(part("diameter"), "length")
        opens = tuple(_opening(text, where) for text, where in placed(part("opens")))
        if start is not None and end is not None and diameter is not None and len(opens) == 2:
            ends = (opens[0], opens[1])
            crosses = words(part("crosses"))
            found[id] = Passage(id, start, end, diameter, ends, crosses, place, word(part("note")))
    return found


def plugs(at: Cursor | None, reader: Reader) -> dict[str, Plug]:
    """By id, in the order of the file; one without a place is not yet known."""
    found = {}
    for id, part, place in _members(at):
        middle = point(part("at"), reader)
        if middle is not None:
            found[id] = Plug(
                id=id,
                thread=printed(word(part("thread"))),
                at=middle,
                closes=words(part("closes")),
                where=word(part("where")),
                kind=word(part("kind"), "plug"),
                place=place,
                length=reader.value(part("length"), "length"),
                seal=word(part("seal")),
            )
    return found


def core_plugs(at: Cursor | None, reader: Reader) -> dict[str, WaterPlug]:
    found = {}
    for id, part, place in _members(at):
        sizes = reader.quantities(part("plug_od"), LENGTH) or ()
        least, most = (sizes[0].value, sizes[1].value) if len(sizes) == 2 else (None, None)
        found[id] = WaterPlug(
            id=id,
            kind=word(part("kind")),
            where=word(part("where")),
            place=place,
            at=point(part("at"), reader),
            bore=reader.value(part("bore"), "length"),
            od_min=least,
            od_max=most,
            deepest=reader.value(part("deepest"), "length"),
            note=word(part("note")),
        )
    return found


def drain_plugs(at: Cursor | None, reader: Reader) -> dict[str, WaterPlug]:
    return {
        id: WaterPlug(
            id=id,
            kind="drain",
            where=word(part("where")),
            place=place,
            at=point(part("at"), reader),
            thread=printed(word(part("thread"))),
            note=word(part("note")) or word(part("drains")),
        )
        for id, part, place in _members(at)
    }


def point(at: Cursor | None, reader: Reader) -> Point | None:
    read = reader.quantities(at, LENGTH)
    return (read[0].value, read[1].value, read[2].value) if read is not None and len(read) == 3 else None


def _opening(text: str, place: Place) -> Opening:
    kind, _, of = text.partition(" ")
    return Opening(kind, of, place)


Part = Callable[[str], Cursor | None]
"""Gives the part of one member that stands under a key."""


def _members(at: Cursor | None) -> Iterator[tuple[str, Part, Place]]:
    """Each member with what it says itself, and under that what holds for every one."""
    every = at.get(EVERY) if at is not None else None
    for id, own, place in entries(at):
        if id != EVERY:
            yield id, partial(_part, own, every), place


def _part(own: Cursor, every: Cursor | None, key: str) -> Cursor | None:
    return own.get(key) if key in own or every is None else every.get(key)
