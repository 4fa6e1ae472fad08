"""A document against its schema: everything wrong at once, each cause told once, by place."""

from __future__ import annotations

from dataclasses import replace

from procgen.files.document import Document, Path
from procgen.files.memory import digest
from procgen.files.problems import Problem
from procgen.files.quantities import quantity_problems
from procgen.files.schemas import Schemas
from procgen.files.stored import store
from procgen.files.telling import told


def schema_problems(document: Document, schemas: Schemas, kind: str = "") -> tuple[Problem, ...]:
    """What is wrong with a document's form and with its quantities.

    The schema is picked by the document's `format`; where that fails, only this is told, with the `kind` that belongs
    where the file lies, if that is known. What reading has already
    complained of is passed over, and so is a quantity in a place where the form is wrong. Entries that say what such
    entries of a sound file said are passed over too, unless something else turns out to be wrong.
    """
    name, fault = schemas.kind_of(document)
    if fault is not None:
        meant = schemas.formats.get(kind, "") if fault.code in ("no-format", "unknown-format") else ""
        return (replace(fault, hint=f"begin the file with the line `format: {meant}`") if meant else fault,)
    entries = _entries(document, name)
    sound = frozenset(key for key, said in entries.items() if said in schemas.sound)
    problems = _problems(document, schemas, name, sound)
    if problems and sound:
        problems = _problems(document, schemas, name)
    if not problems and not document.faulty:
        schemas.are_sound(entries.values())
    return problems


def _entries(document: Document, name: str) -> dict[str, str]:
    """A digest of each entry at the top of a file, with the units in which its bare numbers are read."""
    data = document.data
    assert isinstance(data, dict)
    units = store(data.get("units"))
    return {key: digest(name, units, key, store(value)) for key, value in data.items()}


def _problems(
    document: Document, schemas: Schemas, name: str, sound: frozenset[str] = frozenset()
) -> tuple[Problem, ...]:
    """`sound`: the entries at the top that are not looked into."""
    problems: dict[Problem, None] = {}
    for found in schemas.validator(name, sound).iter_errors(document.data):
        path: Path = tuple(found.absolute_path)
        if not any(path[:i] in document.faulty for i in range(1, len(path) + 1)):
            problems.update(dict.fromkeys(told(document, found)))
    taken = {problem.place for problem in problems}
    more = [problem for problem in quantity_problems(document, schemas, sound) if problem.place not in taken]
    return tuple(sorted((*problems, *more), key=lambda problem: (problem.place, problem.message)))
