"""The libraries beneath the layout engine that are not Python's: which are there and in what version.

Asked without the engine itself, whose import takes longer than a build with nothing to do.
"""

from __future__ import annotations

import ctypes
import ctypes.util
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache

_PANGO = ("libpango-1.0.so.0", "libpango-1.0.dylib", "libpango-1.0-0.dll", "libpango-1.0-0")
_HARFBUZZ = ("libharfbuzz.so.0", "libharfbuzz.0.dylib", "libharfbuzz-0.dll", "libharfbuzz-0")
_SUBSET = (
    "libharfbuzz-subset.so.0",
    "libharfbuzz-subset.0.dylib",
    "libharfbuzz-subset-0.dll",
    "libharfbuzz-subset-0",
)
_LINUX = (_PANGO[0], _HARFBUZZ[0], "libgobject-2.0.so.0", "libpangoft2-1.0.so.0", "libfontconfig.so.1")
"""What the engine can't do without, by the names that Linux has for it."""

NO_SUBSET = (
    "libharfbuzz-subset is not installed: fonts are cut down in Python, which doubles the time that a card takes; "
    "apt-get install libharfbuzz-subset0, or brew install harfbuzz"
)


@cache
def libraries() -> tuple[str, ...]:
    """ "pango 1.50.12", ...; "no pango" where it is missing."""
    subset = "harfbuzz-subset" if has_subset() else "no harfbuzz-subset"
    return (
        _version("pango", _PANGO, "pango_version_string"),
        _version("harfbuzz", _HARFBUZZ, "hb_version_string"),
        subset,
    )


@cache
def has_subset() -> bool:
    return _open(_SUBSET) is not None


@contextmanager
def by_name() -> Iterator[None]:
    """Within it, libraries are opened by name and never looked for.

    WeasyPrint, when it is imported, first asks for them by names of other systems, and for each of those that is not
    there Python begins ldconfig and a compiler: some twenty processes, which take as long as half of the import.
    """
    search = ctypes.util.find_library
    if sys.platform == "linux" and all(_open((name,)) is not None for name in _LINUX):
        ctypes.util.find_library = lambda name: None
    try:
        yield
    finally:
        ctypes.util.find_library = search


def _version(name: str, files: tuple[str, ...], ask: str) -> str:
    library = _open(files)
    if library is None:
        return f"no {name}"
    function = getattr(library, ask)
    function.restype = ctypes.c_char_p
    return f"{name} {function().decode()}"


def _open(files: tuple[str, ...]) -> ctypes.CDLL | None:
    for file in files:
        try:
            return ctypes.CDLL(file)
        except OSError:
            continue
    return None


class _Found(ctypes.Structure):
    _fields_ = (
        ("file", ctypes.c_char_p),
        ("base", ctypes.c_void_p),
        ("name", ctypes.c_char_p),
        ("address", ctypes.c_void_p),
    )


def places() -> tuple[str, ...]:
    """The files that the libraries are in, where the system tells (dladdr)."""
    found = []
    for files, name in (
        (_PANGO, "pango_version"),
        (_HARFBUZZ, "hb_version"),
        (_SUBSET, "hb_subset_input_create_or_fail"),
    ):
        library = _open(files)
        try:
            ask = ctypes.CDLL(None).dladdr
            address = ctypes.cast(getattr(library, name), ctypes.c_void_p)
        except (AttributeError, OSError, TypeError):
            continue
        told = _Found()
        if ask(address, ctypes.byref(told)) and told.file:
            found.append(os.path.realpath(os.fsdecode(told.file)))
    return tuple(found)
