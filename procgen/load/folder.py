"""A workshop's folder: which files are where. What is wrong with one of them never hides the others."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import TypeVar

from procgen.files.checking import schema_problems
from procgen.files.document import Cursor, Document
from procgen.files.home import resources
from procgen.files.memory import NOTHING, Memory, digest
from procgen.files.problems import Place, Problem, Related, error, warning
from procgen.files.quantities import bare_units
from procgen.files.reading import MOST_BYTES
from procgen.files.reading import read as read_document
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
        for path in self._listed(self.root / FOLDERS[kind]):
            at = self._document(path, kind)
            if at is not None:
                self._take(at, path, found)
        return found

    def unknown(self, kind: str) -> int:
        """How many files of a kind were never held against their form, as far as the memory goes."""
        forms = []
        for path in sorted((self.root / FOLDERS[kind]).glob("*.yaml")):
            with suppress(OSError):  # told where it is read
                forms.append(_form(self._place(path).path, self._read(path)))
        return sum(not self.memory.has(form) for form in forms)

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

    def loaded(self, at: Cursor, of: str, load: Callable[[Reader], T]) -> T:
        """What `load` makes of a file, its problems gathered; `of`: a digest of what else that depends on."""

        def read() -> tuple[T, list[Problem]]:
            reader = self.reader(at)
            return load(reader), reader.problems

        path = at.doc.path
        made, problems = self.memory.held(("loaded", path, self.sources[path], of), read)
        self.problems += problems
        return made

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
        """The root of a file that is sound; a file that isn't is noted as broken, by all the names it may have."""
        shown = self._place(path).path
        try:
            content = self.sources[shown] = self._read(path)
        except OSError as fault:
            document = None
            problems = [error("unreadable", f"the file can't be read: {fault.strerror}", Place(shown))]
        else:
            document, problems = self.memory.held(
                ("document", kind, shown, content), lambda: self._parsed(kind, shown, content)
            )
        self.problems += problems
        if document is not None and not any(problem.is_error for problem in problems):
            return document.root()
        self.broken.setdefault(kind, set()).update({path.stem, _id_of(document)} - {""})
        return None

    def _parsed(self, kind: str, shown: str, content: bytes) -> tuple[Document | None, list[Problem]]:
        """The document, if it could be read to its end, and all that is wrong with it; an error, unless it is sound."""
        document, found = read_document(shown, content, MOST_PRINTED if kind == "printed" else MOST_BYTES)
        if document is None:
            return None, [*found]
        form = _form(shown, content)
        problems = [*found, *self.memory.problems(form, lambda: schema_problems(document, schemas()))]
        given, _ = schemas().kind_of(document)
        if given and kind and given != kind:
            written, place = document.root()["format"].value, document.root()["format"].place
            hint = f"it belongs in {BELONGS.get(given, 'shared/')}"
            problems.append(error("wrong-folder", f"a {kind} was expected here; this is `{written}`", place, hint))
        return document, problems

    def _take(self, at: Cursor, path: Path, found: dict[str, Cursor]) -> None:
        id, place = at["id"].text().value, at["id"].place
        if id in found:
            first = (Related(found[id]["id"].place, "first used here"),)
            message, hint = f"two files have the id `{id}`", "give one of them another id"
            self.problems.append(error("same-id", message, place, hint, first))
            return
        found[id] = at
        if id != path.stem:
            message, hint = f"the file is called `{path.name}`, but its id is `{id}`", f"rename the file to {id}.yaml"
            self.problems.append(warning("file-name", message, place, hint))

    def _place(self, path: Path) -> Place:
        if path.is_relative_to(self.root):
            return Place(path.relative_to(self.root).as_posix())
        if path.is_relative_to(resources("shared")):
            return Place(f"{OURS}/{path.name}")
        return Place(path.as_posix())


def _form(shown: str, content: bytes) -> str:
    """What is wrong with a file's form is known by this."""
    return digest("form", shown, content)


def _id_of(document: Document | None) -> str:
    data = document.data if document is not None else None
    id = data.get("id") if isinstance(data, dict) else None
    return id if isinstance(id, str) else ""
