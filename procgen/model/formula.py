"""The formula's tree. `at` is where a node begins in the formula's own text, so that a problem can point at it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from procgen.files.text import Text
from procgen.units.dimension import Dimension
from procgen.values import dataclass


@dataclass(frozen=True, slots=True)
class Whole:
    """A small whole number; any other number has a name and a source."""

    value: int
    at: int


@dataclass(frozen=True, slots=True)
class Name:
    """A dotted name: `geometry.bore`, `clearance`, `cam_bearing.journal`, `shop.ridge_hone_max`."""

    name: str
    at: int


@dataclass(frozen=True, slots=True)
class Pick:
    """`bore[thrust]`: one member of an axis."""

    of: Expr
    member: str
    at: int


@dataclass(frozen=True, slots=True)
class Call:
    """A listed function: an aggregate (`max`), `only`, `abs`, or one that trade registers."""

    function: str
    arguments: tuple[Expr, ...]
    at: int


@dataclass(frozen=True, slots=True)
class Negate:
    """`-x`."""

    of: Expr
    at: int


@dataclass(frozen=True, slots=True)
class Arithmetic:
    """`a + b`, `a - b`, `a * b`, `a / b`."""

    operator: str  # + - * /
    left: Expr
    right: Expr
    at: int  # of the operator


@dataclass(frozen=True, slots=True)
class Compare:
    """`a < b`, `a <= b`, `a > b`, `a >= b`."""

    operator: str  # < <= > >=
    left: Expr
    right: Expr
    at: int  # of the operator


@dataclass(frozen=True, slots=True)
class Among:
    """`x is a`, `x is not a`, `x in (a, b)`, `x not in (a, b)`: a choice, trait or decision against named words."""

    of: Expr
    words: tuple[str, ...]
    word_ats: tuple[int, ...]
    negated: bool
    at: int


@dataclass(frozen=True, slots=True)
class Logic:
    """`a and b and …`, `a or b or …`."""

    operator: str  # and or
    terms: tuple[Expr, ...]
    at: int


@dataclass(frozen=True, slots=True)
class Not:
    """`not a`."""

    of: Expr
    at: int


@dataclass(frozen=True, slots=True)
class Choose:
    """`a if condition else b`."""

    condition: Expr
    then: Expr
    otherwise: Expr
    at: int


Expr = Whole | Name | Pick | Call | Negate | Arithmetic | Compare | Among | Logic | Not | Choose


@dataclass(frozen=True, slots=True)
class Formula:
    """A parsed formula with the text it came from: `text.at(node.at)` is the place of a node."""

    text: Text
    tree: Expr


@dataclass(frozen=True, slots=True)
class Function:
    """A function that formulas may call beside the built-in ones: what it takes, what it gives, and by whose rule.

    `takes` has one entry an argument; a list-valued argument (`oversizes`) is written with `many=True` in `Parameter`.
    """

    name: str
    takes: tuple[Parameter, ...]
    gives: Dimension
    gives_list: bool
    call: Callable[..., Any]  # floats (or tuples of floats) in base units -> float or tuple; ValueError refuses
    source: str


@dataclass(frozen=True, slots=True)
class Parameter:
    """What a function takes: its name there, and its dimension."""

    name: str
    dimension: Dimension
    many: bool = False
