"""What has been made before, by a hash of all that it depends on.

A folder of files, each with a digest of its own content: whatever was damaged, cut short or put there by something else
is seen when it is read, and made again. It may be deleted at any moment, lie on a disk that several machines share, and
never grows beyond its bound. Where it can't be written, everything still works.
"""

from __future__ import annotations

import json
import os
from contextlib import suppress
from hashlib import sha256
from pathlib import Path
from typing import Any

from procgen.files.memory import digest

BOUND = 2_000_000_000
"""Bytes kept, if nobody says otherwise."""

_MARK = b"procgen cache 1\n"
_DIGEST = 32
_NEW = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)
_OURS = os.urandom(6).hex()  # of no other machine that writes into the same folder
_WAITING = 64  # entries: those of a card or two


class Cache:
    """Content by key. `get` gives exactly what `put` was handed, or None.

    `patient`: what is put is written when there is time, at `settle`; other processes do not see it before. One that is
    forked from this writes at once.
    """

    def __init__(self, folder: Path, bound: int = BOUND, patient: bool = False) -> None:
        self._folder = folder / "made"
        self._bound = bound
        self._added = 0
        self._waiting: dict[str, bytes] = {}
        self._patient = os.getpid() if patient else 0

    def get(self, key: str) -> bytes | None:
        waiting = self._waiting.get(key)
        if waiting is not None:
            return waiting
        path = self._path(key)
        try:
            found = path.read_bytes()
        except OSError:
            return None
        head = len(_MARK) + _DIGEST
        content = found[head:]
        if found[:head] != _MARK + _seal(key, content):
            with suppress(OSError):
                path.unlink()
            return None
        with suppress(OSError):
            os.utime(path)  # what was used last goes last
        return content

    def has(self, key: str) -> bool:
        """Whether there is something under that key; it may be damaged."""
        return key in self._waiting or self._path(key).exists()

    def put(self, key: str, content: bytes) -> None:
        if self._patient == os.getpid() and len(self._waiting) < _WAITING:
            self._waiting[key] = content
        else:
            self._write(key, content)

    def settle(self) -> None:
        """Write what waits."""
        for key in list(self._waiting):
            self._write(key, self._waiting.pop(key))
        self._trim()

    def _write(self, key: str, content: bytes) -> None:
        path = os.fspath(self._path(key))
        temporary = f"{path}.{os.getpid()}.{_OURS}"
        with suppress(OSError):
            try:
                handle = os.open(temporary, _NEW, 0o600)
            except FileNotFoundError:
                os.makedirs(os.path.dirname(path), exist_ok=True)
                handle = os.open(temporary, _NEW, 0o600)
            try:
                with os.fdopen(handle, "wb") as stream:  # then renamed: nobody ever sees half an entry
                    stream.write(_MARK + _seal(key, content) + content)
                os.replace(temporary, path)
            except OSError:
                os.unlink(temporary)
                raise
            self._added += len(content)

    def keep(self, content: bytes, key: str = "") -> str:
        """Put content under its own digest, which is given back; `key`, where that is known."""
        key = key or digest(content)
        if not self.has(key):
            self.put(key, content)
        return key

    def get_record(self, key: str) -> Any:
        """What `put_record` was handed, out of JSON; None where there is nothing."""
        content = self.get(key)
        return None if content is None else json.loads(content)

    def put_record(self, key: str, record: Any) -> None:
        self.put(key, json.dumps(record, ensure_ascii=False, separators=(",", ":")).encode())

    @property
    def added(self) -> int:
        """Bytes that this process added since it last trimmed."""
        return self._added

    def note(self, added: int) -> None:
        """What another process added."""
        self._added += added

    def trim(self) -> None:
        """Where there is more than the bound, let go of what was used longest ago. Looked at when a sixteenth of it was
        added since the last time: looking takes longer than making one card again."""
        if not self._patient:
            self._trim()

    def _trim(self) -> None:
        if not self._added:
            return
        noted, room = self._folder.with_name("added"), self._bound // 16
        added = self._added + self._noted(noted)
        self._added = 0
        if added < room:
            with suppress(OSError):
                noted.write_text(f"{added}")
            return
        with suppress(OSError):
            noted.write_text("0")
        self._let_go(self._bound - room)

    def _noted(self, path: Path) -> int:
        """What was added since the last look; so much that there is one, where nobody knows."""
        try:
            return int(path.read_text())
        except (OSError, ValueError):
            return self._bound

    def _let_go(self, bound: int) -> None:
        there = []
        for folder, _, names in os.walk(self._folder):
            for name in names:
                with suppress(OSError):  # another process may be at it too
                    found = os.stat(os.path.join(folder, name))
                    there.append((found.st_mtime_ns, found.st_size, os.path.join(folder, name)))
        size = sum(one[1] for one in there)
        if size <= bound:
            return
        for _, bytes_there, path in sorted(there):
            with suppress(OSError):
                os.unlink(path)
            size -= bytes_there
            if size <= bound * 0.9:
                return

    def _path(self, key: str) -> Path:
        return self._folder / key[:1] / key[1:]  # few folders: making one takes longer than what goes into it


def _seal(key: str, content: bytes) -> bytes:
    return sha256(key.encode() + content).digest()


__all__ = ["BOUND", "Cache", "digest"]
