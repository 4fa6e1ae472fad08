"""Writing a file all at once, so that another process never sees half of it."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path


def put(path: Path, content: bytes) -> None:
    """What stood there before stands until all of it is written; the folder is made where it is missing.

    Raises:
        OSError: where it can't be written.
    """
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, temporary = tempfile.mkstemp(dir=path.parent)
    with os.fdopen(handle, "wb") as stream:
        stream.write(content)
    os.replace(temporary, path)
