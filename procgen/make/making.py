"""A build from its beginning: whether it is known, and workers to print, before anything is read or even imported."""

from __future__ import annotations

import gc
from collections.abc import Callable, Mapping
from contextlib import nullcontext
from dataclasses import field
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from procgen.files.memory import NOTHING, Memory
from procgen.files.problems import Problem
from procgen.make import causes
from procgen.make.cache import Cache
from procgen.make.collecting import uncollected
from procgen.make.cutting import cut_ahead
from procgen.make.known import Kept, Resident
from procgen.make.order import Order
from procgen.make.pool import Work, Workers
from procgen.make.printing import start
from procgen.make.whole import Snapshot, replay
from procgen.values import dataclass

if TYPE_CHECKING:
    from procgen.make.printing import Asked, Piece
    from procgen.make.prints import Progress

Read = Callable[[Path], bytes]


@dataclass(frozen=True, slots=True)
class Made:
    """What came of it. `pages`: files of the site; `faces` of each card; `printed`: cards laid out, not known before;
    `slow`: what made printing slow, if anything did."""

    is_sound: bool
    problems: tuple[Problem, ...]
    sources: Mapping[str, str] = field(default_factory=dict)
    pages: int = 0
    faces: tuple[int, ...] = ()
    printed: int = 0
    slow: str = ""


def make(order: Order, read: Read, progress: Progress, resident: Resident | None = None) -> Made:
    """Check, and where that is sound, make what the order says. Old output stays as it is until all of it is there.

    `resident`: what this process remembers of earlier builds, where it makes more than one.

    Raises:
        UnknownName: for a card, family, stock or sheet in the order that the workshop does not have.
        NoLayout: where cards are to be laid out and can't be.
    """
    cache = Cache(order.cache) if resident is None else resident.cache(order.cache)
    remembered = NOTHING if resident is None else resident
    stamp = causes.stamp(order.templates)
    with Workers(partial(_start, remembered, order, stamp), order.workers) as workers:
        begin = partial(_begin, workers, order.workers if order.prints_many else 1)
        forks = resident is None and order.only != "site"
        if forks and order.is_partial:  # no such build is known as a whole
            begin()
        snapshot = Snapshot(order, read)
        if known := replay(snapshot, cache):
            return Made(True, known.problems, known.sources, known.pages, known.faces)
        if forks and not order.is_partial:
            begin()
        memory = Kept(cache) if resident is None else resident.begin(Kept(cache))
        with uncollected():  # nearly all that is read and composed here is needed to the end
            from procgen.make.build import make_anew  # imported while workers get ready

            with cut_ahead(order) if resident is None else nullcontext():  # one that stays made them long ago
                made = make_anew(order, snapshot, cache, memory, workers, stamp, progress)
            gc.freeze()  # nor is it looked through at the end
            return made


def _begin(workers: Workers[Asked, Piece], count: int) -> None:
    """With what all processes need imported once: classes of data take longer to make than a process."""
    from procgen.model import card, scene, workshop  # noqa: F401

    workers.begin(count, is_readied=True)


def _start(memory: Memory, order: Order, stamp: tuple[int, ...]) -> Work[Asked, Piece]:
    return memory.held(("start", stamp), partial(start, order.fonts, order.templates, order.cache))
