"""Blank reading sheets: a box for each reading that is wanting, at its exact place; what is in already stands in it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from procgen.compose.names import LOCAL_AXES
from procgen.compose.parts import box
from procgen.compose.readings import Reported
from procgen.compose.scope import UNNAMED, CardScope
from procgen.compose.spoken import Speaker, axis_word
from procgen.formula import State
from procgen.model.card import Box
from procgen.model.packet import Sheet, SheetTable
from procgen.model.procedure import Reading
from procgen.units.printing import as_written
from procgen.units.quantity import Quantity

LETTERS = "abcdefghij"


def sheet(id: str, speaker: Speaker) -> Sheet | None:
    """What is wanting for one card; None where nothing is."""
    scope = speaker.first
    wanted = [reading for reading in scope.procedure.readings.values() if _is_wanting(reading, scope)]
    if not wanted:
        return None
    tools = speaker.first.bench.workshop.tools
    boxes = {reading.name: box(reading, speaker, tools) for reading in wanted}
    return Sheet(
        card=id,
        title=scope.procedure.title,
        gauge="",
        notes=tuple((_head(boxes[reading.name]), _note(boxes[reading.name])) for reading in wanted),
        tables=tuple(_tables(wanted, boxes, scope)),
    )


def _is_wanting(reading: Reading, scope: CardScope) -> bool:
    return any(cell.state is State.WANTING for cell in scope.whole(reading.name).cells.values())


def _tables(wanted: Sequence[Reading], boxes: Mapping[str, Box], scope: CardScope) -> Iterator[tuple[str, SheetTable]]:
    groups: dict[tuple[str, ...], list[Reading]] = {}
    for reading in wanted:
        groups.setdefault(reading.each, []).append(reading)
    for each, readings in groups.items():
        if not each:
            yield "The engine", _single(readings, boxes, scope)
        elif not set(each) & set(LOCAL_AXES):
            yield axis_word(each[0]).capitalize(), _by_member(each[0], readings, boxes, scope)
        else:
            for reading in readings:
                yield from _placed(reading, boxes[reading.name], scope)


def _single(readings: Sequence[Reading], boxes: Mapping[str, Box], scope: CardScope) -> SheetTable:
    rows = tuple((_head(boxes[reading.name]), (_cell(reading, {}, scope),)) for reading in readings)
    return SheetTable(("",), (any(not reading.choices for reading in readings),), rows)


def _by_member(each: str, readings: Sequence[Reading], boxes: Mapping[str, Box], scope: CardScope) -> SheetTable:
    rows = []
    for member in scope.members(each):
        cells = tuple(_cell(reading, {each: member}, scope) for reading in readings)
        if None in cells:
            rows.append((member if member != UNNAMED else "____", cells))
    heads = tuple(_head(boxes[reading.name]) for reading in readings)
    return SheetTable(heads, tuple(not reading.choices for reading in readings), tuple(rows))


def _placed(reading: Reading, asked: Box, scope: CardScope) -> Iterator[tuple[str, SheetTable]]:
    """Readings at depths or ways across: a table a member with the depths below each other, or one for all members."""
    outer = tuple(axis for axis in reading.each if axis not in LOCAL_AXES)
    ways = tuple(reading.axis.items()) or (("", asked.title),)
    heads = tuple(words for _, words in ways)
    if "depth" not in reading.each:
        rows = []
        for bound in scope.indices(outer):
            cells = tuple(_cell(reading, {**bound, "axis": way}, scope) for way, _ in ways)
            if None in cells:
                rows.append((" ".join(bound.values()), cells))
        if rows:
            yield _head(asked), SheetTable(heads, (True,) * len(heads), tuple(rows))
        return
    for bound in scope.indices(outer):
        if not _fewer(reading, bound, scope):
            continue
        texts = asked.stations or ("",) * len(scope.stations)
        depths = dict(zip(scope.stations, texts, strict=True))
        places = [{**bound, "depth": depth} for depth in _depths(reading, bound, depths, scope)]
        rows = [(depths.get(at["depth"], at["depth"]), _across(reading, at, ways, scope)) for at in places]
        title = f"{_head(asked)}, {axis_word(outer[0])} {' '.join(bound.values())}" if outer else _head(asked)
        yield title, SheetTable(heads, (not reading.choices,) * len(heads), tuple(rows))


def _depths(
    reading: Reading, bound: Mapping[str, str], asked: Mapping[str, str], scope: CardScope
) -> tuple[str, ...]:
    """Where it was read already, and then the card's own depths, down the bore."""
    readings = scope.bench.readings
    taken = () if readings is None else readings.depths(scope.procedure.id, tuple(bound.values()))
    if not taken:
        return tuple(asked)
    return tuple(sorted({*taken, *asked}, key=lambda text: float(text) if text.replace(".", "", 1).isdigit() else 0.0))


def _across(
    reading: Reading, at: Mapping[str, str], ways: Sequence[tuple[str, str]], scope: CardScope
) -> tuple[str | None, ...]:
    return tuple(_cell(reading, {**at, "axis": way} if way else at, scope) for way, _ in ways)


def _fewer(reading: Reading, bound: Mapping[str, str], scope: CardScope) -> bool:
    """Whether that member is still wanting any."""
    cells = scope.whole(reading.name).cells
    mine = tuple(bound.values())
    return any(index[: len(mine)] == mine and cell.state is State.WANTING for index, cell in cells.items())


def _cell(reading: Reading, bound: Mapping[str, str], scope: CardScope) -> str | None:
    """The reading as it was taken, "–" where it does not apply, None for a box to write in."""
    index = tuple(bound[axis] for axis in reading.each)
    cell = scope.whole(reading.name).cells.get(index)
    if cell is not None and cell.state is State.NONE:
        return "–"
    readings = scope.bench.readings
    found = None if readings is None else readings.standing(scope.procedure.id, reading.name, index)
    if found is None or (cell is not None and cell.state is State.WANTING):
        return None
    return _as_taken(found, reading)


def _as_taken(found: Reported, reading: Reading) -> str:
    value = found.taken.value
    if isinstance(value, Quantity):
        return as_written(value)
    return LETTERS[list(reading.choices).index(str(value))]


def _head(asked: Box) -> str:
    return f"{asked.title}, {asked.unit}" if asked.unit else asked.title


def _note(asked: Box) -> str:
    parts = [asked.where, asked.how.rstrip("."), f"with {asked.gauge}" if asked.gauge else ""]
    said = ", ".join(part for part in parts if part)
    letters = "; ".join(f"{letter} {words}" for letter, (_, words) in zip(LETTERS, asked.choices, strict=False))
    return ". ".join(part for part in (said, letters) if part)
