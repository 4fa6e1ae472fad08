"""What an output depends on besides the workshop: our own code, templates, fonts, libraries. Each as one digest."""

from __future__ import annotations

import os
import sys
import zlib
from collections.abc import Iterable, Iterator
from functools import cache
from importlib.util import find_spec
from pathlib import Path

from procgen.files.home import resources
from procgen.make.cache import digest
from procgen.make.native import libraries as native

PACKAGE = Path(__file__).resolve().parent.parent
PRINTING = ("units", "files", "model", "draw", "paper", "make/printing.py")
"""The parts of procgen that a card's PDF comes from, once it is composed."""

JOINING = ("make/joining.py",)
FONTS = ("fontpkg_atkinson_hyperlegible", "fontpkg_encode_sans")
LIBRARIES = frozenset(
    [
        *("brotli", "cssselect2", "fonttools", "jinja2", "jsonschema", "lxml", "markupsafe", "pikepdf", "pillow"),
        *(
            "pydyf",
            "pyphen",
            "pyyaml",
            "referencing",
            "rjsmin",
            "segno",
            "tinycss2",
            "tinyhtml5",
            "weasyprint",
            "webencodings",
        ),
        "zopfli",
    ]
)


def files_in(folder: Path) -> Iterator[Path]:
    """Every file below a folder, in order, but what Python leaves behind."""
    for path, folders, names in os.walk(folder):
        folders[:] = sorted(name for name in folders if name != "__pycache__")
        yield from (Path(path, name) for name in sorted(names))


def digest_of(root: Path, files: Iterable[Path]) -> str:
    """Of their names below `root` and what is in them."""
    parts: list[bytes | str] = []
    for file in files:
        parts += [file.relative_to(root).as_posix(), file.read_bytes()]
    return digest(*parts)


@cache
@cache
def code(parts: tuple[str, ...] = ("",)) -> str:
    """Of our own code: rooms, modules, or all of it."""
    found = []
    for part in parts:
        path = PACKAGE / part
        found += [path] if path.is_file() else [file for file in files_in(path) if file.suffix == ".py"]
    return digest_of(PACKAGE, found)


def templates(folders: Iterable[Path], kinds: tuple[str, ...] = ("",)) -> str:
    return digest(*(digest_of(folder, files_in(folder / kind)) for folder in folders for kind in kinds))


def stamp(folders: Iterable[Path]) -> tuple[int, ...]:
    """Changes when any file in them does."""
    found = [os.stat(file) for folder in folders for file in files_in(folder)]
    return tuple(number for one in found for number in (one.st_mtime_ns, one.st_size, one.st_ino))


@cache
def own_resources() -> str:
    return digest(*(templates([resources(kind)]) for kind in ("schemas", "shared", "templates")))


@cache
def fonts() -> str:
    folders = [Path(place) for name in FONTS for place in _places(name)]
    return digest(*(digest_of(folder, (f for f in files_in(folder) if f.suffix == ".ttf")) for folder in folders))


@cache
def libraries() -> str:
    """The versions of what lays out, draws, writes and reads; by the names of what is installed, which is quick."""
    installed = {name for folder in packages() for name in os.listdir(folder) if name.endswith(".dist-info")}
    used = sorted(name for name in installed if name.split("-")[0].lower().replace("_", "-") in LIBRARIES)
    return digest(*used, *native(), f"Python {sys.version_info[:2]}", f"zlib {zlib.ZLIB_RUNTIME_VERSION}")


def packages() -> list[str]:
    """The folders that libraries are installed in."""
    return sorted({str(Path(place).parent) for name in ("weasyprint", "yaml", *FONTS) for place in _places(name)})


def _places(name: str) -> list[str]:
    found = find_spec(name)
    return list(found.submodule_search_locations or ()) if found is not None else []
