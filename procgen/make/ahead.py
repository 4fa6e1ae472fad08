"""Families looked at ahead, in several processes: what they find lies in the cache when it is asked for, and the decks
when they are to be printed."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from procgen.files.memory import Memory
from procgen.load.folder import Folder, Read
from procgen.load.names import schemas
from procgen.load.workshop import load_procedures
from procgen.make.apart import Apart
from procgen.make.pool import Workers
from procgen.values import dataclass

if TYPE_CHECKING:  # checking is imported while another process reads
    from procgen.check import Look
    from procgen.check.portions import Portions
    from procgen.make.composing import Composing


@dataclass(frozen=True, slots=True)
class Ahead:
    """`composing`: what is composed besides; None where nothing is. With one worker nobody looks ahead."""

    workers: int
    composing: Composing | None = None

    def __call__(self, portions: Portions, look: Look) -> None:
        new = [id for id in portions.context.workshop.families if not self._knows(portions, id)]
        if self.workers < 2 or len(new) < 2:
            return
        with Workers[str, None](lambda: lambda id: self._find(look(id), id), self.workers) as workers:
            workers.begin(len(new))
            neighbours = [str(n * self.workers // len(new)) for n in range(len(new))]  # who often agree in much
            for id, neighbour in zip(new, neighbours, strict=True):
                workers.put(id, _nothing, neighbour)
            workers.finish()

    def read(self, root: Path, read: Read, memory: Memory) -> Apart[None]:
        """Reads new families, and procedures from the last, in a process of its own, while this one reads from the
        first; what it does not get to is done where it is asked for."""
        is_worth_it = self.workers > 1 and len(Folder(root, read, memory).unknown("family")) > 1
        if is_worth_it:
            schemas().validator("family")  # both need it, and what makes it takes long to import
        return Apart(partial(_read, root, read, memory), begin=is_worth_it)

    def _knows(self, portions: Portions, id: str) -> bool:
        return (self.composing is None or self.composing.has(portions, id)) and portions.has("form", id)

    def _find(self, portions: Portions, id: str) -> None:
        if self.composing is not None and id in portions.context.workshop.families:
            self.composing.compose(portions, id)
        portions.context.benches.forget(id)  # a worker looks at many families


def _nothing(come: object) -> None:
    """What one of them failed at is met again by whoever asks for it."""


def _read(root: Path, read: Read, memory: Memory) -> None:
    Folder(root, read, memory).by_id("family")  # held to their form: what they are depends on all procedures
    load_procedures(Folder(root, read, memory), last_first=True)
