"""A workshop's folder: which files are where. What is wrong with one of them never hides the others."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from contextlib import suppress
from functools import partial
from pathlib import Path
from typing import Any, TypeVar

from procgen.files.checking import schema_problems
from procgen.files.document import Cursor, Document
from procgen.files.home import resources
from procgen.files.memory import NOTHING, Memory, digest
from procgen.files.problems import Place, Problem, Related, error, warning
from procgen.files.quantities import bare_units
from procgen.files.reading import MOST_BYTES
from procgen.files.reading import read as read_document
from procgen.files.records import from_data, to_data
from procgen.load.names import schemas
from procgen.load.reader import Reader

T = TypeVar("T")

Read = Callable[[Path], bytes]
"""Gives the content of a file; OSError where it can't."""

WORKSHOP = "procedures/workshop.yaml"
PRINTED = "procedures/printed.yaml"
FOLDERS = {"procedure": "procedures/deck", "family": "procedures/families", "job": "procedures/jobs"}
BELONGS = {"workshop": WORKSHOP, "printed": PRINTED} | {kind: f"{folder}/" for kind, folder in FOLDERS.items()}
MOST_PRINTED = 16 * 1024 * 1024
"""Bytes of a ledger: it only grows, by some 4 KB for every revision of a card."""
OURS = "procgen/shared"
"""How files that the package brings along are called in problems."""


class Folder:
    """Reads documents, gathering `problems` and `sources` (content by shown path) on the way."""

    def __init__(self, root: Path, read: Read, memory: Memory = NOTHING) -> None:
        self.root = root
        self.memory = memory
        self._read = read
        self.problems: list[Problem] = []
        self.sources: dict[str, bytes] = {}
        self.broken: dict[str, set[str]] = {}  # kind -> the ids of files that could not be loaded

    def workshop(self) -> Cursor | None:
        if not (self.root / WORKSHOP).is_file():
            hint = "run procgen in a workshop's folder, or name one with --workshop"
            self.problems.append(error("no-workshop", f"there is no `{WORKSHOP}` here", Place(WORKSHOP), hint))
            return None
        return self._document(self.root / WORKSHOP, "workshop")

    def printed(self) -> Cursor | None:
        path = self.root / PRINTED
        return self._document(path, "printed") if path.is_file() else None

    def by_id(self, kind: str) -> dict[str, Cursor]:
        """The sound files of a kind, by the id that each gives itself."""
        found: dict[str, Cursor] = {}
        places: dict[str, Place] = {}
        for path in self._listed(self.root / FOLDERS[kind]):
            at = self._document(path, kind)
            if at is not None and self._takes(at["id"].text().value, at["id"].place, path, places):
                found[at["id"].text().value] = at
        return found

    def unknown(self, kind: str) -> tuple[str, ...]:
        """The files of a kind, as shown, that were never held against their form, as far as the memory goes."""
        forms = {}
        for path in self._listed(self.root / FOLDERS[kind]):
            shown = self._place(path).path
            with suppress(OSError):  # told where it is read
                forms[shown] = _form(shown, self._read(path))
        return tuple(shown for shown, form in forms.items() if not self.memory.has(form))

    def one(self, kind: str, path: Path) -> dict[str, Cursor]:
        """One file of a kind, wherever it lies, by its id."""
        at = self._document(path, kind)
        return {} if at is None else {at["id"].text().value: at}

    def content(self, path: Path) -> tuple[str, bytes | None]:
        """Any other file: its path as shown, and what is in it; None where it can't be read."""
        shown = self._place(path).path
        try:
            self.sources[shown] = self._read(path)
        except OSError as fault:
            self.problems.append(error("unreadable", f"the file can't be read: {fault.strerror}", Place(shown)))
        return shown, self.sources.get(shown)

    def shared(self) -> tuple[list[Cursor], list[Cursor]]:
        """What the package shares, and what the workshop shares over it; nothing twice where both are one folder."""
        ours, own = resources("shared"), self.root / "shared"
        same = own.is_dir() and own.samefile(ours)
        return [] if same else self._shared(ours), self._shared(own)

    def loaded(self, kind: str, of: str, load: Callable[[Cursor, Reader], T], last_first: bool = False) -> dict[str, T]:
        """What `load` makes of the sound files of a kind, by the id that each gives itself. A file that was loaded
        before is not even parsed. `of`: a digest of all that this depends on beside the file."""
        models: dict[str, T] = {}
        places: dict[str, Place] = {}
        listed = self._listed(self.root / FOLDERS[kind])
        for path in reversed(listed) if last_first else listed:
            shown, content = self.content(path)
            if content is None:
                self._lose(kind, path)
                continue
            key = digest("loaded", kind, shown, content, of)
            loaded = partial(self._loaded, kind, shown, content, load)
            id, place, of_form, of_loading, model = self.memory.model(key, loaded)
            self.problems += from_data(of_form)
            if model is None:
                self._lose(kind, path, id)
            elif self._takes(id, place, path, places):
                models[id] = model
                self.problems += from_data(of_loading)
        return models

    def _loaded(
        self, kind: str, shown: str, content: bytes, load: Callable[[Cursor, Reader], T]
    ) -> tuple[str, Place, list[Any], list[Any], T | None]:
        """Its id and where that stands, what is wrong with its form and with what it says, as plain data, and what it
        is; None where its form is not sound."""
        document, found = self._held(kind, shown, content)
        if document is None or not _is_sound(found):
            return _id_of(document), Place(shown), to_data(found), [], None
        at = document.root()
        reader = self.reader(at)
        model = load(at, reader)
        return at["id"].text().value, at["id"].place, to_data(found), to_data(reader.problems), model

    def so_far(self) -> str:
        """A digest of all that was read until now, and of what could not be."""
        lost = (f"{kind} {id}" for kind, ids in self.broken.items() for id in sorted(ids))
        return digest(*(part for path, content in self.sources.items() for part in (path, content)), "but", *lost)

    def reader(self, at: Cursor) -> Reader:
        return Reader(bare_units(at.doc, schemas()))

    def _shared(self, folder: Path) -> list[Cursor]:
        found = (self._document(path, "") for path in self._listed(folder))
        return [at for at in found if at is not None]

    def _listed(self, folder: Path) -> list[Path]:
        for path in sorted(folder.glob("*.yml")):
            hint = f"rename it to {path.stem}.yaml"
            self.problems.append(warning("file-name", "only files that end in .yaml are read", self._place(path), hint))
        return sorted(folder.glob("*.yaml"))

    def _document(self, path: Path, kind: str) -> Cursor | None:
        """The root of a file that is sound; a file that isn't is noted as broken."""
        shown, content = self.content(path)
        document, problems = (None, []) if content is None else self._held(kind, shown, content)
        self.problems += problems
        if document is not None and _is_sound(problems):
            return document.root()
        self._lose(kind, path, _id_of(document))
        return None

    def _lose(self, kind: str, path: Path, id: str = "") -> None:
        """Note a file as broken, by all the names it may have."""
        self.broken.setdefault(kind, set()).update({path.stem, id} - {""})

    def _held(self, kind: str, shown: str, content: bytes) -> tuple[Document | None, list[Problem]]:
        return self.memory.held(("document", kind, shown, content), lambda: self._parsed(kind, shown, content))

    def _parsed(self, kind: str, shown: str, content: bytes) -> tuple[Document | None, list[Problem]]:
        """The document, if it could be read to its end, and all that is wrong with it; an error, unless it is sound."""
        document, found = read_document(shown, content, MOST_PRINTED if kind == "printed" else MOST_BYTES)
        if document is None:
            return None, [*found]
        form = _form(shown, content)
        meant = kind or _shared_kind(document)
        problems = [*found, *self.memory.problems(form, lambda: schema_problems(document, schemas(), meant))]
        given, _ = schemas().kind_of(document)
        if given and kind and given != kind:
            written, place = document.root()["format"].value, document.root()["format"].place
            hint = f"it belongs in {BELONGS.get(given, 'shared/')}"
            problems.append(error("wrong-folder", f"a {kind} was expected here; this is `{written}`", place, hint))
        return document, problems

    def _takes(self, id: str, place: Place, path: Path, places: dict[str, Place]) -> bool:
        """Whether this file is the first with its id; `places` are those of the ids so far."""
        if id in places:
            first = (Related(places[id], "first used here"),)
            message, hint = f"two files have the id `{id}`", "give one of them another id"
            self.problems.append(error("same-id", message, place, hint, first))
            return False
        places[id] = place
        if id != path.stem:
            message, hint = f"the file is called `{path.name}`, but its id is `{id}`", f"rename the file to {id}.yaml"
            self.problems.append(warning("file-name", message, place, hint))
        return True

    def _place(self, path: Path) -> Place:
        if path.is_relative_to(self.root):
            return Place(path.relative_to(self.root).as_posix())
        if path.is_relative_to(resources("shared")):
            return Place(f"{OURS}/{path.name}")
        return Place(path.as_posix())


def _form(shown: str, content: bytes) -> str:
    """What is wrong with a file's form is known by this."""
    return digest("form", shown, content)


def _is_sound(problems: Iterable[Problem]) -> bool:
    return not any(problem.is_error for problem in problems)


def _shared_kind(document: Document) -> str:
    """The kind that a file of shared things has by what stands at its top: `tools:` in a file of tools."""
    data = document.data
    return next((kind for kind in schemas().formats if isinstance(data, dict) and kind in data), "")


def _id_of(document: Document | None) -> str:
    data = document.data if document is not None else None
    id = data.get("id") if isinstance(data, dict) else None
    return id if isinstance(id, str) else ""
