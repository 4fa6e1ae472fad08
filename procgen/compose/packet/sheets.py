"""Blank reading sheets: a box for each reading that is wanting, at its exact place; what is in already stands in it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from procgen.compose.names import LOCAL_AXES
from procgen.compose.parts import box
from procgen.compose.readings import Reported
from procgen.compose.scope import UNNAMED, CardScope
from procgen.compose.spoken import Speaker, axis_word
from procgen.formula import State
from procgen.load.job import depth_of
from procgen.model.card import Box
from procgen.model.packet import Sheet, SheetTable
from procgen.model.procedure import Reading
from procgen.units.printing import as_written, headed
from procgen.units.quantity import Quantity

LETTERS = "abcdefghij"


Needed = Mapping[tuple[str, str], set[str]]
"""Card and reading -> the members it is wanting for; "" for all."""


def needed(cards: Iterable[str], speakers: Mapping[str, Speaker]) -> Needed:
    """What the open decisions of these cards wait for, readings of other cards among it."""
    found: dict[tuple[str, str], set[str]] = {}
    for id in cards:
        scope = speakers[id].first
        for decision in scope.procedure.decisions.values():
            for bound in scope.indices(decision.each):
                there = scope.applies(decision.when, bound)
                if there.state is State.NONE or there.value is False:
                    continue
                waits = scope.possible(decision, bound)[1] if there.state is State.KNOWN else (there,)
                for name in (name for cell in waits if cell.state is State.WANTING for name in cell.because):
                    prefix, _, rest = name.rpartition(".")
                    card = prefix.replace("_", "-") or id
                    found.setdefault((card, rest), set()).update(bound.values() or {""})
    return found


def sheet(id: str, speaker: Speaker, asked: Needed) -> Sheet | None:
    """What is wanting for one card; None where nothing is."""
    scope = speaker.first
    names = {name for card, name in asked if card == id}
    wanted = [reading for name, reading in scope.procedure.readings.items() if name in names]
    if not wanted:
        return None
    tools = speaker.first.bench.workshop.tools
    boxes = {reading.name: box(reading, speaker, tools) for reading in wanted}
    return Sheet(
        card=id,
        title=scope.procedure.title,
        gauge="",
        notes=tuple((_head(boxes[reading.name]), _note(boxes[reading.name])) for reading in wanted),
        tables=tuple(_Tables(id, asked, boxes, scope).all(wanted)),
    )


class _Tables:
    """The tables of one card's sheet."""

    def __init__(self, card: str, asked: Needed, boxes: Mapping[str, Box], scope: CardScope) -> None:
        self.card, self.asked, self.boxes, self.scope = card, asked, boxes, scope

    def all(self, wanted: Sequence[Reading]) -> Iterator[tuple[str, SheetTable]]:
        groups: dict[tuple[str, ...], list[Reading]] = {}
        for reading in wanted:
            outer = tuple(axis for axis in reading.each if axis not in LOCAL_AXES)
            groups.setdefault(reading.each if "depth" in reading.each else outer, []).append(reading)
        for each, readings in groups.items():
            if "depth" in each:
                for reading in readings:
                    yield from self.placed(reading)
            elif each:
                yield axis_word(each[0]).capitalize(), self.by_member(each[0], readings)
            else:
                yield "The engine", self.single(readings)

    def single(self, readings: Sequence[Reading]) -> SheetTable:
        rows = []
        for reading in readings:
            for at, head in self.ways(reading):
                rows.append((head, (_cell(reading, at, self.scope),)))
        return SheetTable(("",), (any(not reading.choices for reading in readings),), tuple(rows))

    def by_member(self, each: str, readings: Sequence[Reading]) -> SheetTable:
        """A row for each member, a column for each reading and each way across."""
        columns = [(reading, at, head) for reading in readings for at, head in self.ways(reading)]
        rows = []
        for member in self.scope.members(each):
            mine = [self.wants(reading, member) for reading, _, _ in columns]
            if any(mine):
                cells = [_cell(reading, {each: member, **at}, self.scope) for reading, at, _ in columns]
                row = (cell if wants or cell else "–" for cell, wants in zip(cells, mine, strict=True))
                rows.append((member if member != UNNAMED else "____", tuple(row)))
        heads = tuple(head for _, _, head in columns)
        return SheetTable(heads, tuple(not reading.choices for reading, _, _ in columns), tuple(rows))

    def ways(self, reading: Reading) -> Iterator[tuple[Mapping[str, str], str]]:
        """Each way across, or the reading as a whole; and what its boxes are headed with."""
        if not reading.axis:
            yield {}, _head(self.boxes[reading.name])
        for way, words in reading.axis.items():
            yield {"axis": way}, f"{_head(self.boxes[reading.name])}, {words}"

    def wants(self, reading: Reading, member: str) -> bool:
        return bool({member, ""} & self.asked[self.card, reading.name])

    def placed(self, reading: Reading) -> Iterator[tuple[str, SheetTable]]:
        """A reading at depths: they stand below each other, two members of the same depths side by side."""
        outer = tuple(axis for axis in reading.each if axis not in LOCAL_AXES)
        ways = tuple(reading.axis.items()) or (("", self.boxes[reading.name].title),)
        heads, wide = tuple(words for _, words in ways), (not reading.choices,) * len(ways)
        unit = self.boxes[reading.name].stations_unit
        left = [one for one in self.scope.indices(outer) if not one or self.wants(reading, next(iter(one.values())))]
        while left:
            depths = self.depths(reading, left[0])
            beside = left[: 2 if len(left) > 1 and self.depths(reading, left[1]) == depths else 1]
            del left[: len(beside)]
            names = [" ".join(bound.values()) for bound in beside]
            of = f", {axis_word(outer[0])}{'s' if len(beside) > 1 else ''} {' and '.join(names)}" if outer else ""
            leads = [f"{name}, " if len(beside) > 1 else "" for name in names]
            rows = tuple(
                (said, tuple(cell for one in beside for cell in self.across(reading, {**one, "depth": depth}, ways)))
                for depth, said in depths
            )
            yield (
                f"{_head(self.boxes[reading.name])}{of}",
                SheetTable(
                    tuple(f"{lead}{head}" for lead in leads for head in heads),
                    wide * len(beside),
                    rows,
                    f"depth, {unit}" if unit else "depth",
                ),
            )

    def depths(self, reading: Reading, bound: Mapping[str, str]) -> Sequence[tuple[str, str]]:
        """The card's own depths, and those it was read at already, down the bore; each as it is called and printed."""
        readings = self.scope.bench.readings
        taken = () if readings is None else readings.depths(self.card, tuple(bound.values()))
        texts = self.boxes[reading.name].stations or ("",) * len(self.scope.stations)
        is_mm = self.boxes[reading.name].stations_unit == "mm"  # as it stands in a job's file
        own = {
            at: (mm, at if is_mm else said) for (at, mm), said in zip(self.scope.stations.items(), texts, strict=True)
        }
        found = {**own, **{depth: (depth_of(depth), depth) for depth in taken}}
        return [(at, said) for at, (_, said) in sorted(found.items(), key=lambda one: one[1][0] or 0.0)]

    def across(
        self, reading: Reading, at: Mapping[str, str], ways: Sequence[tuple[str, str]]
    ) -> tuple[str | None, ...]:
        return tuple(_cell(reading, {**at, "axis": way} if way else at, self.scope) for way, _ in ways)


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
    return f"{asked.title}, {headed(asked.unit)}" if asked.unit else asked.title


def _note(asked: Box) -> str:
    parts = [asked.where, asked.how.rstrip("."), f"with {asked.gauge}" if asked.gauge else ""]
    said = ", ".join(part for part in parts if part)
    letters = "; ".join(f"{letter} {words}" for letter, (_, words) in zip(LETTERS, asked.choices, strict=False))
    return ". ".join(part for part in (said, letters) if part)
