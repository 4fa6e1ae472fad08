"""A family's drillings and the plugs that close them. What isn't fully placed yet is left out, as not yet known."""

from __future__ import annotations

from procgen.files.document import Cursor
from procgen.files.problems import Place
from procgen.load.facts import EVERY
from procgen.load.reader import Reader, entries, placed, word, words
from procgen.model.family import Opening, Passage, Plug, Point, WaterPlug
from procgen.units.dimension import LENGTH


def passages(at: Cursor | None, reader: Reader) -> dict[str, Passage]:
    found = {}
    for id, spec, place in _members(at):
        start, end = point(spec.get("from"), reader), point(spec.get("to"), reader)
        diameter = reader.value(spec.get("diameter"), "length")
        opens = tuple(_opening(text, where) for text, where in placed(spec.get("opens")))
        if start is not None and end is not None and diameter is not None and len(opens) == 2:
            ends = (opens[0], opens[1])
            crosses = words(spec.get("crosses"))
            found[id] = Passage(id, start, end, diameter, ends, crosses, place, word(spec.get("note")))
    return found


def plugs(at: Cursor | None, reader: Reader) -> dict[str, Plug]:
    found = {}
    for id, spec, place in _members(at):
        middle = point(spec.get("at"), reader)
        if middle is not None:
            found[id] = Plug(
                id=id,
                thread=word(spec.get("thread")),
                at=middle,
                closes=words(spec.get("closes")),
                where=word(spec.get("where")),
                kind=word(spec.get("kind"), "plug"),
                place=place,
                length=reader.value(spec.get("length"), "length"),
                seal=word(spec.get("seal")),
            )
    return found


def core_plugs(at: Cursor | None, reader: Reader) -> dict[str, WaterPlug]:
    found = {}
    for id, spec, place in _members(at):
        sizes = reader.quantities(spec.get("plug_od"), LENGTH) or ()
        least, most = (sizes[0].value, sizes[1].value) if len(sizes) == 2 else (None, None)
        found[id] = WaterPlug(
            id=id,
            kind=word(spec.get("kind")),
            where=word(spec.get("where")),
            place=place,
            at=point(spec.get("at"), reader),
            bore=reader.value(spec.get("bore"), "length"),
            od_min=least,
            od_max=most,
            deepest=reader.value(spec.get("deepest"), "length"),
            note=word(spec.get("note")),
        )
    return found


def drain_plugs(at: Cursor | None, reader: Reader) -> dict[str, WaterPlug]:
    return {
        id: WaterPlug(
            id=id,
            kind="drain",
            where=word(spec.get("where")),
            place=place,
            at=point(spec.get("at"), reader),
            thread=word(spec.get("thread")),
            note=word(spec.get("note")) or word(spec.get("drains")),
        )
        for id, spec, place in _members(at)
    }


def point(at: Cursor | None, reader: Reader) -> Point | None:
    read = reader.quantities(at, LENGTH)
    return (read[0].value, read[1].value, read[2].value) if read is not None and len(read) == 3 else None


def _opening(text: str, place: Place) -> Opening:
    kind, _, of = text.partition(" ")
    return Opening(kind, of, place)


def _members(at: Cursor | None) -> list[tuple[str, Cursor, Place]]:
    return [(id, spec, place) for id, spec, place in entries(at) if id != EVERY and not spec.is_empty]
