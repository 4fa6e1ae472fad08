"""What hangs on a step: value rows, tables, readings to take."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from procgen.compose import figures
from procgen.compose.names import LOCAL_AXES
from procgen.compose.scope import UNNAMED, CardScope
from procgen.compose.spoken import Bound, Speaker, axis_word
from procgen.formula import State, known
from procgen.formula.words import lowered
from procgen.model.card import Box, Figure, Grid, Row
from procgen.model.procedure import Reading, TableSpec, ValueSpec
from procgen.model.workshop import Tool
from procgen.units.dimension import NAMES, NUMBER
from procgen.units.printing import headed
from procgen.units.quantity import parse_show

STATION_SHOW = parse_show("0.1 mm")


def value_rows(name: str, speaker: Speaker) -> Iterator[Row]:
    """The rows of one value: its figure where the family alone gives it, else the limits that its reading must keep."""
    meaning = speaker.meaning(name)
    spec = meaning.spec
    if not isinstance(spec, ValueSpec):
        for found, members in _alike(speaker, speaker.first.axes(meaning), lambda bound: speaker.rounded(name, bound)):
            title = meaning.title[:1].upper() + meaning.title[1:]
            yield Row(name, f"{title}, {members}" if members else title, found)
        return
    axes = spec.each
    cells = [c for scope in speaker.scopes.values() for c in scope.whole(name).cells.values()]
    if cells and all(cell.state is State.NONE for cell in cells):
        return
    settled = not axes and not any(cell.state is State.WANTING for cell in cells)
    if settled:
        yield Row(name, spec.title, speaker.figures(name))
    if spec.limits is not None:
        label = f"{spec.title}, limit" if settled else spec.title
        for found, members in _alike(speaker, axes, lambda bound: speaker.limit(name, bound)):
            yield Row(name, f"{label}, {members}" if members else label, found)
    elif not settled and (bound := next(speaker.first.indices(axes), None)) is not None:
        yield Row(name, spec.title, (Figure("", speaker.figures(name, bound)[0].unit, state="wanting"),))


def _alike(
    speaker: Speaker, axes: tuple[str, ...], figures_of: Callable[[Bound], tuple[Figure, ...]]
) -> Iterator[tuple[tuple[Figure, ...], str]]:
    """The figures of each member, once for all members that share them, and whose they are."""
    groups: dict[tuple[Figure, ...], list[str]] = {}
    for bound in speaker.first.indices(axes):
        groups.setdefault(figures_of(bound), []).append(" ".join(bound.values()))
    for found, members in groups.items():
        yield found, "" if len(groups) == 1 else f"{axis_word(axes[0])} {', '.join(members)}"


def grid(table: TableSpec, speaker: Speaker) -> Grid:
    """A table with a row for each member. A unit that a whole column shares stands in its head. Where the first column
    numbers the members, they stand by number: people work down a list.
    """
    members = speaker.first.members(table.each)
    columns = [_column(name, table.each, members, speaker) for name, _ in table.show]
    head = [axis_word(table.each)]
    for (name, _), column in zip(table.show, columns, strict=True):
        units = {figure.unit for figure in column if figure.text}
        unit = units.pop() if len(units) == 1 else ""
        title = lowered(speaker.title(name))
        head.append(f"{title}, {headed(unit)}" if unit else title)
        if unit:
            column[:] = [replace(figure, unit="") for figure in column]
    rows = list(zip(members, zip(*columns, strict=True), strict=True))
    if {row[1][0].text for row in rows} == {str(number) for number in range(1, len(rows) + 1)}:
        rows.sort(key=lambda row: int(row[1][0].text))
    return Grid(tuple(head), tuple((member or "____", tuple(cells)) for member, cells in rows))


def _column(name: str, each: str, members: tuple[str, ...], speaker: Speaker) -> list[Figure]:
    axes = speaker.first.axes(speaker.meaning(name))
    column = []
    for member in members:
        found = speaker.rounded(name, {each: member} if each in axes else {})
        best = next((figure for figure in found if figure.state == "known"), found[0])
        text = " / ".join(figure.text or "____" for figure in found) if len(found) > 1 else best.text
        column.append(replace(best, text=text, also="", variant=""))
    return column


def box(reading: Reading, speaker: Speaker, tools: Mapping[str, Tool]) -> Box:
    """A reading to take."""
    axes = [axis for axis in reading.each if axis not in LOCAL_AXES]
    unit = "" if reading.choices else _unit(reading, speaker)
    stations = _stations(reading, speaker)
    counts = {figure.text.count(" · ") + 1 if figure.text else 0 for figure in stations} or {1}
    gauge = reading.gauge.replace("_", "-")
    return Box(
        name=reading.name,
        title=reading.title,
        members=tuple(m for m in speaker.first.members(axes[0]) if m != UNNAMED) if axes else (),
        member_word=axis_word(axes[0]) if axes else "",
        choices=tuple(reading.choices.items()),
        unit=unit,
        gauge=tools[gauge].name if gauge in tools else reading.gauge.replace("_", " "),
        where=reading.where,
        how=reading.how,
        stations=tuple(stations[0].text.split(" · ")) if len(stations) == 1 and stations[0].text else (),
        stations_unit=stations[0].unit if stations and stations[0].text else "",
        axes=tuple(reading.axis.items()),
        depths=counts.pop() if len(counts) == 1 else 0,
    )


def station_rows(reading: Reading, speaker: Speaker) -> Iterator[Row]:
    """The depths to measure at as a row a variant, where the variants differ."""
    stations = _stations(reading, speaker)
    if len(stations) > 1:
        yield Row(reading.name, f"{reading.title}: depths below the deck", stations)


def _stations(reading: Reading, speaker: Speaker) -> tuple[Figure, ...]:
    if "depth" not in reading.each:
        return ()
    return speaker.by_variant(lambda scope: _depths(scope, speaker))


def _depths(scope: CardScope, speaker: Speaker) -> Figure:
    depths = [mm for mm in scope.stations.values() if mm is not None]
    parts = [figures.computed(known(mm), STATION_SHOW, speaker.units) for mm in depths]
    if not parts:
        return figures.blank(speaker.units.of(STATION_SHOW.unit))
    return Figure(" · ".join(part.text for part in parts), parts[0].unit)


def _unit(reading: Reading, speaker: Speaker) -> str:
    dimension = NAMES.get(reading.dimension, NUMBER)
    return speaker.units.usual(dimension).printed
