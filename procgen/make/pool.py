"""Worker processes, kept for a whole build: one piece of work at a time each, of the same kin as the last where there
is one, and a worker that dies is told with the work it died on."""

from __future__ import annotations

import gc
import multiprocessing
import os
import signal
from collections import deque
from collections.abc import Callable, Sequence
from contextlib import nullcontext, suppress
from itertools import count
from multiprocessing.connection import Connection, wait
from multiprocessing.process import BaseProcess
from threading import Thread
from typing import Generic, TypeAlias, TypeVar

from procgen.make.collecting import frozen, uncollected
from procgen.values import dataclass

T = TypeVar("T")
R = TypeVar("R")
Work = Callable[[T], R]

FORKS = "fork" in multiprocessing.get_all_start_methods()
FEW = 3 if FORKS else 8
"""Fewer pieces than this are done in this process: starting workers would take longer."""


_RARELY = 50
_turns = count(1)


@dataclass(frozen=True, slots=True)
class Failed:
    """Work that came to nothing, and why."""

    why: str


class Workers(Generic[T, R]):
    """`with Workers(start, count) as workers: workers.put(...); workers.finish()`, as often as there is work.

    `start` gives the work. It is called once in each process that this one begins, those that fork from that share what
    it got ready; where there is no fork, it must pickle. It is called in this process too, for work of a few pieces
    where no worker is there, or where `count` is 1.
    """

    def __init__(self, start: Callable[[], Work[T, R]], count: int) -> None:
        self._start, self._count = start, count
        self._todo = _Todo[T, R]()
        self._idle: dict[Connection, _Process] = {}
        self._busy: dict[Connection, tuple[_Process, _Task[T, R] | None]] = {}  # no task: getting ready
        self._own: Work[T, R] | None = None

    def __enter__(self) -> Workers[T, R]:
        return self

    def __exit__(self, *why: object) -> None:
        there = {**self._idle, **{connection: process for connection, (process, _) in self._busy.items()}}
        for connection, process in there.items():
            connection.close()  # by which those end that others forked
            if process is not None:
                process.terminate()
                process.join()

    def begin(self, count: int, is_readied: bool = False) -> None:
        """Begin so many processes now: early there is little in memory for them to carry along, and they get ready
        while this one finds out what there is to do. Where all is to be done in one process, none is begun.

        `is_readied`: `get_ready` follows, before any work.
        """
        if self._count > 1:
            self._hire(min(count, self._count) - len(self._idle), is_readied)

    def get_ready(self, item: T) -> None:
        """Let those that this process began do this before they fork any others, which share what comes of it; nobody
        asks for that."""
        for connection in [one for one, process in self._idle.items() if process is not None]:
            self._give(item, None, connection)

    def put(self, item: T, then: Callable[[R | Failed], None], kin: str = "") -> None:
        """Have this done; `look` and `finish` begin it, and tell `then`, which may put more, what came of it. Begun in
        order, but a worker goes on with what is of the same kin as what it did last: it remembers much of that."""
        self._todo.put(_Task(item, then, kin))

    def look(self) -> None:
        """Take what workers that are there have done by now, and give them what was put; whoever goes on putting looks
        now and then, or they wait.

        Raises:
            Exception: what `start` raised, or `then` does.
        """
        self._take(patient=False)
        self._hand_out()

    def finish(self) -> None:
        """Until all is done, with what is put meanwhile.

        Raises:
            Exception: as `look`.
        """
        while self._todo or self._is_awaited():
            there = len(self._idle) + len(self._busy)
            if self._count == 1 or (not there and len(self._todo) < FEW):
                self._do_here()
                continue
            if len(self._todo) >= FEW:
                self._hire(min(self._count, len(self._todo)) - there)
            self._hand_out()
            self._take(patient=True)

    def _is_awaited(self) -> bool:
        return any(task is not None for _, task in self._busy.values())

    def _do_here(self) -> None:
        tidily, last = len(self._todo) >= FEW, None
        with frozen() if tidily else nullcontext():  # what was there before is none of what a piece leaves
            while (task := self._todo.take(last)) is not None:
                self._own = self._own or self._start()
                last = task
                task.then(_done(self._own, task.item, tidily))

    def _hand_out(self) -> None:
        while self._idle and (task := self._todo.take()) is not None:
            self._give(task.item, task)

    def _take(self, patient: bool) -> None:
        """What workers have done; each goes on before what it did is looked at."""
        for connection in wait(list(self._busy), None if patient else 0) if self._busy else ():
            assert isinstance(connection, Connection)
            process, task = self._busy.pop(connection)
            try:
                result = connection.recv()
            except (EOFError, OSError):  # killed, or out of memory: nothing more comes from it
                if process is None and task is not None:  # who was to fork it died before: nobody has begun that
                    self._todo.put(task)
                    task = None
                result = _Ended(_code(process))
            if isinstance(result, _Ended):
                result = Failed(f"its worker process {ending(result.exitcode)}")
                if self._todo:
                    self._hire(1)
            else:
                self._idle[connection] = process
            if isinstance(result, Exception):
                raise result
            if self._idle and (other := self._todo.take(task)) is not None:
                self._give(other.item, other)
            if task is not None:
                task.then(result)

    def _give(self, item: T, task: _Task[T, R] | None, connection: Connection | None = None) -> None:
        """To the last, unless it is said to whom."""
        connection = connection or next(reversed(self._idle))
        self._busy[connection] = self._idle.pop(connection), task
        with suppress(OSError):  # it has died: reading from it will tell
            connection.send(item)

    def _hire(self, count: int, is_readied: bool = False) -> None:
        """So many more; where there is fork, the first forks the others once it has started, and has got ready where
        that is asked of it, so that what takes long is imported and read once."""
        for together in [count] if FORKS and count > 0 else [1] * count:
            context = multiprocessing.get_context("fork" if FORKS else "spawn")
            pipes = [context.Pipe() for _ in range(together)]
            ours, theirs = zip(*pipes, strict=True)
            if FORKS:
                gc.freeze()  # so that collecting in a worker touches none of the pages that it shares with us
            inherited = (*self._idle, *self._busy, *ours) if FORKS else ()
            told = (theirs, inherited, self._start, is_readied)
            process = context.Process(target=_serve, args=told, daemon=True)  # type: ignore[attr-defined]
            process.start()
            for connection in theirs:
                connection.close()
            self._idle |= dict.fromkeys(ours) | {ours[0]: process}


_Process: TypeAlias = BaseProcess | None
"""None: no child of this process, but of the first of those that were begun together."""


def ending(exitcode: int | None) -> str:
    """How a process ended, in words: with an exit code, or by a signal, which is a code below 0."""
    if exitcode is None:
        return "ended"
    names = {-one.value: one.name for one in signal.Signals}
    return (
        f"was ended by {names.get(exitcode, f'signal {-exitcode}')}" if exitcode < 0 else f"ended with code {exitcode}"
    )


@dataclass(frozen=True, slots=True)
class _Ended:
    """A worker came to its end, with that exit code where it is known."""

    exitcode: int | None


def _code(process: _Process) -> int | None:
    if process is None:
        return None
    process.join()
    return process.exitcode


@dataclass(frozen=True, slots=True)
class _Task(Generic[T, R]):
    item: T
    then: Callable[[R | Failed], None]
    kin: str


class _Todo(Generic[T, R]):
    """What is not yet begun, by kin, in order."""

    def __init__(self) -> None:
        self._queues: dict[str, deque[_Task[T, R]]] = {}
        self._begun: set[str] = set()

    def __len__(self) -> int:
        return sum(map(len, self._queues.values()))

    def put(self, task: _Task[T, R]) -> None:
        self._queues.setdefault(task.kin, deque()).append(task)

    def take(self, last: _Task[T, R] | None = None) -> _Task[T, R] | None:
        """Of the kin of the last; else of one that nobody has begun; else of any."""
        own = () if last is None else (last.kin,)
        fresh = (name for name in self._queues if name not in self._begun)
        name = next((name for name in (*own, *fresh, *self._queues) if self._queues.get(name)), None)
        if name is None:
            return None
        self._begun.add(name)
        return self._queues[name].popleft()


def _serve(
    connections: Sequence[Connection],
    inherited: Sequence[Connection],
    start: Callable[[], Work[T, R]],
    is_readied: bool,
) -> None:
    """In as many processes as there are connections, this one and those that it forks."""
    for other in inherited:  # else nobody would notice that we are gone
        other.close()
    with suppress(EOFError, OSError, KeyboardInterrupt):
        try:
            with uncollected():
                work = start()
        except Exception as fault:
            while True:
                for connection in wait(connections):
                    assert isinstance(connection, Connection)
                    connection.recv()
                    connection.send(fault)
        if is_readied and connections[0] in wait(connections):
            connections[0].send(_done(work, connections[0].recv()))
        gc.freeze()  # all of it stays as long as this process does
        connection = _own(connections)
        while True:
            connection.send(_done(work, connection.recv()))


def _own(connections: Sequence[Connection]) -> Connection:
    """The one that this process serves: the first of them, or in a process that was forked for it another."""
    forked = []
    for other in connections[1:]:
        child = os.fork()
        if child == 0:
            for connection in connections:
                if connection is not other:
                    connection.close()
            return other
        forked.append((child, other))
    for child, other in forked:  # threads only now: whoever forks takes none along
        Thread(target=_tell_ending, args=(child, other), daemon=True).start()
    return connections[0]


def _tell_ending(child: int, connection: Connection) -> None:
    """Only who forked a process learns how it ended; who reads from it is told over its own connection."""
    _, status = os.waitpid(child, 0)
    with suppress(OSError):
        connection.send(_Ended(os.waitstatus_to_exitcode(status)))
    connection.close()


def _done(work: Work[T, R], item: T, tidily: bool = True) -> R | Failed:
    """`tidily`: with what it leaves collected; of a few pieces whoever goes on does that when there is time."""
    with uncollected():  # it would look through all that a worker remembers, again and again: an eighth of the time
        try:
            return work(item)
        except Exception as fault:
            return Failed(f"{type(fault).__name__}: {fault}{_in_template(fault)}")
        finally:
            if tidily:
                gc.collect(0 if next(_turns) % _RARELY else 2)  # what this piece has left; now and then all there is


def _in_template(fault: BaseException) -> str:
    """ " (card.html, line 12)": where in a template it happened, which a shop may have of its own; "" elsewhere."""
    if (line := getattr(fault, "lineno", None)) and (name := getattr(fault, "name", None)):  # it can't be read
        return f" ({name}, line {line})"
    import traceback  # of use to none but this
    from pathlib import Path

    frames = [f for f in traceback.extract_tb(fault.__traceback__) if not f.filename.endswith(".py")]
    found = [f for f in frames if "templates" in Path(f.filename).parts]
    return f" ({Path(found[-1].filename).name}, line {found[-1].lineno})" if found else ""
