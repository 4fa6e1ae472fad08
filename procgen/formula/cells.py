"""What a formula gives: cells in one of four states, and spreads of them over the axes of what there is many of."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import field
from enum import Enum
from functools import lru_cache

from procgen.units.dimension import NUMBER, Dimension
from procgen.values import dataclass

Value = float | str | bool | tuple[float, ...]


class State(Enum):
    """KNOWN; UNKNOWN: the family does not state it yet; WANTING: a reading not taken; NONE: does not apply.

    CLOSE is of conditions only, and only where gauges are known: the readings are too near the limit to call.
    """

    KNOWN = "known"
    UNKNOWN = "unknown"
    WANTING = "wanting"
    NONE = "none"
    CLOSE = "close"


@dataclass(frozen=True, slots=True)
class Refused:
    """Arithmetic that has no result for these numbers; `at` is the offset of its operator or call in the formula."""

    message: str
    at: int


_NOTHING: Mapping[str, float] = {}


@dataclass(frozen=True, slots=True)
class Cell:
    """One thing: a number in base units, a choice's word, whether a condition holds, or a list of numbers.

    `because` names what it waits for; `partials` say how much it moves with each reading, in base units of both.
    A `refused` cell counts as UNKNOWN.
    """

    state: State
    value: Value | None = None
    because: frozenset[str] = frozenset()
    partials: Mapping[str, float] = field(default_factory=dict)
    refused: Refused | None = None

    @property
    def number(self) -> float:
        """The value of a known number."""
        assert isinstance(self.value, (int, float))
        return float(self.value)

    @property
    def holds(self) -> bool:
        """Whether a condition is known to hold."""
        return self.value is True


def known(value: Value, partials: Mapping[str, float] = _NOTHING) -> Cell:
    return Cell(State.KNOWN, value, frozenset(), partials)


def reading(value: float, name: str) -> Cell:
    """A measured number: what is worked out from it moves with it under `name`."""
    return Cell(State.KNOWN, value, frozenset(), {name: 1.0})


def unknown(*because: str) -> Cell:
    return Cell(State.UNKNOWN, because=frozenset(because))


@lru_cache(maxsize=4096)
def wanting(*because: str) -> Cell:
    return Cell(State.WANTING, because=frozenset(because))


def refused(message: str, at: int) -> Cell:
    return Cell(State.UNKNOWN, refused=Refused(message, at))


NONE = Cell(State.NONE)

_WAITING = (State.UNKNOWN, State.WANTING, State.CLOSE)


def waiting(cells: Iterable[Cell]) -> Cell | None:
    """What stands for anything that needs all of `cells`, those that do not apply aside; None where all are known."""
    waits = [cell for cell in cells if cell.state is not State.KNOWN and cell.state is not State.NONE]
    if not waits:  # by far the most often
        return None
    for cell in waits:
        if cell.refused is not None:
            return cell
    state = next(state for state in _WAITING if any(cell.state is state for cell in waits))
    return Cell(state, because=frozenset().union(*(cell.because for cell in waits)))


def not_known(cells: Sequence[Cell]) -> Cell | None:
    """The same for arithmetic, where what does not apply wins over all."""
    for cell in cells:
        if cell.state is State.NONE:
            return cell
    return waiting(cells)


def uncertainty(cell: Cell, expanded: Mapping[str, float]) -> float:
    """The expanded uncertainty of a value, from those of its readings (`expanded`, by the names in `partials`).

    The larger of two: the readings' errors all independent (root of the sum of squares), and all one common error (the
    sum of the signed shares), as with one gauge wrongly set. In base units; KeyError where a reading has none.
    Source: JCGM 100, first order (from memory, not checked).
    """
    shares = [partial * expanded[name] for name, partial in cell.partials.items()]
    return max(math.hypot(*shares), abs(math.fsum(shares)))


@dataclass(frozen=True, slots=True)
class Spread:
    """Cells over axes, one under each member of each: {("3", "thrust"): …} over ("depth", "axis"); {(): …} over none.

    Cells may be missing: no reading was meant to be there. The member "" stands for all that is not there yet; its cell
    says what that waits for.
    """

    axes: tuple[str, ...]
    cells: Mapping[tuple[str, ...], Cell]
    dimension: Dimension = field(default=NUMBER)

    @property
    def one(self) -> Cell:
        """The cell of a spread over no axes; NONE where there is none."""
        return self.cells.get((), NONE)


def single(cell: Cell, dimension: Dimension = NUMBER) -> Spread:
    return Spread((), {(): cell}, dimension)
