"""Values of our model as bytes, and back again: dataclasses, and what Python's own literals can say.

Pickle, for its speed, but with the door shut: whoever can write where such bytes are kept can have our dataclasses made
of plain values, and nothing else called (see “Restricting Globals” in Python's documentation of pickle).
"""

from __future__ import annotations

import io
import pickle
from dataclasses import fields, is_dataclass
from typing import Any

_MODEL = "procgen.model."


def store(value: Any) -> bytes:
    stream = io.BytesIO()
    _Writer(stream).dump(value)
    return stream.getvalue()


def restore(content: bytes) -> Any:
    """An equal of what was stored.

    Raises:
        Exception: of any kind, where this is not what `store` gives.
    """
    return _Reader(io.BytesIO(content)).load()


class _Writer(pickle.Pickler):
    def __init__(self, stream: io.BytesIO) -> None:
        super().__init__(stream, pickle.HIGHEST_PROTOCOL)
        self._fields: dict[type, tuple[str, ...]] = {}

    def reducer_override(self, value: Any) -> Any:
        """A dataclass is called again with its fields: what dataclasses do by themselves takes twice as long."""
        kind = type(value)
        names = self._fields.get(kind)
        if names is None:
            names = tuple(field.name for field in fields(kind)) if is_dataclass(kind) else ()
            self._fields[kind] = names
        return (kind, tuple(getattr(value, name) for name in names)) if names else NotImplemented


class _Reader(pickle.Unpickler):
    def find_class(self, module: str, name: str) -> Any:
        found = super().find_class(module, name) if module.startswith(_MODEL) and "." not in name else None
        if not (isinstance(found, type) and is_dataclass(found) and found.__module__ == module):
            raise pickle.UnpicklingError(f"{module}.{name} is not of the model")
        return found
