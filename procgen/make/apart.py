"""Work in a process of its own, while this one goes on with something else."""

from __future__ import annotations

import gc
import multiprocessing
from collections.abc import Callable
from multiprocessing.connection import Connection
from types import TracebackType
from typing import Generic, TypeVar

from procgen.make.pool import FORKS, ending

R = TypeVar("R")


class Apart(Generic[R]):
    """`with Apart(work) as apart: ...; apart.result()`. Where `begin` is false, or nothing forks, the work is done when
    its result is asked for. Leaving ends it, done or not."""

    def __init__(self, work: Callable[[], R], begin: bool = True) -> None:
        self._work = work
        self._begun = begin and FORKS

    def __enter__(self) -> Apart[R]:
        if self._begun:
            context = multiprocessing.get_context("fork")
            self._ours, theirs = context.Pipe(duplex=False)
            gc.freeze()  # so that collecting there touches none of the pages that it shares with us
            self._process = context.Process(target=_do, args=(theirs, self._work), daemon=True)
            self._process.start()
            theirs.close()
        return self

    def result(self) -> R:
        """Once.

        Raises:
            RuntimeError: where the process ended without one; and whatever the work raised.
        """
        if not self._begun:
            return self._work()
        try:
            result, fault = self._ours.recv()
        except EOFError:
            self._process.join()
            raise RuntimeError(f"a process {ending(self._process.exitcode)}") from None
        if fault is not None:
            raise fault
        found: R = result
        return found

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        if self._begun:
            self._process.terminate()
            self._process.join()
            self._ours.close()


def _do(to: Connection, work: Callable[[], R]) -> None:
    try:
        to.send((work(), None))
    except Exception as fault:
        to.send((None, fault))
