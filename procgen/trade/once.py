"""Results of pure functions of a family, kept: many figures of one card rest on the same plan."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import TypeVar

from procgen.model.family import Family

T = TypeVar("T")
KEPT = 16
"""Families at once: a workshop's families are worked through one after the other."""


def once(work_out: Callable[[Family], T]) -> Callable[[Family], T]:
    """Work it out once for each family. A family never changes; it is known again as the same object."""
    kept: dict[int, tuple[Family, T]] = {}

    @wraps(work_out)
    def look_up(family: Family) -> T:
        found = kept.get(id(family))
        if found is None or found[0] is not family:
            while len(kept) >= KEPT:
                kept.pop(next(iter(kept)))
            found = kept[id(family)] = (family, work_out(family))
        return found[1]

    return look_up
