"""Worker processes: one piece of work at a time each, of the same kin as the last where there is one, and a worker that
dies is told with the work it died on."""

from __future__ import annotations

import gc
import multiprocessing
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass
from multiprocessing.connection import Connection, wait
from multiprocessing.process import BaseProcess
from typing import TypeVar

T = TypeVar("T")
R = TypeVar("R")
Work = Callable[[T], R]

FORKS = "fork" in multiprocessing.get_all_start_methods()
FEW = 3 if FORKS else 8
"""Fewer pieces than this are done in this process: starting workers would take longer."""


@dataclass(frozen=True, slots=True)
class Failed:
    """Work that came to nothing, and why."""

    why: str


def run(
    start: Callable[[], Work[T, R]], items: Sequence[T], workers: int, kin: Sequence[str] = ()
) -> Iterator[tuple[int, R | Failed]]:
    """Do the work on every item; give (index, result) as they get ready. Begun in order, but a worker goes on with what
    is of the same kin as what it did last: it remembers much of that.

    `start` is called once in each process and gives the work; where there is no fork, it must pickle.
    """
    todo = _Todo(kin or [""] * len(items))
    if workers == 1 or len(items) < FEW:
        work, last = start(), None
        while (last := todo.take(last)) is not None:
            yield last, _done(work, items[last])
        return
    busy: dict[Connection, tuple[BaseProcess, int]] = {}
    try:
        for _ in range(min(workers, len(items))):
            first = todo.take()
            assert first is not None
            _hire(start, busy, first, items[first])
        while busy:
            for connection in wait(list(busy)):
                assert isinstance(connection, Connection)
                process, index = busy.pop(connection)
                following = todo.take(index)
                try:
                    result: R | Failed = connection.recv()
                except (EOFError, OSError):  # killed, or out of memory: nothing more comes from it
                    process.join()
                    result = Failed(f"its worker process ended with code {process.exitcode}")
                    if following is not None:
                        _hire(start, busy, following, items[following])
                else:
                    if following is not None:
                        busy[connection] = process, following
                        connection.send(items[following])
                    else:
                        connection.send(None)
                        process.join()
                yield index, result
    finally:
        for process, _ in busy.values():
            process.terminate()


class _Todo:
    """What is not yet begun, by kin, in order."""

    def __init__(self, kin: Sequence[str]) -> None:
        self._kin = kin
        self._queues: dict[str, deque[int]] = {}
        for index, name in enumerate(kin):
            self._queues.setdefault(name, deque()).append(index)
        self._begun: set[str] = set()

    def take(self, last: int | None = None) -> int | None:
        """Of the kin of the last; else of one that nobody has begun; else of any."""
        own = () if last is None else (self._kin[last],)
        fresh = (name for name in self._queues if name not in self._begun)
        name = next((name for name in (*own, *fresh, *self._queues) if self._queues.get(name)), None)
        if name is None:
            return None
        self._begun.add(name)
        return self._queues[name].popleft()


def _hire(
    start: Callable[[], Work[T, R]], busy: dict[Connection, tuple[BaseProcess, int]], index: int, item: T
) -> None:
    """Start a worker and hand it its first piece."""
    context = multiprocessing.get_context("fork" if FORKS else "spawn")
    ours, theirs = context.Pipe()
    if FORKS:
        gc.freeze()  # so that collecting in a worker touches none of the pages that it shares with us
    inherited = (*busy, ours) if FORKS else ()
    process = context.Process(target=_serve, args=(theirs, inherited, start), daemon=True)  # type: ignore[attr-defined]
    process.start()
    theirs.close()
    busy[ours] = process, index
    with suppress(OSError):  # it died at once: reading from it will tell
        ours.send(item)


def _serve(connection: Connection, inherited: Sequence[Connection], start: Callable[[], Work[T, R]]) -> None:
    for other in inherited:  # else nobody would notice that we are gone
        other.close()
    work = start()
    with suppress(EOFError, KeyboardInterrupt):
        while (item := connection.recv()) is not None:
            connection.send(_done(work, item))


def _done(work: Work[T, R], item: T) -> R | Failed:
    gc.disable()  # it would look through all that a worker remembers, again and again: an eighth of the time
    try:
        return work(item)
    except Exception as fault:
        return Failed(f"{type(fault).__name__}: {fault}")
    finally:
        gc.collect(0)  # what this piece alone has left
        gc.enable()
