"""The site in parts, each described by exactly what it is made from, so that one which was made before is known."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from hashlib import blake2b
from typing import Any

from procgen.values import dataclass
from procgen.web.tools import Tools

Files = Mapping[str, bytes]
"""Content by path below the site."""


@dataclass(frozen=True, slots=True)
class Part:
    """Files that are made together, by `make(tools, *values)`.

    `make` is a function of a module: it sees no more than the values, and with Tools our code, templates and fonts. So
    whoever knows those, and `text`, knows the files. Values are plain: texts, numbers, tuples, mappings, and
    dataclasses of such, whose repr tells all that is in them.
    """

    make: Callable[..., Files]
    values: tuple[Any, ...]
    takes_long: bool = False  # so that a few of them are worth several processes

    @property
    def text(self) -> str:
        return f"{self.make.__module__}.{self.make.__qualname__}{self.values!r}"

    def made(self, tools: Tools) -> Files:
        return self.make(tools, *self.values)


Seals = Mapping[str, str]
"""The seal of each file by its path."""

Making = Callable[[Sequence[Part]], Sequence[Seals]]
"""Has parts made, or takes what is known of them, puts their files where they belong, and tells their seals."""


def seal(content: bytes) -> str:
    """What a file's content is known by on the site."""
    return blake2b(content).hexdigest()


def as_is(tools: Tools, path: str, content: bytes) -> Files:
    """A file that took no making."""
    return {path: content}
