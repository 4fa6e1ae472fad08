"""A file that is known by the digest of its content, put where it belongs."""

from __future__ import annotations

from pathlib import Path

from procgen.make import publish
from procgen.make.cache import Cache, digest


def put_known(cache: Cache, path: str, key: str, tree: Path | None, old: Path) -> bytes | None:
    """The content of a file, put into the new `tree`: linked where the `old` one has it as it is to be, else out of the
    cache; without a tree, out of the cache alone. None where it is nowhere to be had.
    """
    content = publish.read(old, path) if tree is not None else None
    if tree is not None and content is not None and digest(content) == key:
        publish.link(tree, path, old, content)
        return content
    content = cache.get(key)
    if tree is not None and content is not None:
        publish.write(tree, path, content)
    return content
