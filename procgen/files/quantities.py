"""The quantities of a file: what a bare number means in it, and what is wrong with their units."""

from __future__ import annotations

from collections.abc import Mapping, Set

from procgen.files.annotations import annotated
from procgen.files.document import Cursor, Document, Number
from procgen.files.problems import Problem, error
from procgen.files.schemas import Schemas
from procgen.files.telling import called
from procgen.units import dimension as d
from procgen.units.dimension import Dimension
from procgen.units.quantity import Quantity, UnitError, parse_quantity
from procgen.units.spelling import find_unit, wrong_dimension
from procgen.units.table import COUNT, UNITS, Unit

ANY = "any"
"""The annotation of a quantity whose dimension the schema can't know; a bare number there is a plain number."""

USUAL: Mapping[Dimension, Unit] = {
    d.LENGTH: UNITS["mm"],
    d.MASS: UNITS["kg"],
    d.ANGLE: UNITS["°"],
    d.TEMPERATURE: UNITS["°C"],
}
"""What a bare number means in a file whose form has `units`, where they are left out."""


def bare_units(document: Document, schemas: Schemas) -> Mapping[Dimension, Unit]:
    """What a bare number means in this file, by dimension: its `units`, over USUAL where its form has them."""
    return _bare_units(document, schemas)[0]


def quantity_at(cursor: Cursor, dimension: str, bare: Mapping[Dimension, Unit]) -> Quantity | None:
    """The quantity at a cursor; None where it is empty. `dimension` is a schema's word: "length", "any".

    Raises:
        UnitError: with what is wrong and the mend.
    """
    if cursor.is_empty:
        return None
    wanted = None if dimension == ANY else d.NAMES[dimension]
    default = COUNT if wanted is None else bare.get(wanted)
    return parse_quantity(cursor.text().value, wanted, default)


def quantity_problems(document: Document, schemas: Schemas, but: Set[str] = frozenset()) -> tuple[Problem, ...]:
    """A problem at each quantity that can't be read or is of the wrong dimension, and at each such unit in `units`;
    none in the entries at the document's top that are in `but`."""
    bare, problems = _bare_units(document, schemas)
    for path, says in annotated(document, schemas, but).items():
        dimension = says.get("quantity") or says.get("quantities")
        if not isinstance(dimension, str):
            continue
        cursor = document.at(path)
        for part in cursor if cursor.is_list and "quantities" in says else (cursor,):
            if part.path in document.faulty or not isinstance(part.value, (str, Number)):
                continue  # told by others, or a map that says the quantity inside
            try:
                quantity_at(part, dimension, bare)
            except UnitError as fault:
                message = f"{called(part.path)}: {fault.message}"
                problems.append(error("quantity", message, part.place, fault.hint))
    return tuple(sorted(set(problems), key=lambda problem: problem.place))


def _bare_units(document: Document, schemas: Schemas) -> tuple[Mapping[Dimension, Unit], list[Problem]]:
    name, _ = schemas.kind_of(document)
    if not name or "units" not in schemas.by_name[name].get("properties", {}):
        return {}, []
    units, problems = dict(USUAL), []
    written = document.root().get("units")
    for word, cursor in written.items() if written is not None else ():
        dimension = d.NAMES.get(word)
        if dimension is None or not isinstance(cursor.value, str):
            continue  # told by the schema
        try:
            unit = find_unit(cursor.value)
            if unit.dimension != dimension:
                raise wrong_dimension(dimension, cursor.value, unit.dimension)
            units[dimension] = unit
        except UnitError as fault:
            problems.append(error("quantity", f"{called(cursor.path)}: {fault.message}", cursor.place, fault.hint))
    return units, problems
