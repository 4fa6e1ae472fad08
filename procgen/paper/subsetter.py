"""WeasyPrint's second way of cutting a font down, in Python by fontTools, which it imports whatever happens and goes
only where HarfBuzz can't: a fifth of what its import takes. Here it is imported when it is gone.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from importlib import import_module
from types import ModuleType
from typing import Any

_SELDOM = ("fontTools.subset", "fontTools.varLib.instancer")


class _Later(ModuleType):
    """In place of a module of which nothing but functions and classes are asked: each imports it when it is called."""

    def __getattr__(self, name: str) -> Callable[..., Any]:
        if name.startswith("__"):
            raise AttributeError(name)
        return lambda *given, **named: getattr(import_module(self.__name__), name)(*given, **named)


@contextmanager
def in_python_later() -> Iterator[None]:
    """Within it WeasyPrint can be imported without that way."""
    ours = {name: _Later(name) for name in _SELDOM if name not in sys.modules}
    sys.modules |= ours
    try:
        yield
    finally:
        for name, module in ours.items():
            if sys.modules.get(name) is module:  # so that whoever imports it now has it
                del sys.modules[name]
