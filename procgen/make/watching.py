"""Seeing that something was edited, and serving what was made of it. The standard library alone."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

from procgen.make.unchanged import age

Ages = Mapping[str, str]


def edits(names: Callable[[], Iterable[str]], wait: Callable[[], None]) -> Iterator[tuple[str, ...]]:
    """Once at the start, then after each edit: the files and folders that came, went or changed.

    `names` lists what to look at, anew each time, so that new files and renames are seen; `wait` returns when it is
    time to look again. An edit made while the last one is worked on is seen at the next look.
    """
    before: Ages | None = None
    while True:
        now = {name: age(name) for name in names()}
        if before is None:
            yield ()
        elif now != before:
            yield tuple(sorted(name for name in {*now, *before} if now.get(name) != before.get(name)))
        before = now
        wait()


class _Quiet(SimpleHTTPRequestHandler):
    def log_message(self, format: str, *values: object) -> None:
        """Nothing: the terminal is for problems."""

    def end_headers(self) -> None:
        self.send_header("Cache-Control", "no-store")  # or an edit would not be seen
        super().end_headers()


def server(folder: Path, port: int) -> ThreadingHTTPServer:
    """On this machine alone. The folder may be exchanged for another while it serves.

    Raises:
        OSError: where the port is taken.
    """
    return ThreadingHTTPServer(("127.0.0.1", port), partial(_Quiet, directory=str(folder.absolute())))
