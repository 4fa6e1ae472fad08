"""Dataclasses whose values nobody changes, without what guards each of them while a program runs.

To mypy they are Python's own, so it holds that nothing frozen is assigned to. With the guard a value takes three times
as long to make, and the classes that a check needs take a twenty-fifth of a second longer.
"""

from __future__ import annotations

import dataclasses
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from dataclasses import dataclass as dataclass
else:

    def dataclass(cls: type | None = None, /, *, frozen: bool = False, eq: bool = True, **options: Any) -> Any:
        """As Python's own: what is frozen can be hashed."""

        def made(cls: type) -> type:
            is_hashed = frozen and eq and "__hash__" not in cls.__dict__
            return dataclasses.dataclass(eq=eq, unsafe_hash=is_hashed, **options)(cls)

        return made if cls is None else made(cls)
