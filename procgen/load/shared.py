"""What many procedures use: cautions, traits, tools, tables, stocks. Each function loads one entry."""

from __future__ import annotations

from procgen.files.document import Cursor
from procgen.files.problems import Place
from procgen.load.reader import Reader, entries, word, words
from procgen.model.workshop import Caution, Hole, ReadFrom, Stock, Table, Tool, Trait
from procgen.trade.traits import CONCLUSIONS
from procgen.units.dimension import LENGTH, NAMES
from procgen.units.nearest import did_you_mean
from procgen.units.quantity import Quantity
from procgen.units.table import UNITS

NEAREST, FARTHEST = 200.0, 10_000.0
"""mm that a card may be read from: nearer nobody sees sharply, farther no card has room for the letters."""

SEAL_MARGIN = 5.0
"""mm, where a stock does not say."""


def caution(id: str, spec: Cursor, place: Place, reader: Reader) -> Caution:
    return Caution(
        id=id,
        level=word(spec.get("level")),
        symbols=words(spec.get("symbol")),
        hazard=word(spec.get("hazard")),
        consequence=word(spec.get("consequence")),
        avoid=word(spec.get("avoid")),
        defers_to=word(spec.get("defers_to")),
        source=word(spec.get("source")),
        place=place,
    )


def trait(id: str, spec: Cursor, place: Place, reader: Reader) -> Trait | None:
    values = {name: word(meaning) for name, meaning, _ in entries(spec.get("values"))}
    concluded = spec.known("concluded_by")
    if concluded is not None and word(concluded) not in CONCLUSIONS:
        hint = did_you_mean(word(concluded), CONCLUSIONS) or f"known here: {', '.join(CONCLUSIONS)}"
        reader.error("no-conclusion", f"no rule is named `{word(concluded)}`", concluded.place, hint)
        return None
    return Trait(id, word(spec.get("title")), values, word(spec.get("concluded_by")), place, word(spec.get("clause")))


def tool(id: str, spec: Cursor, place: Place, reader: Reader) -> Tool:
    only = {trait: (word(value), at) for trait, value, at in entries(spec.get("only"))}
    return Tool(id, word(spec.get("name")), word(spec.get("kind")), place, only)


def _or(value: float | None, default: float) -> float:
    return default if value is None else value


def stock(id: str, spec: Cursor, place: Place, reader: Reader) -> Stock | None:
    size = reader.quantities(spec.get("size"), LENGTH)
    if size is None:
        return None
    return Stock(
        id=id,
        name=word(spec.get("name"), id),
        width=size[0].value,
        height=size[1].value,
        seal_margin=_or(reader.value(spec.get("seal_margin"), "length"), SEAL_MARGIN),
        corner_radius=reader.value(spec.get("corner_radius"), "length") or 0.0,
        hole=_hole(spec.known("hole"), reader),
        source=word(spec.get("source")),
        place=place,
        read_from=distances(near, reader) if (near := spec.known("read_from")) is not None else None,
    )


def distances(at: Cursor | None, reader: Reader) -> ReadFrom:
    """From which a card is read; what is not said, as usual."""
    if at is None:
        return ReadFrom()
    read = {part: reader.value(at.get(part), "length") for part in ("steps", "values", "title", "hand", "glance")}
    for part, distance in read.items():
        if distance is not None and not NEAREST <= distance <= FARTHEST:
            message = f"nobody reads a card from {at[part].text().value}"
            reader.error("out-of-range", message, at[part].place, "write 0.2 m to 10 m, as in 0.7 m")
    return ReadFrom(**{part: distance for part, distance in read.items() if distance is not None})


def _hole(spec: Cursor | None, reader: Reader) -> Hole | None:
    if spec is None:
        return None
    across = reader.value(spec.get("across"), "length")
    centre = reader.quantities(spec.get("centre"), LENGTH)
    if across is None or centre is None:
        return None
    return Hole(
        shape=word(spec.get("shape"), "round"),
        across=across,
        centre=(centre[0].value, centre[1].value),
        keep_clear=reader.value(spec.get("keep_clear"), "length") or 0.0,
        length=reader.value(spec.get("length"), "length") or 0.0,
    )


def table(id: str, spec: Cursor, place: Place, reader: Reader) -> Table:
    columns = {name: column for name, column, _ in entries(spec.get("columns"))}
    rows = {}
    for row, cells, at in entries(spec.get("rows")):
        rows[row] = _row(cells, columns, reader)
        if absent := [name for name in columns if name not in cells]:
            hint = f"add {', '.join(f'`{name}:`' for name in absent)}, left empty where it is not known"
            reader.error("table-column", f"row `{row}` does not fill all columns of the table", at, hint)
    return Table(id, word(spec.get("title")), word(spec.get("source")), rows, place)


def _row(cells: Cursor, columns: dict[str, Cursor], reader: Reader) -> dict[str, Quantity | str]:
    row: dict[str, Quantity | str] = {}
    for name, cell, place in entries(cells):
        if name not in columns and name != "source":
            reader.error("table-column", f"the table has no column `{name}`", place, did_you_mean(name, columns))
        elif not cell.is_empty:
            content = _cell(cell, columns.get(name), reader)
            if content is not None:
                row[name] = content
    return row


def _cell(cell: Cursor, column: Cursor | None, reader: Reader) -> Quantity | str | None:
    kind = word(column.get("quantity")) if column is not None else ""
    if not kind or column is None:
        return word(cell)
    return reader.quantity(cell, NAMES[kind], UNITS.get(word(column.get("unit"))))
