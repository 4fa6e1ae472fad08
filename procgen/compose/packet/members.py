"""Members called together: "cylinders A4, B1–B4"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import groupby

_PARTS = re.compile(r"(.*?)(\d+)$")


def called(each: str, members: Sequence[str]) -> str:
    """`each` is one of them in words; "" where there is only the engine."""
    named = [member for member in members if member]
    if not each or not named:
        return ""
    return f"{each}{'' if len(named) == 1 else 's'} {runs(named)}"


def together(said: Sequence[str]) -> str:
    """Several single members as one: "cam bearings 1–3" of "cam bearing 1", "cam bearing 2", "cam bearing 3"."""
    parted = [one.rpartition(" ") for one in said]
    if len({each for each, _, _ in parted}) == 1 and not any(mark in one for one in said for mark in "–,"):
        return called(parted[0][0], [member for _, _, member in parted])
    return ", ".join(said)


def runs(members: Sequence[str]) -> str:
    """Names in their order, three and more that count on drawn together."""
    said = []
    for _, run in groupby(enumerate(members), key=_run):
        names = [name for _, name in run]
        said += [f"{names[0]}–{names[-1]}"] if len(names) > 2 else names
    return ", ".join(said)


def _run(placed: tuple[int, str]) -> tuple[str, int]:
    """The same for names that count on from each other."""
    place, name = placed
    found = _PARTS.fullmatch(name)
    return (name, 0) if found is None else (found[1], int(found[2]) - place)
