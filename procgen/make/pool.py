"""Worker processes: one piece of work at a time each, and a worker that dies is told with the work it died on."""

from __future__ import annotations

import gc
import multiprocessing
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


def run(start: Callable[[], Work[T, R]], items: Sequence[T], workers: int) -> Iterator[tuple[int, R | Failed]]:
    """Do the work on every item, begun in order; give (index, result) as they get ready.

    `start` is called once in each process and gives the work; where there is no fork, it must pickle.
    """
    if workers == 1 or len(items) < FEW:
        work = start()
        for index, item in enumerate(items):
            yield index, _done(work, item)
        return
    todo = iter(enumerate(items))
    busy: dict[Connection, tuple[BaseProcess, int]] = {}
    try:
        for index, item in _first(todo, workers):
            _hire(start, busy, index, item)
        while busy:
            for connection in wait(list(busy)):
                assert isinstance(connection, Connection)
                process, index = busy.pop(connection)
                following = next(todo, None)
                try:
                    result: R | Failed = connection.recv()
                except (EOFError, OSError):  # killed, or out of memory: nothing more comes from it
                    process.join()
                    result = Failed(f"its worker process ended with code {process.exitcode}")
                    if following is not None:
                        _hire(start, busy, *following)
                else:
                    if following is not None:
                        busy[connection] = process, following[0]
                        connection.send(following[1])
                    else:
                        connection.send(None)
                        process.join()
                yield index, result
    finally:
        for process, _ in busy.values():
            process.terminate()


def _first(todo: Iterator[tuple[int, T]], count: int) -> Iterator[tuple[int, T]]:
    for _ in range(count):
        following = next(todo, None)
        if following is None:
            return
        yield following


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
    try:
        return work(item)
    except Exception as fault:
        return Failed(f"{type(fault).__name__}: {fault}")
