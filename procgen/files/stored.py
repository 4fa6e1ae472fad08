"""Values of our model as bytes, and back again: dataclasses, exact numbers, and what Python's own literals can say.

Pickle, for its speed, but with the door shut: whoever can write where such bytes are kept can have our dataclasses made
of plain values, and nothing else called (see “Restricting Globals” in Python's documentation of pickle).
"""

from __future__ import annotations

import io
import pickle
from collections.abc import Callable
from dataclasses import fields, is_dataclass
from importlib import import_module
from typing import Any

from procgen.units.table import UNITS, Unit

_ROOMS = ("procgen.model.", "procgen.units.", "procgen.files.problems", "procgen.files.text")
"""Where dataclasses may come from: the model, and what its values are made of."""

_EXACT = {("decimal", "Decimal"), ("fractions", "Fraction")}


def store(value: Any) -> bytes:
    stream = io.BytesIO()
    _Writer(stream).dump(value)
    return stream.getvalue()


def restore(content: bytes) -> Any:
    """An equal of what was stored.

    Raises:
        Exception: of any kind, where this is not what `store` gives.
    """
    return read(content, _of_model)


def read(content: bytes, find: Callable[[str, str], Any]) -> Any:
    """What a pickle holds, made of nothing but what `find` gives for a module and a name; None for what may not be had.

    Raises:
        Exception: of any kind, where it asks for anything else or is no pickle.
    """
    return _Reader(content, find).load()


class _Writer(pickle.Pickler):
    def __init__(self, stream: io.BytesIO) -> None:
        super().__init__(stream, pickle.HIGHEST_PROTOCOL)
        self._fields: dict[type, tuple[str, ...]] = {}

    def reducer_override(self, value: Any) -> Any:
        """A dataclass is called again with its fields: what dataclasses do by themselves takes twice as long. A unit
        goes by its symbol: there is one of each, and it is known by being that one.
        """
        kind = type(value)
        if kind is Unit and UNITS.get(symbol := value.symbol) is value:
            return _unit, (symbol,)
        names = self._fields.get(kind)
        if names is None:
            names = tuple(field.name for field in fields(kind)) if is_dataclass(kind) else ()
            self._fields[kind] = names
        return (kind, tuple(getattr(value, name) for name in names)) if names else NotImplemented


class _Reader(pickle.Unpickler):
    def __init__(self, content: bytes, find: Callable[[str, str], Any]) -> None:
        super().__init__(io.BytesIO(content))
        self._find = find

    def find_class(self, module: str, name: str) -> Any:
        found = _unit if (module, name) == (__name__, _unit.__name__) else self._find(module, name)
        if found is None:
            raise pickle.UnpicklingError(f"{module}.{name} may not be had")
        return found


def _unit(symbol: str) -> Unit:
    return UNITS[symbol]


def _of_model(module: str, name: str) -> Any:
    """A dataclass of the model, by its own name, or an exact number's type."""
    if (module, name) in _EXACT:
        return getattr(import_module(module), name)
    found = getattr(import_module(module), name, None) if module.startswith(_ROOMS) else None
    return found if isinstance(found, type) and is_dataclass(found) and found.__module__ == module else None
