"""Seeing that something was edited, building again, and serving what was made of it."""

from __future__ import annotations

import gc
import multiprocessing
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import suppress
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from itertools import count
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from pathlib import Path
from time import monotonic, sleep

from procgen.make.known import Resident
from procgen.make.unchanged import age

Ages = Mapping[str, str]

LOOK, SELDOM = 0.01, 0.05
"""s between two looks, while edits come and once none came for a while."""

A_WHILE = 60.0
"""s; who edits one card after the other waits for none of them, and a watch that is forgotten costs next to nothing."""

RARELY = 100

QUIET = 1.0
"""s without an edit, after which there is time to tidy up."""


def edits(
    near: Callable[[], Iterable[str]],
    wait: Callable[[], None],
    far: Callable[[], Iterable[str]] = tuple,
    breath: Callable[[], None] = lambda: None,
) -> Iterator[tuple[str, ...]]:
    """Once at the start, then after each edit: the files and folders that came, went or changed.

    `near` lists what to look at, anew each time, so that new files and renames are seen; `far` what seldom changes and
    is looked at every RARELY looks. `wait` returns when it is time to look again. An edit made while the last one is
    worked on is seen at the next look. After an edit `breath` is taken until nothing more changes: a file is emptied
    before it is written.
    """
    before: Ages | None = None
    distant: Ages = {}
    for look in count():
        if look % RARELY == 0:
            distant = _ages(far())
        now = {**distant, **_ages(near())}
        if before is None:
            yield ()
        elif now != before:
            breath()
            while now != (then := {**distant, **_ages(near())}):
                now = then
                breath()
            yield tuple(sorted(name for name in {*now, *before} if now.get(name) != before.get(name)))
        before = now
        wait()


class Pace:
    """Waits between looks. `clock` tells the seconds."""

    def __init__(self, sleep: Callable[[float], None] = sleep, clock: Callable[[], float] = monotonic) -> None:
        self._sleep, self._clock = sleep, clock
        self.edited()

    def edited(self) -> None:
        self._last = self._clock()

    def wait(self) -> None:
        self._sleep(LOOK if self._clock() - self._last < A_WHILE else SELDOM)


def _ages(names: Iterable[str]) -> dict[str, str]:
    return {name: age(name) for name in names}


UNTIDY = 16
"""Builds, after which it is tidied up though edits go on: each leaves some megabytes."""


class Builder:
    """A process that builds again and again, and remembers what it can use again. A crash in it ends nothing: the next
    build begins with another."""

    def __init__(self, build: Callable[[Resident], int]) -> None:
        self._build = build
        self._process: BaseProcess | None = None
        self._ours: Connection | None = None

    def __enter__(self) -> Builder:
        return self

    def __exit__(self, *why: object) -> None:
        self.end()

    def build(self) -> int | None:
        """The exit code; None where the process died of it."""
        if self._process is None or not self._process.is_alive():  # it tidies up between builds, and may die of that
            self.end()
            self._begin()
        assert self._process is not None
        assert self._ours is not None
        try:
            self._ours.send(None)
            code: int = self._ours.recv()
        except (EOFError, OSError):
            self.end()
            return None
        return code

    def end(self) -> None:
        """What it remembers goes with it: for when our own code or the libraries changed."""
        if self._process is not None and self._ours is not None:
            self._ours.close()
            self._process.terminate()
            self._process.join()
        self._process = self._ours = None

    def _begin(self) -> None:
        self._ours, theirs = multiprocessing.Pipe()
        inherited = self._ours if multiprocessing.get_start_method() == "fork" else None
        self._process = multiprocessing.Process(target=_serve, args=(theirs, inherited, self._build))
        self._process.start()
        theirs.close()


def _serve(asked: Connection, inherited: Connection | None, build: Callable[[Resident], int]) -> None:
    if inherited is not None:  # else we would never see that the other end was closed
        inherited.close()
    resident, builds = Resident(), count(1)
    with suppress(EOFError, KeyboardInterrupt):
        while True:
            asked.recv()
            asked.send(build(resident))
            resident.settle()
            # Tidied while nobody waits, so that the next build need not look at what stays.
            if next(builds) % UNTIDY == 0 or not asked.poll(QUIET):
                gc.unfreeze()
                gc.collect()
                gc.freeze()


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
