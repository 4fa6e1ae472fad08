"""The site's parts: those that are known as they are, the others made, in several processes where that pays."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import field
from functools import cached_property, lru_cache, partial
from pathlib import Path

from procgen.draw.fonts import Fonts, prepare
from procgen.make import causes, pool, publish
from procgen.make.cache import Cache, digest
from procgen.make.kept import put_known
from procgen.make.order import PartFailed
from procgen.values import dataclass
from procgen.web.part import Files, Part, Seals, seal
from procgen.web.tools import Tools

MANY = 16
"""So many parts of a site are made by several processes; what all pages share are fewer, and mostly quickly made."""


@lru_cache(maxsize=1)
def _tools(fonts: Path, templates: tuple[Path, ...]) -> Tools:
    """Kept, so that workers inherit them, and the next build of a long-lived process has them."""
    return Tools(prepare(fonts), templates)


@dataclass(frozen=True, slots=True)
class Put:
    """Of a part whose files are where they belong: `content` is their digests in the cache, and `seals` their seals, by
    path; `key` is what the cache will know it by, where it was made anew."""

    seals: Seals
    content: Mapping[str, str]
    key: str = ""


@dataclass(frozen=True, slots=True)
class Place:
    """Puts files of parts into a `tree`, known ones and others; `old`: what stood there before. `base`: what all parts
    depend on beside what they say."""

    cache: Cache
    tree: Path
    old: Path
    base: str

    def put(self, part: Part, fonts: Path, templates: tuple[Path, ...]) -> Put:
        key = digest("part", self.base, part.text)
        return self._known(key) or self._put(part.made(_tools(fonts, templates)), key)

    def _known(self, key: str) -> Put | None:
        """Where the cache has all of it."""
        record: Mapping[str, str] | None = self.cache.get_record(key)
        if record is None:
            return None
        seals = {}
        for path, key in record.items():
            content = put_known(self.cache, path, key, self.tree, self.old)
            if content is None:
                return None
            seals[path] = seal(content)
        return Put(seals, record)

    def _put(self, files: Files, key: str) -> Put:
        for path, content in files.items():
            publish.write(self.tree, path, content, self.old)
        kept = {path: self.cache.keep(content) for path, content in files.items()}
        return Put({path: seal(content) for path, content in files.items()}, kept, key)


@dataclass
class Parts:
    """A Making of procgen.web. `fonts`: the folder of prepared ones; `tree`: where files are written; `old`: what stood
    there before; `written`: digests of all that was, by path.
    """

    fonts: Path
    templates: tuple[Path, ...]
    cache: Cache
    tree: Path
    old: Path
    workers: int
    written: dict[str, str] = field(default_factory=dict)

    def prepared(self) -> Fonts:
        return _tools(self.fonts, self.templates).fonts

    def __call__(self, parts: Sequence[Part]) -> Sequence[Seals]:
        stamp = self._stamp
        place = Place(self.cache, self.tree, self.old, self._base)
        start = partial(_start, place, self.fonts, self.templates, parts)
        kin = [_named(part).rpartition("/")[2] for part in parts]  # a card's drawings are alike in families
        found: dict[int, Put] = {}
        pays = len(parts) >= MANY or any(part.takes_long for part in parts)
        with pool.Workers(start, self.workers if pays else 1) as workers:
            for number, part in enumerate(parts):
                workers.put(number, partial(_take, found, number, part), kin[number])
            workers.finish()
        if causes.stamp(self.templates) == stamp:  # else nobody knows by which templates
            for put in found.values():
                if put.key:
                    self.cache.put_record(put.key, put.content)
        for number in range(len(parts)):
            self.written |= found[number].content
        return [found[number].seals for number in range(len(parts))]

    @cached_property
    def _stamp(self) -> tuple[int, ...]:
        """Of the templates, before any of them is read; `_base` is of no others."""
        return causes.stamp(self.templates)

    @cached_property
    def _base(self) -> str:
        templates = causes.templates(self.templates, ("site", "drawings"))
        return digest(causes.code(), templates, causes.fonts(), causes.libraries())


def _start(place: Place, fonts: Path, templates: tuple[Path, ...], parts: Sequence[Part]) -> pool.Work[int, Put]:
    """Parts are known by their number, and need not be sent to workers that inherit them."""
    return lambda number: place.put(parts[number], fonts, templates)


def _take(found: dict[int, Put], number: int, part: Part, put: Put | pool.Failed) -> None:
    if isinstance(put, pool.Failed):
        raise PartFailed(f"{_named(part)} could not be made: {put.why}")
    found[number] = put


def _named(part: Part) -> str:
    return next((value for value in part.values if isinstance(value, str)), part.make.__name__)
