"""Files that are known by the digest of their content, put where they belong."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from procgen.make import publish
from procgen.make.cache import Cache, digest


def put_known(cache: Cache, digests: Mapping[str, str], tree: Path | None, old: Path) -> dict[str, bytes] | None:
    """The content of files, put into the new `tree`: linked where the `old` one has them as they are to be, else out of
    the cache; without a tree, out of the cache alone. None where one is nowhere to be had; others may be there then.
    """
    files = {}
    for path, key in digests.items():
        content = publish.read(old, path) if tree is not None else None
        if content is None or digest(content) != key:
            content = cache.get(key)
            if content is None:
                return None
            if tree is not None:
                publish.write(tree, path, content)
        elif tree is not None:
            publish.link(tree, path, old, content)
        files[path] = content
    return files
