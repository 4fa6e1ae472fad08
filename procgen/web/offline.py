"""The worker that keeps the site on a device once it was opened over a network."""

from __future__ import annotations

import hashlib
import json

from procgen.web.part import Files, Seals
from procgen.web.tools import Tools

FIRST = ("index.html", "compare.html")


def worker(tools: Tools, files: Seals) -> Files:
    """sw.js for a site of these files. Shared ones are kept before the worker begins, all others after."""
    digest = hashlib.blake2b(digest_size=6)
    for path in sorted(files):
        digest.update(path.encode() + bytes.fromhex(files[path]))
    first = [path for path in files if path in FIRST or path.startswith("assets/")]
    rest = [path for path in files if path not in first]
    loader = tools.environment.loader
    assert loader is not None
    source = loader.get_source(tools.environment, "site/live/worker.js")[0]
    given = {"VERSION": digest.hexdigest(), "FIRST": first, "REST": rest}
    content = "".join([*(f"const {name} = {json.dumps(value)}\n" for name, value in given.items()), source])
    return {"sw.js": content.encode()}
