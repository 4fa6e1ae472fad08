"""Scalars of one file into what the model holds: quantities, formulas, texts. A faulty one is told and not known."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date

from procgen.files.document import Cursor
from procgen.files.problems import Place, Problem, Related, error
from procgen.files.text import Text
from procgen.formula import parse
from procgen.model.formula import Formula
from procgen.model.procedure import Branch, Step
from procgen.units.dimension import NAMES, Dimension
from procgen.units.quantity import Quantity, Show, UnitError, parse_quantity, parse_show
from procgen.units.spelling import find_unit, wrong_dimension
from procgen.units.table import COUNT, Unit


class Reader:
    """Reads the parts of one file and gathers what is wrong with it in `problems`.

    The file has passed its schema, so its quantities are sound. Where one depends on more than its place (a table's
    cell, what a reading is expected near), what is wrong is told here.
    """

    def __init__(self, bare: Mapping[Dimension, Unit] | None = None) -> None:
        self.problems: list[Problem] = []
        self._bare = bare or {}

    def error(self, code: str, message: str, place: Place, hint: str = "", related: tuple[Related, ...] = ()) -> None:
        self.problems.append(error(code, message, place, hint, related))

    def unique(self, code: str, things: Iterable[Step | Branch], called: str) -> None:
        """That no two have the same id. `called`: what several of them are."""
        first: dict[str, Step | Branch] = {}
        for thing in things:
            earlier = first.setdefault(thing.id, thing)
            if earlier is not thing:
                message, hint = f"two {called} are called `{thing.id}`", "give one of them another id"
                self.error(code, message, thing.place, hint, (Related(earlier.place, "first used here"),))

    def quantity(self, at: Cursor | None, dimension: Dimension | None, bare: Unit | None = None) -> Quantity | None:
        """The quantity there; None while it is not yet known. With no dimension, any, and a bare number is a number."""
        if at is None or at.is_empty:
            return None
        default = bare or (COUNT if dimension is None else self._bare.get(dimension))
        try:
            return parse_quantity(at.text().value, dimension, default)
        except UnitError as refused:
            self.error("quantity", refused.message, at.place, refused.hint)
            return None

    def quantities(self, at: Cursor | None, dimension: Dimension | None) -> tuple[Quantity, ...] | None:
        """The list of quantities there; None while it is not yet known, or while one of them is not."""
        if at is None or at.is_empty:
            return None
        read = [self.quantity(item, dimension) for item in at]
        return tuple(q for q in read if q is not None) if None not in read else None

    def value(self, at: Cursor | None, dimension: str) -> float | None:
        """The quantity there in base units."""
        read = self.quantity(at, NAMES[dimension])
        return None if read is None else read.value

    def show(self, at: Cursor | None) -> Show | None:
        if at is None or at.is_empty:
            return None
        try:
            return parse_show(at.text().value)
        except UnitError as refused:
            self.error("show", refused.message, at.place, refused.hint)
            return None

    def day(self, at: Cursor | None) -> str:
        """A day that there is; "" where none is written."""
        said = word(at)
        try:
            return date.fromisoformat(said).isoformat() if said else ""
        except ValueError:
            assert at is not None
            self.error("day", f"there is no day `{said}`", at.place, "write year-month-day, as in 2026-03-14")
            return ""

    def formula(self, at: Cursor | None) -> Formula | None:
        if at is None or at.is_empty:
            return None
        formula, problems = parse(at.text())
        self.problems += problems
        return formula

    def unit(self, at: Cursor, dimension: str) -> str:
        """A unit's symbol, checked to be one of that dimension."""
        try:
            unit = find_unit(at.text().value)
            if unit.dimension != NAMES[dimension]:
                raise wrong_dimension(NAMES[dimension], at.text().value, unit.dimension)
            return unit.symbol
        except UnitError as refused:
            self.error("unit", refused.message, at.place, refused.hint)
            return ""


def word(at: Cursor | None, default: str = "") -> str:
    """A plain text; `default` where it is left out or left empty."""
    return default if at is None or at.is_empty else at.text().value


def text(at: Cursor | None) -> Text | None:
    """A text with its places, for what may hold {names}."""
    return None if at is None or at.is_empty else at.text()


def words(at: Cursor | None) -> tuple[str, ...]:
    """One word, or a list of them."""
    return tuple(name for name, _ in placed(at))


def placed(at: Cursor | None) -> tuple[tuple[str, Place], ...]:
    """One word or a list of them, each with its place."""
    if at is None or at.is_empty:
        return ()
    items = list(at) if at.is_list else [at]
    return tuple((item.text().value, item.place) for item in items if not item.is_empty)


def entries(at: Cursor | None) -> Iterator[tuple[str, Cursor, Place]]:
    """The entries of a map: name, content, and the place of the name."""
    if at is not None:
        for name, content in at.items():
            yield name, content, at.key_place(name)


def items(at: Cursor | None) -> Iterator[Cursor]:
    """The items of a list that may be left out."""
    if at is not None:
        yield from at
