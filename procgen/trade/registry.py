"""The functions that formulas may call beside the built-in ones, each with its dimensions and the rule it follows."""

from __future__ import annotations

import inspect
from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any, TypeVar

from procgen.model.formula import Function, Parameter
from procgen.units.dimension import Dimension
from procgen.values import dataclass

F = TypeVar("F", bound=Callable[..., Any])

_functions: dict[str, Function] = {}
FUNCTIONS: Mapping[str, Function] = MappingProxyType(_functions)
"""By name. Importing the room `trade` fills it."""


@dataclass(frozen=True, slots=True)
class Many:
    """Stands for a list of quantities of one dimension, taken or given."""

    of: Dimension


def function(*, takes: tuple[Dimension | Many, ...], gives: Dimension | Many, source: str) -> Callable[[F], F]:
    """Register the decorated function for formulas, under its own name and with its own parameters' names.

    It works on floats in base units (tuples of floats for `Many`) and refuses with ValueError, in words for a person.
    """

    def register(call: F) -> F:
        name = call.__name__
        if name in _functions:
            raise ValueError(f"two functions are called {name}")
        parameters = tuple(
            Parameter(parameter, taken.of, many=True) if isinstance(taken, Many) else Parameter(parameter, taken)
            for parameter, taken in zip(inspect.signature(call).parameters, takes, strict=True)
        )
        given, many = (gives.of, True) if isinstance(gives, Many) else (gives, False)
        _functions[name] = Function(name, parameters, given, many, call, source)
        return call

    return register


def positive(**sizes: float) -> None:
    """Refuse a size that is not above nothing: `positive(bore=bore, stroke=stroke)`."""
    for name, size in sizes.items():
        if not size > 0:
            raise ValueError(f"{name.replace('_', ' ')} must be more than nothing, and is {size:g}")
