"""A workshop read and checked."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from contextlib import nullcontext
from pathlib import Path
from typing import TYPE_CHECKING

from procgen.files.memory import NOTHING, Memory
from procgen.files.problems import Problem
from procgen.load.folder import Read
from procgen.load.workshop import load_workshop
from procgen.make.ahead import Ahead
from procgen.model.workshop import Workshop
from procgen.values import dataclass

if TYPE_CHECKING:
    from procgen.check import Context


@dataclass(frozen=True, slots=True)
class Checked:
    """`context` is None where the workshop did not load."""

    context: Context | None
    problems: tuple[Problem, ...]
    sources: Mapping[str, str]

    @property
    def is_sound(self) -> bool:
        return self.context is not None and not any(problem.is_error for problem in self.problems)

    @property
    def workshop(self) -> Workshop:
        assert self.context is not None
        return self.context.workshop


def read_and_check(
    root: Path,
    read: Read,
    memory: Memory = NOTHING,
    ahead: Ahead | None = None,
    on_read: Callable[[Workshop], None] | None = None,
) -> Checked:
    """`ahead` as in `check`; `on_read`: called between the two, where something was read that can be checked."""
    with ahead.read(root, read, memory) if ahead is not None else nullcontext():
        from procgen.check import check, told_once  # which takes as long as a third of reading

        loaded = load_workshop(root, read, memory=memory)
    sources = {path: content.decode("utf-8", "replace") for path, content in loaded.sources.items()}
    if loaded.workshop is None:
        return Checked(None, loaded.problems, sources)
    if on_read is not None:
        on_read(loaded.workshop)
    broken = {problem.place.path for problem in loaded.problems if problem.is_error}
    context, found = check(loaded.workshop, broken, memory, ahead)
    return Checked(context, told_once({*loaded.problems, *found}), sources)
