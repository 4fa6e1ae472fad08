"""A workshop's folder into a Workshop: every file read, checked against its form, and put where the model wants it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import field, replace
from pathlib import Path
from typing import Any

from procgen.files.document import Cursor
from procgen.files.memory import NOTHING, Memory
from procgen.files.problems import Place, Problem, Related
from procgen.load import shared
from procgen.load.family import load_family
from procgen.load.folder import Folder, Read
from procgen.load.job import load_job
from procgen.load.ledger import load_ledger, noted_names
from procgen.load.meeting import meeting_problems
from procgen.load.procedure import load_procedure
from procgen.load.reader import Reader, entries
from procgen.load.readings import csv_sessions
from procgen.load.references import reference_problems
from procgen.load.shop import load_shop
from procgen.model.family import Family
from procgen.model.job import Job
from procgen.model.ledger import Ledger
from procgen.model.procedure import Procedure
from procgen.model.workshop import Workshop
from procgen.values import dataclass

Entry = Callable[[str, Cursor, Place, Reader], Any]
SHARED: Mapping[str, Entry] = {
    "cautions": shared.caution,
    "traits": shared.trait,
    "tools": shared.tool,
    "tables": shared.table,
    "stocks": shared.stock,
}


@dataclass(frozen=True, slots=True)
class Loaded:
    """`workshop` holds all that could be loaded; None where there is none. Problems come by place.

    `sources` has each file's content by the path that problems show.
    """

    workshop: Workshop | None
    problems: tuple[Problem, ...]
    sources: Mapping[str, bytes] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class JobFile:
    """One job's file, anywhere, with readings that come from a CSV file."""

    path: Path
    readings: Path | None = None


def load_workshop(root: Path, read: Read, one_job: JobFile | None = None, memory: Memory = NOTHING) -> Loaded:
    """Load the workshop whose folder is `root`.

    Args:
        root: the folder that has procedures/workshop.yaml.
        read: gives a file's content, raising OSError where it can't; the disk is only listed otherwise.
        one_job: the only job to load, instead of those in the workshop's folder.
        memory: of what was read before.
    """
    folder = Folder(root, read, memory)
    at = folder.workshop()
    if at is None and not folder.sources:
        return Loaded(None, tuple(folder.problems))
    parts = _shared(folder)
    procedures = load_procedures(folder)
    families = _families(folder, procedures, parts)
    jobs = folder.by_id("job") if one_job is None else folder.one("job", one_job.path)
    printed = folder.printed()
    if at is None:
        return Loaded(None, _in_order(folder.problems), folder.sources)
    reader = folder.reader(at)
    holds: dict[str, Any] = {**parts, "procedures": procedures, "families": families}
    shop = replace(load_shop(root, at, reader), **holds, ledger=_ledger(folder, printed))
    folder.problems += reader.problems
    more = () if one_job is None or one_job.readings is None else _readings(folder, one_job.readings, procedures)
    shop = replace(shop, jobs=_jobs(folder, jobs, shop, more))
    folder.problems += reference_problems(shop, at, frozenset(folder.broken.get("procedure", ())))
    if one_job is None:
        known = ({*of, *folder.broken.get(kind, ())} for kind, of in (("family", families), ("procedure", procedures)))
        folder.problems += noted_names(shop.ledger, *known)
    return Loaded(shop, _in_order(folder.problems), folder.sources)


def _shared(folder: Folder) -> dict[str, dict[str, Any]]:
    """cautions, traits, ... by id; a workshop's own over the package's."""
    documents = folder.shared()
    found, problems = folder.memory.held(("shared", folder.so_far()), lambda: _shared_by(folder, documents))
    folder.problems += problems
    return found


def _shared_by(folder: Folder, both: Iterable[Iterable[Cursor]]) -> tuple[dict[str, dict[str, Any]], list[Problem]]:
    found: dict[str, dict[str, Any]] = {kind: {} for kind in SHARED}
    problems: list[Problem] = []
    for documents in both:
        places: dict[tuple[str, str], Place] = {}
        for at in documents:
            reader = folder.reader(at)
            for kind, load in SHARED.items():
                for id, spec, place in entries(at.get(kind)):
                    if (kind, id) in places:
                        first = (Related(places[kind, id], "first written here"),)
                        reader.error("same-id", f"two {kind} have the id `{id}`", place, "keep one of them", first)
                        continue
                    places[kind, id] = place
                    entry = None if spec.is_empty else load(id, spec, place, reader)
                    if entry is not None:
                        found[kind][id] = entry
            problems += reader.problems
    return found, problems


def load_procedures(folder: Folder, last_first: bool = False) -> dict[str, Procedure]:
    return folder.loaded("procedure", "", load_procedure, last_first)


def _families(
    folder: Folder, procedures: Mapping[str, Procedure], parts: Mapping[str, Mapping[str, Any]]
) -> dict[str, Family]:
    broken = frozenset(folder.broken.get("procedure", ()))

    def load(at: Cursor, reader: Reader) -> Family:
        family = load_family(at, reader, procedures, broken, parts["traits"])
        reader.problems += meeting_problems(at, family)
        return family

    return folder.loaded("family", folder.so_far(), load)


def _readings(folder: Folder, path: Path, procedures: Mapping[str, Procedure]) -> tuple[Cursor, ...]:
    shown, content = folder.content(path)
    if content is None:
        return ()
    sessions, problems = csv_sessions(shown, content, procedures)
    folder.problems += problems
    return sessions


def _jobs(folder: Folder, found: Mapping[str, Cursor], shop: Workshop, more: tuple[Cursor, ...] = ()) -> dict[str, Job]:
    jobs = {}
    lost = {*folder.broken.get("procedure", ()), *folder.broken.get("family", ())}
    lost |= {Path(card.place.path).stem for card in shop.procedures.values()}  # one of another id is told of itself
    for id, at in found.items():
        reader = folder.reader(at)
        job = load_job(at, reader, shop, more, lost)
        folder.problems += reader.problems
        if job is not None:
            jobs[id] = job
    return jobs


def _ledger(folder: Folder, at: Cursor | None) -> Ledger:
    if at is None:
        return Ledger()
    reader = folder.reader(at)
    ledger = load_ledger(at, reader)
    folder.problems += reader.problems
    return ledger


def _in_order(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    return tuple(sorted(dict.fromkeys(problems), key=lambda problem: problem.place))
