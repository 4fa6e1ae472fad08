"""A document against its schema: everything wrong at once, each cause told once, by place."""

from __future__ import annotations

from procgen.files.document import Document, Path
from procgen.files.problems import Problem
from procgen.files.quantities import quantity_problems
from procgen.files.schemas import Schemas
from procgen.files.telling import told


def schema_problems(document: Document, schemas: Schemas) -> tuple[Problem, ...]:
    """What is wrong with a document's form and with its quantities.

    The schema is picked by the document's `format`; where that fails, only this is told. What reading has already
    complained of is passed over, and so is a quantity in a place where the form is wrong.
    """
    name, fault = schemas.kind_of(document)
    if fault is not None:
        return (fault,)
    problems: dict[Problem, None] = {}
    for found in schemas.validator(name).iter_errors(document.data):
        path: Path = tuple(found.absolute_path)
        if not any(path[:i] in document.faulty for i in range(1, len(path) + 1)):
            problems.update(dict.fromkeys(told(document, found)))
    taken = {problem.place for problem in problems}
    more = [problem for problem in quantity_problems(document, schemas) if problem.place not in taken]
    return tuple(sorted((*problems, *more), key=lambda problem: (problem.place, problem.message)))
