"""What the commands share: reading, telling problems, showing how work gets on."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

from procgen.cli.folders import cache
from procgen.files.problems import Problem, Severity
from procgen.files.reporters import as_lines, as_text

if TYPE_CHECKING:
    from procgen.load.folder import Read
    from procgen.make.checking import Checked
    from procgen.model.workshop import Workshop


def read(path: Path) -> bytes:
    return path.read_bytes()


def check_workshop(root: Path, read: Read = read) -> Checked:
    """The workshop, with what is wrong in it; what was found out before is not found out again."""
    from procgen.make.collecting import uncollected

    with uncollected():  # while importing too
        from procgen.make.ahead import Ahead
        from procgen.make.cache import Cache
        from procgen.make.checking import read_and_check
        from procgen.make.known import Kept

        kept = Cache(Path(cache()))
        found = read_and_check(root, read, Kept(kept), Ahead(os.cpu_count() or 1))
        kept.trim()
        return found


def sound_workshop(root: Path, read: Read = read) -> Checked | None:
    """The workshop; None where it has errors, which are told."""
    checked = check_workshop(root, read)
    if checked.is_sound:
        return checked
    tell([problem for problem in checked.problems if problem.is_error], checked.sources)
    return None


def told(problems: Iterable[Problem], sources: Mapping[str, str], *, brief: bool = False) -> str:
    """The problems for a person: notes in lines, the others with the line they stand in. `brief`: a line a note."""
    found = list(problems)
    notes = [problem for problem in found if problem.severity is Severity.NOTE]
    text = f"{as_lines(notes, related=not brief)}\n" if notes else ""
    if len(notes) < len(found):
        text += as_text((problem for problem in found if problem.severity is not Severity.NOTE), sources)
    return text


def tell(problems: Iterable[Problem], sources: Mapping[str, str], *, brief: bool = False) -> None:
    """The same on the error stream."""
    print(told(problems, sources, brief=brief), end="", file=sys.stderr)


def counts(workshop: Workshop) -> str:
    """ "6 families, 4 cards" """
    return f"{many(len(workshop.families), 'family', 'families')}, {many(len(workshop.deck), 'card')}"


def many(number: int, one: str, several: str = "") -> str:
    """ "1 card", "4 cards" """
    return f"{number} {one if number == 1 else several or f'{one}s'}"


class Bar:
    """A progress bar on a terminal; nothing elsewhere."""

    def __init__(self) -> None:
        self._bar: Any = None

    def more(self, count: int) -> None:
        if self._bar is not None:
            self._bar.total += count
        elif count and sys.stderr.isatty():
            from tqdm import tqdm

            tqdm.monitor_interval = 0  # no thread: the workers are forked
            self._bar = tqdm(total=count, unit="card", leave=False, file=sys.stderr)

    def step(self, what: str, count: int) -> None:
        if self._bar is not None:
            self._bar.set_postfix_str(what, refresh=False)
            self._bar.update(count)

    def end(self) -> None:
        if self._bar is not None:
            self._bar.close()
