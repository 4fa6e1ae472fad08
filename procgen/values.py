"""Dataclasses whose values nobody changes, without what guards each of them while a program runs.

To mypy they are Python's own, so it holds that nothing frozen is assigned to. With the guard a value takes three times
as long to make. What compares and shows values is compiled where it is first asked for, which of most classes it never
is: else the classes that a check needs take a tenth of a second to make.
"""

from __future__ import annotations

import dataclasses
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
            for name, source in _methods(found, frozen, eq).items():
                if name not in own:
                    setattr(found, name, source and _compiled_late(found, name, source))
            return found

        return made if cls is None else made(cls)


def _methods(cls: type, frozen: bool, eq: bool) -> dict[str, str | None]:
    """What dataclasses have beside what makes them, as source; None for what they have not."""
    fields = dataclasses.fields(cls)
    told = ", ".join(f"{field.name}={{self.{field.name}!r}}" for field in fields if field.repr)
    found: dict[str, str | None] = {"__repr__": f'lambda self: f"{{self.__class__.__qualname__}}({told})"'}
    if eq:
        compared = [field.name for field in fields if field.compare]
        mine, others = (f"({''.join(f'{whose}.{name}, ' for name in compared)})" for whose in ("self", "other"))
        like = "other.__class__ is self.__class__"
        found["__eq__"] = f"lambda self, other: {mine} == {others} if {like} else NotImplemented"
        found["__hash__"] = f"lambda self: hash({mine})" if frozen else None
    return found


def _compiled_late(cls: type, name: str, source: str) -> Any:
    """The method, which takes its own place on the class when it is first called."""

    def method(*values: Any) -> Any:
        compiled = eval(source)  # of names of fields alone
        compiled.__qualname__ = method.__qualname__
        setattr(cls, name, compiled)
        return compiled(*values)

    method.__qualname__ = f"{cls.__qualname__}.{name}"
    return method
