"""Writing the ledger: whole, in one step, and never over what somebody else wrote meanwhile."""

from __future__ import annotations

import os
from pathlib import Path


class Busy(Exception):
    """The ledger was not written; the message says why."""


def keep(path: Path, was: bytes | None, content: bytes) -> None:
    """Put `content` in place of `was` (None: no file). The file beside it is the lock as well.

    Raises:
        Busy: where somebody else is writing, or wrote since `was` was read.
        OSError: where it can't be written; the ledger is then as it was.
    """
    path = path.resolve()  # a link stays a link
    beside = path.with_name(f".{path.name}.new")
    try:
        file = beside.open("xb")
    except FileExistsError:
        raise Busy(f"{beside} is there: somebody else is noting; if nobody is, delete it") from None
    try:
        with file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        now = path.read_bytes() if path.exists() else None
        if now != was:
            raise Busy(f"{path} was changed meanwhile; run it again")
        if was is not None:
            beside.chmod(path.stat().st_mode & 0o777)
        beside.replace(path)
    finally:
        beside.unlink(missing_ok=True)
