"""What a formula's parts are (sizes, choices, conditions, lists) and what names and functions it may use."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Literal, Protocol

from procgen.model.formula import Function
from procgen.units.dimension import NUMBER, Dimension, name_of
from procgen.units.lists import listed
from procgen.units.nearest import did_you_mean
from procgen.values import dataclass

Kind = Literal["number", "choice", "truth", "list"]

REDUCING = ("max", "min", "mean", "span", "sum", "count", "any", "all")
"""With one argument these run over every axis that the entry itself has not got."""

BUILT_IN = (*REDUCING, "only", "abs", "sqrt", "next_up")


@dataclass(frozen=True, slots=True)
class Type:
    """`dimension` is of a number, or of a list's members; `options` are a choice's words, () where any word may stand.

    `axes` name what there is one for each of: ("cylinder", "depth").
    """

    kind: Kind
    dimension: Dimension = NUMBER
    options: tuple[str, ...] = ()
    axes: tuple[str, ...] = ()


TRUTH = Type("truth")


def number(dimension: Dimension, *axes: str) -> Type:
    return Type("number", dimension, (), axes)


class Vocabulary(Protocol):
    """What a formula at one place may name."""

    def type_of(self, name: str) -> Type | None:
        """The type of a value, reading, decision, fact, trait or rule.

        None where nothing has that name, or where it is one of `names` but its own formula has no type.
        """

    def names(self) -> Sequence[str]:
        """Every name there is, to find the nearest to a misspelt one."""

    def functions(self) -> Mapping[str, Function]:
        """The functions beside the built-in ones."""

    def members(self, axis: str) -> tuple[str, ...] | None:
        """What `axis` has: the cam bearings' ids, or ("thrust", "axial"); None where it is not known beforehand."""


def in_words(found: Type) -> str:
    """ "a length", "a list of lengths", "a choice", "a condition": for messages."""
    if found.kind == "truth":
        return "a condition"
    if found.kind == "choice":
        return "a choice"
    word = "plain number" if found.dimension.is_number else name_of(found.dimension)
    if found.kind == "list":
        return f"a list of {word}s"
    return f"{'an' if word[0] in 'aeiou' else 'a'} {word}"


def mend(word: str, known: Sequence[str], few: int = 6) -> str:
    """The mend for a misspelt word: the nearest one, or all of them where they are few."""
    last = word.rpartition(".")[2]
    same_last = [name for name in known if name.rpartition(".")[2] == last]  # `geometry.bore` for `bore`
    hint = f"did you mean `{same_last[0]}`?" if len(same_last) == 1 else did_you_mean(word, known)
    if hint or not 0 < len(known) <= few:
        return hint
    return f"it is one of {listed([f'`{name}`' for name in known], 'or')}"
