"""Where pages, cards and drawings find their templates: one way to set Jinja up for all of them."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from contextlib import suppress
from importlib.util import cache_from_source
from pathlib import Path

import jinja2
from jinja2 import BytecodeCache, Environment, FileSystemLoader, StrictUndefined
from jinja2.bccache import Bucket

from procgen.files.home import resources
from procgen.files.writing import put

_OURS = Path(cache_from_source(__file__)).parent


def environment(folders: Sequence[Path], *, trim: bool = False) -> Environment:
    """The first folder that has a template wins; a name that is not given is an error; all but CSS is escaped.

    `trim`: without the lines that only a block's tag stands in.
    """
    return Environment(
        loader=FileSystemLoader([str(folder) for folder in folders]),
        undefined=StrictUndefined,
        autoescape=_is_escaped,
        trim_blocks=trim,
        lstrip_blocks=trim,
        auto_reload=False,
        bytecode_cache=Compiled(resources("templates"), _OURS, "trim" if trim else "as-is"),
    )


def _is_escaped(name: str | None) -> bool:
    return name is None or not name.endswith(".css")


class Compiled(BytecodeCache):
    """The templates of `folder` as compiled, kept in `place`, where Python keeps our modules: compiling them takes a
    process an eighth of a second. Nothing is kept of templates elsewhere, nor where Python keeps nothing.

    `way`: what compiling depends on beside the template's text and Jinja's version; Jinja looks at the text.
    """

    def __init__(self, folder: Path, place: Path, way: str) -> None:
        self._folder, self._place, self._way = folder, place, way

    def get_cache_key(self, name: str, filename: str | None = None) -> str:
        """A file's name; "" for a template of another folder."""
        if filename is None or Path(filename) != self._folder / name:
            return ""
        said = (name.replace("/", "."), self._way, f"jinja-{jinja2.__version__}", sys.implementation.cache_tag or "")
        return ".".join((*said, "pyc"))

    def load_bytecode(self, bucket: Bucket) -> None:
        if bucket.key:
            with suppress(Exception), open(self._path(bucket), "rb") as file:  # missing or damaged: compiled again
                bucket.load_bytecode(file)

    def dump_bytecode(self, bucket: Bucket) -> None:
        if bucket.key and self._place.is_dir() and not sys.dont_write_bytecode:
            with suppress(OSError):
                put(self._path(bucket), bucket.bytecode_to_string())

    def _path(self, bucket: Bucket) -> Path:
        return self._place / bucket.key
