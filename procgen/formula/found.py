"""What typing a formula finds out of each of its parts."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field, replace

from procgen.formula.pretty import formula_text
from procgen.formula.types import Type
from procgen.model.formula import Expr, Name
from procgen.values import dataclass


class Wrong(Exception):
    """A part that means nothing; caught where the part is used, so that the rest is still looked at."""

    def __init__(self, code: str, message: str, at: int, hint: str = "") -> None:
        super().__init__(message)
        self.code, self.message, self.at, self.hint = code, message, at, hint


@dataclass(frozen=True, slots=True)
class Found:
    """A part's type, with the name that brings each of its axes in."""

    type: Type
    sources: Mapping[str, Name] = field(default_factory=dict)

    @staticmethod
    def over(type: Type, *parts: Found) -> Found:
        """`type` over the axes of all of `parts`."""
        sources: dict[str, Name] = {}
        for part in parts:
            sources |= {axis: name for axis, name in part.sources.items() if axis not in sources}
        return Found(replace(type, axes=tuple(sources)), sources)

    def without(self, *axes: str) -> Found:
        sources = {axis: name for axis, name in self.sources.items() if axis not in axes}
        return Found(replace(self.type, axes=tuple(sources)), sources)


def brief(tree: Expr) -> str:
    """A part as it is written, cut short where it is long."""
    text = formula_text(tree)
    return f"`{text}`" if len(text) <= 40 else f"`{text[:36]} …`"
