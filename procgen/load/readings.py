"""Readings from a CSV file: its rows as the sessions of a job's file, each value with its line and column.

One reading a row. Needed columns: reading, value. Others: card, session, continues, on, by, temperature, gauge, unit,
one for each thing that readings are of (cylinder, main, plug, ...), depth and axis. Separated by commas, semicolons or
tabs.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Iterator, Mapping
from typing import TypeAlias

from procgen.files.document import Cursor, Document, Node, Number
from procgen.files.problems import Place, Problem, Related, error
from procgen.load.names import axis_paths
from procgen.model.procedure import Procedure
from procgen.units.nearest import did_you_mean

NEEDED = ("reading", "value")
SESSION = ("session", "continues", "card", "on", "by", "temperature", "gauge")
WITHIN = ("depth", "axis")
NAME = "csv"
"""What a session is called that the file does not name."""

_NUMBER = re.compile(r"[-+]?(\d+(\.\d*)?|\.\d+)([eE][-+]?\d+)?")
_DAY = re.compile(r"\d{4}-\d{2}-\d{2}")
Field: TypeAlias = tuple[str, Place]
Row: TypeAlias = Mapping[str, Field]
Tree: TypeAlias = "dict[str, tuple[Place, Tree | Field]]"


def csv_sessions(
    shown: str, content: bytes, procedures: Mapping[str, Procedure]
) -> tuple[tuple[Cursor, ...], tuple[Problem, ...]]:
    """The sessions of a CSV file, as they would stand in a job's file. `shown`: its path in problems."""
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        return (), (error("not-utf-8", "the file is not UTF-8 text", Place(shown), "save it as CSV UTF-8"),)
    table = _Table(shown, procedures)
    for row in table.rows(text):
        table.take(row)
    sessions = (_node(tree, Place(shown)) for tree in table.sessions.values())
    return tuple(Document(shown, node).root() for node in sessions), tuple(table.problems)


class _Table:
    def __init__(self, shown: str, procedures: Mapping[str, Procedure]) -> None:
        self.shown, self.procedures = shown, procedures
        self.problems: list[Problem] = []
        self.sessions: dict[tuple[str, str], Tree] = {}

    def error(self, code: str, message: str, place: Place, hint: str = "", first: Place | None = None) -> None:
        related = () if first is None else (Related(first, "first read here"),)
        self.problems.append(error(code, message, place, hint, related))

    def rows(self, text: str) -> Iterator[Row]:
        lines = text.splitlines()
        heads = list(_fields(lines[0], _separator(lines[0]), self.shown, 1)) if lines else []
        known = (*NEEDED, *SESSION, "unit", *axis_paths(), *WITHIN)
        for head, place in heads:
            if head not in known:
                self.error("no-column", f"there is no column `{head}`", place, did_you_mean(head, known))
        for needed in NEEDED:
            if needed not in [head for head, _ in heads]:
                self.error("no-column", f"the column `{needed}` is missing", Place(self.shown), f"add `{needed}`")
        for number, line in enumerate(lines[1:], start=2):
            if self.problems or not line.strip(",;\t "):
                continue
            fields = list(_fields(line, _separator(lines[0]), self.shown, number))
            if len(fields) != len(heads):
                message = f"{len(fields)} fields here, {len(heads)} columns above"
                self.error("fields", message, Place(self.shown, number), "a separator too many or too few?")
                return
            yield {head: field for (head, _), field in zip(heads, fields, strict=True)}

    def take(self, row: Row) -> None:
        card = self._card(row)
        if card is None:
            return
        session = self._session(row, card)
        above = [(axis, row[axis]) for axis in axis_paths() if _said(row, axis)]
        way = [part for axis, member in above for part in ((axis, member[1]), member)] + [row["reading"]]
        way += [row[axis] for axis in WITHIN if _said(row, axis)]
        value, place = row["value"]
        unit = row.get("unit", ("", place))[0]
        at = session
        for key, key_place in way[:-1]:
            _, below = at.setdefault(key, (key_place, {}))
            if not isinstance(below, dict):
                self.error("read-twice", f"`{row['reading'][0]}` was read already", place, "keep one of the two")
                return
            at = below
        last, last_place = way[-1]
        if last in at:
            what = " ".join([row["reading"][0], *(key for key, _ in way if key != row["reading"][0])])
            self.error("read-twice", f"{what} was read already", place, "keep one of the two", at[last][0])
            return
        at[last] = (last_place, (f"{value} {unit}".strip() if value else "", place))

    def _card(self, row: Row) -> str | None:
        if _said(row, "card"):
            return row["card"][0]
        name, place = row["reading"]
        takers = [id for id, procedure in self.procedures.items() if name in procedure.readings]
        if len(takers) == 1:
            return takers[0]
        if not takers:
            names = {name for procedure in self.procedures.values() for name in procedure.readings}
            self.error("no-reading", f"no card takes a reading `{name}`", place, did_you_mean(name, names))
        else:
            self.error("which-card", f"`{name}` is read for {' and '.join(takers)}", place, "add a column `card`")
        return None

    def _session(self, row: Row, card: str) -> Tree:
        start = row["reading"][1]
        name, place = row["session"] if _said(row, "session") else (NAME, start)
        session = self.sessions.setdefault((name, card), {"id": (place, (name, place)), "card": (place, (card, start))})
        for key in ("on", "by", "temperature", "continues"):
            if _said(row, key):
                session.setdefault(key, (row[key][1], row[key]))
        if _said(row, "on") and not _DAY.fullmatch(row["on"][0]):
            self.error("day", f"`{row['on'][0]}` is no day", row["on"][1], "write year-month-day, as in 2026-03-14")
        if _said(row, "gauge"):
            _, gauges = session.setdefault("gauge", (row["gauge"][1], {}))
            assert isinstance(gauges, dict)
            gauges.setdefault(row["reading"][0], (row["gauge"][1], row["gauge"]))
        return session


def _said(row: Row, head: str) -> bool:
    return head in row and bool(row[head][0])


def _separator(head: str) -> str:
    return max(",;\t", key=head.count)


def _fields(line: str, separator: str, shown: str, number: int) -> Iterator[Field]:
    """Each field with its place; blanks round it do not count."""
    column = 0
    for field in next(csv.reader([line], delimiter=separator), []):
        inside = line.find(field, column) if field else column
        yield field.strip(), Place(shown, number, inside + 1 + len(field) - len(field.lstrip()))
        ends = line.find(separator, inside + len(field))
        column = len(line) if ends < 0 else ends + 1


def _node(tree: Tree | Field, place: Place) -> Node:
    if isinstance(tree, dict):
        children: dict[str | int, Node] = {key: _node(below, at) for key, (at, below) in tree.items()}
        data = {str(key): node.data for key, node in children.items()}
        return Node(data, place, keys={key: at for key, (at, _) in tree.items()}, children=children)
    text, at = tree
    return Node((Number(text) if _NUMBER.fullmatch(text) else text) if text else None, at, text)
