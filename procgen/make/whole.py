"""A whole build that was made before: nothing read into a model, nothing checked, its files put in place again."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Mapping
from functools import cache
from pathlib import Path

from procgen.files.home import resources
from procgen.files.problems import Problem
from procgen.files.records import from_data, to_data
from procgen.make import causes, native, publish
from procgen.make.cache import Cache, digest
from procgen.make.kept import put_known
from procgen.make.order import Order
from procgen.values import dataclass

FOLDERS = ("procedures", "shared", "templates")
"""Of a workshop: where all lies that it is made from."""

_OURS = ("schemas", "shared", "templates")


class Snapshot:
    """A workshop's files, each read once, so that what is built and what it is filed under are the same."""

    def __init__(self, order: Order, read: Callable[[Path], bytes]) -> None:
        self.order = order
        self._read = read
        self.files = {path: self._try(path) for path in _sources(order.root)}
        self.key = self._key()

    def read(self, path: Path) -> bytes:
        content = self.files.get(path)
        if content is not None:
            return content
        if path in self.files:
            self.key = ""  # it came or changed while we were reading
        return self._read(path)

    def is_still(self) -> bool:
        """Whether the disk has what we read."""
        now = {path: self._try(path) for path in _sources(self.order.root)}
        return bool(self.key) and now == self.files

    def text(self, shown: str) -> str | None:
        content = self.files.get(self.order.root / shown)
        return None if content is None else content.decode("utf-8", "replace")

    def _try(self, path: Path) -> bytes | None:
        try:
            return self._read(path)
        except OSError:
            return None

    def _key(self) -> str:
        """What all of the output depends on; "" for an order that depends on old output too, or gives none."""
        order = self.order
        if order.is_partial or order.is_shard:
            return ""
        parts = [causes.code(), causes.own_resources(), causes.fonts(), causes.libraries()]
        parts += [
            order.only,
            *order.stocks,
            "+",
            order.glance,
            order.theme,
            *order.sheets,
            str((order.root / "templates").is_dir()),
        ]
        for path, content in self.files.items():
            parts += [path.relative_to(order.root).as_posix(), "-" if content is None else digest(content)]
        return digest("build", *parts)


def _sources(root: Path) -> Iterator[Path]:
    for folder in FOLDERS:
        yield from causes.files_in(root / folder)


@dataclass(frozen=True, slots=True)
class Whole:
    problems: tuple[Problem, ...]
    sources: Mapping[str, str]
    pages: int
    faces: tuple[int, ...]


def replay(snapshot: Snapshot, cache: Cache) -> Whole | None:
    """Put a known build in place. None where it is not known, or any of its files is no longer as it was."""
    record = cache.get_record(snapshot.key) if snapshot.key else None
    if record is None:
        return None
    out = snapshot.order.out
    tree = publish.fresh_tree(out)
    if any(put_known(cache, path, key, tree, out) is None for path, key in record["files"].items()):
        return None
    publish.publish(tree, out)
    problems = from_data(record["problems"])
    texts = {shown: snapshot.text(shown) for shown in {problem.place.path for problem in problems}}
    sources = {shown: text for shown, text in texts.items() if text is not None}
    return Whole(problems, sources, record["pages"], tuple(record["faces"]))


def take_down(
    snapshot: Snapshot,
    cache: Cache,
    files: Mapping[str, str],
    problems: tuple[Problem, ...],
    pages: int,
    faces: tuple[int, ...],
) -> None:
    """Note a sound build, unless the workshop was edited meanwhile."""
    if snapshot.key and snapshot.is_still():
        record = {"files": dict(files), "problems": to_data(problems), "pages": pages, "faces": faces}
        cache.put_record(snapshot.key, record)


def inputs(order: Order) -> Iterator[str]:
    """Every file and folder that the output depends on."""
    yield from workshops(order)
    yield from ours()


def workshops(order: Order) -> Iterator[str]:
    """Those of them that are the workshop's."""
    for name in FOLDERS:
        yield from _below(order.root / name)


def ours() -> Iterator[str]:
    """Those that come with procgen and its libraries; some of them may be the workshop's too."""
    folders, others = _tops()
    for folder in folders:
        yield from _below(folder)
    yield from others


def is_ours(name: str) -> bool:
    """Whether a path is one of `ours`, or would be if it were there."""
    return any(name == top or name.startswith(top + os.sep) for tops in _tops() for top in tops)


@cache
def _tops() -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Folders that are ours with all that is in them, and what is looked at alone."""
    folders = map(os.path.abspath, (causes.PACKAGE, *map(resources, _OURS)))
    return tuple(folders), (*causes.packages(), *native.places())


def outputs(order: Order) -> Iterator[str]:
    yield from _below(order.out)


def _below(folder: str | Path) -> Iterator[str]:
    top = os.path.abspath(folder)
    yield top
    for path, below, names in os.walk(top):
        below[:] = sorted(name for name in below if name != "__pycache__")
        yield from (os.path.join(path, name) for name in (*below, *sorted(names)))
