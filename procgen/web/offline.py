"""The worker that keeps the site on a device once it was opened over a network."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping

from jinja2 import Environment

FIRST = ("index.html", "compare.html")


def worker(environment: Environment, files: Mapping[str, bytes]) -> bytes:
    """sw.js for a site of these files. Shared ones are kept before the worker begins, all others after."""
    digest = hashlib.blake2b(digest_size=6)
    for path in sorted(files):
        digest.update(path.encode() + hashlib.blake2b(files[path]).digest())
    first = [path for path in files if path in FIRST or path.startswith("assets/")]
    rest = [path for path in files if path not in first]
    assert environment.loader is not None
    source = environment.loader.get_source(environment, "site/live/worker.js")[0]
    given = {"VERSION": digest.hexdigest(), "FIRST": first, "REST": rest}
    return "".join([*(f"const {name} = {json.dumps(value)}\n" for name, value in given.items()), source]).encode()
