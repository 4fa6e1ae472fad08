"""What a check row is, and how a formula is put to one.

A row says what is worked out, from whose rule or arithmetic the expected figure comes, and both figures. Figures have
about ten digits, so they must agree to one part in 10⁹ unless a row says otherwise.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from procgen.files.problems import Place
from procgen.files.text import Text
from procgen.formula import Cell, Spread, State, Type, evaluate, infer, known, number, parse, single
from procgen.model.formula import Function
from procgen.trade.registry import FUNCTIONS
from procgen.units.dimension import LENGTH, NUMBER
from procgen.units.quantity import parse_quantity
from procgen.units.table import UNITS

Figure = float | str | bool | None
INCH = 25.4
N, KN, MPA, N_M, CC = (float(UNITS[symbol].factor) for symbol in ("N", "kN", "MPa", "N·m", "cm³"))
PSI, LBF, LBF_FT, IN2 = (float(UNITS[symbol].factor) for symbol in ("psi", "lbf", "lbf·ft", "in²"))
REV_MIN, FT_MIN = 1 / 60, 304.8 / 60


@dataclass(frozen=True, slots=True)
class Row:
    what: str
    source: str
    work: Callable[[], Figure]
    want: Figure
    rel: float = 1e-9
    abs: float = 1e-12


@dataclass
class Bench:
    """The names of one formula, with every function that cards may call."""

    types: Mapping[str, Type]
    spreads: Mapping[str, Spread]

    def type_of(self, name: str) -> Type | None:
        return self.types.get(name)

    def names(self) -> tuple[str, ...]:
        return tuple(self.types)

    def functions(self) -> Mapping[str, Function]:
        return FUNCTIONS

    def members(self, axis: str) -> tuple[str, ...] | None:
        return ("thrust", "axial") if axis == "axis" else None


@dataclass
class Scope:
    bench: Bench

    @property
    def functions(self) -> Mapping[str, Function]:
        return FUNCTIONS

    def members(self, axis: str) -> tuple[str, ...] | None:
        return self.bench.members(axis)

    def spread(self, name: str, bound: Mapping[str, str]) -> Spread:
        return self.bench.spreads[name]


Given = str | float | tuple[float, ...] | Spread


def said(formula: str, guard: float | None = None, **given: Given) -> Figure:
    """What a formula of a card comes to, in base units: typed, then evaluated, as the cards' own are.

    `given` are quantities ("98.40 mm"), plain numbers, lists of lengths (mm) or spreads of lengths over depth and axis.
    With a `guard` band (mm), "undecided" where the readings are too near a limit. None where it does not apply.
    """
    types, spreads = {}, {}
    for name, value in given.items():
        if isinstance(value, Spread):
            types[name], spreads[name] = number(LENGTH, *value.axes), value
        elif isinstance(value, tuple):
            types[name], spreads[name] = Type("list", LENGTH), single(known(value), LENGTH)
        elif isinstance(value, float):
            types[name], spreads[name] = number(NUMBER), single(known(value))
        else:
            quantity = parse_quantity(value)
            types[name] = number(quantity.dimension)
            spreads[name] = single(known(quantity.value, {name: 1.0}), quantity.dimension)
    bench = Bench(types, spreads)
    read, problems = parse(Text(formula, Place("row", 1, 1), formula))
    assert read is not None, problems
    found, problems = infer(read, bench, ())
    assert found is not None, problems
    cell: Cell = evaluate(read.tree, Scope(bench), {}, (), (lambda _: guard) if guard is not None else None).one
    if cell.state is State.NONE:
        return None
    if cell.state is State.CLOSE:
        return "undecided"
    assert cell.state is State.KNOWN, cell
    assert not isinstance(cell.value, tuple)
    return cell.value


def judged(size: str, guard: float, low: str = "", high: str = "") -> str:
    """accept, undecided or reject, as a verdict of a card has it, from limits and a guard band (mm)."""
    limits = {name: value for name, value in (("low", low), ("high", high)) if value}
    terms = {"low": "low <= size", "high": "size <= high"}
    holds = said(" and ".join(terms[name] for name in limits), guard, size=size, **limits)
    return holds if isinstance(holds, str) else "accept" if holds else "reject"
