"""What characters are written with, for whoever brings fonts that have just these."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from functools import cache
from typing import Any


def characters(*things: object) -> frozenset[str]:
    """Every character of every text in these dataclasses, tuples and mappings that is not ASCII alone."""
    texts: set[str] = set()
    waiting: list[Any] = list(things)
    while waiting:
        thing = waiting.pop()
        kind: Any = type(thing)
        if kind is str:
            if not thing.isascii():  # else it has nothing to add
                texts.add(thing)
        elif kind is tuple or kind is list:
            waiting += thing
        elif isinstance(thing, Mapping):
            waiting += thing.values()
        elif kind not in _WORDLESS:
            waiting += [getattr(thing, name) for name in _names(kind)]
    return frozenset().union(*texts)


_WORDLESS = (float, int, bool, type(None))


@cache
def _names(kind: Any) -> tuple[str, ...]:
    """Of a dataclass's fields."""
    return tuple(field.name for field in fields(kind)) if is_dataclass(kind) else ()
