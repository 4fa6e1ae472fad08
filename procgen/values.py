"""Dataclasses whose values nobody changes, without what guards each of them while a program runs.

To mypy they are Python's own, so it holds that nothing frozen is assigned to. With the guard a value takes three times
as long to make. That values are the same, and what they say, is asked of their fields: were a function written and
compiled for each class, as Python does, the classes that a check needs would take a tenth of a second to make.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterable
from operator import attrgetter
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from dataclasses import dataclass as dataclass
else:

    def dataclass(
        cls: type | None = None, /, *, frozen: bool = False, eq: bool = True, order: bool = False, **options: Any
    ) -> Any:
        """As Python's own: what is frozen can be hashed."""

        def made(cls: type) -> type:
            own = set(cls.__dict__)
            cls.__doc__ = cls.__doc__ or cls.__name__  # else Python writes one, which takes it long
            found = dataclasses.dataclass(repr=False, eq=order, order=order, **options)(cls)
            for name, method in _methods(found, frozen, eq).items():
                if name not in own:
                    setattr(found, name, method)
            return found

        return made if cls is None else made(cls)


def _methods(cls: type, frozen: bool, eq: bool) -> dict[str, Any]:
    """What dataclasses have beside what makes them."""
    fields = dataclasses.fields(cls)
    compared = _values(field.name for field in fields if field.compare)
    told = [field.name for field in fields if field.repr]
    shown, form = _values(told), ", ".join(f"{name}={{!r}}" for name in told)

    def __eq__(self: Any, other: Any) -> Any:
        return compared(self) == compared(other) if other.__class__ is self.__class__ else NotImplemented

    def __hash__(self: Any) -> int:
        return hash(compared(self))

    def __repr__(self: Any) -> str:
        return f"{self.__class__.__qualname__}({form.format(*shown(self))})"

    same = {"__eq__": __eq__, "__hash__": __hash__ if frozen else None}
    return {"__repr__": __repr__, **(same if eq else {})}


def _values(names: Iterable[str]) -> Callable[[Any], tuple[Any, ...]]:
    """What gives these of a value."""
    match list(names):
        case []:
            return lambda value: ()
        case [name]:
            return lambda value: (getattr(value, name),)
        case several:
            return attrgetter(*several)
