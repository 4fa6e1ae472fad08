"""The site's parts: those that are known as they are, the others made, in several processes where that pays."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache, partial
from pathlib import Path

from procgen.draw.fonts import Fonts, prepare
from procgen.make import causes, pool, publish
from procgen.make.cache import Cache, digest
from procgen.web.part import Files, Part, Seals, seal
from procgen.web.tools import Tools

MANY = 16
"""Parts of a site that are made by several processes: what all pages share are fewer, and quickly made."""


class PartFailed(RuntimeError):
    """A part of the site could not be made; the message says which, and why."""


@lru_cache(maxsize=1)
def _tools(fonts: Path, templates: tuple[Path, ...]) -> Tools:
    """Kept, so that workers inherit them, and the next build of a long-lived process has them."""
    return Tools(prepare(fonts), templates)


@dataclass(slots=True)
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
        stamp = causes.stamp(self.templates)
        base = self._base()
        keys = [digest("part", base, part.text) for part in parts]
        found = [self._known(key) for key in keys]
        todo = [index for index, known in enumerate(found) if known is None]
        start = partial(_start, self.fonts, self.templates, [parts[index] for index in todo])
        kin = [_named(parts[index]).rpartition("/")[2] for index in todo]  # a card's drawings are alike in families
        records = {}
        with pool.Workers(start, self.workers if len(todo) >= MANY else 1) as workers:
            for number, made in workers.run(range(len(todo)), kin):
                index = todo[number]
                if isinstance(made, pool.Failed):
                    raise PartFailed(f"{_named(parts[index])} could not be made: {made.why}")
                found[index] = {path: seal(content) for path, content in made.items()}
                records[keys[index]] = {path: self._put(path, content) for path, content in made.items()}
        if causes.stamp(self.templates) == stamp:  # else nobody knows by which templates
            for key, record in records.items():
                self.cache.put_record(key, record)
        return [known for known in found if known is not None]

    def _base(self) -> str:
        """What all parts depend on beside what they say."""
        templates = causes.templates(self.templates, ("site", "drawings"))
        return digest(causes.code(), templates, causes.fonts(), causes.libraries())

    def _known(self, key: str) -> Seals | None:
        """Where the cache has all of it."""
        record: Mapping[str, str] | None = self.cache.get_record(key)
        if record is None:
            return None
        files = {path: self.cache.get(content) for path, content in record.items()}
        whole = {path: content for path, content in files.items() if content is not None}
        if len(whole) < len(files):
            return None
        for path, content in whole.items():
            publish.write(self.tree, path, content, self.old)
            self.written[path] = record[path]
        return {path: seal(content) for path, content in whole.items()}

    def _put(self, path: str, content: bytes) -> str:
        publish.write(self.tree, path, content, self.old)
        self.written[path] = self.cache.keep(content)
        return self.written[path]


def _start(fonts: Path, templates: tuple[Path, ...], parts: Sequence[Part]) -> pool.Work[int, Files]:
    """Parts are known by their number, and need not be sent to workers that inherit them."""
    return lambda number: parts[number].made(_tools(fonts, templates))


def _named(part: Part) -> str:
    return next((value for value in part.values if isinstance(value, str)), part.make.__name__)
