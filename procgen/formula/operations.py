"""The operations of formulas on cells: states, numbers, and how a result moves with each reading."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence

from procgen.formula.cells import NONE, Cell, State, known, not_known, refused, waiting
from procgen.model.formula import Function
from procgen.units.compare import at_most, equal, less
from procgen.units.dimension import Dimension

_STEP = 6e-6
"""About the cube root of a float's precision, where a central difference errs least."""

Doubt = Callable[[Cell], float]
"""The guard band of a difference, from its partials: how near to nothing it may be and still be called."""


def arithmetic(operator: str, a: Cell, b: Cell, at: int, divisor: Dimension) -> Cell:
    """`a + b` and the others; dividing by nothing is refused."""
    if (waits := not_known((a, b))) is not None:
        return waits
    x, y = a.number, b.number
    match operator:
        case "+":
            return finite(x + y, moved((1.0, a), (1.0, b)), at)
        case "-":
            return finite(x - y, moved((1.0, a), (-1.0, b)), at)
        case "*":
            return finite(x * y, moved((y, a), (x, b)), at)
    if equal(y, 0, divisor):
        return refused("divides by nothing: the divisor is 0 here", at)
    return finite(x / y, moved((1 / y, a), (-x / y / y, b)), at)


def finite(value: float, partials: Mapping[str, float], at: int) -> Cell:
    return known(value, partials) if math.isfinite(value) else refused("the result is too large to hold", at)


def moved(*parts: tuple[float, Cell]) -> dict[str, float]:
    """The partials of a sum of cells, each scaled."""
    partials: dict[str, float] = {}
    for scale, cell in parts:
        for name, partial in cell.partials.items():
            partials[name] = partials.get(name, 0.0) + scale * partial
    return partials


def absolute(cell: Cell) -> Cell:
    """At 0 it is taken to rise: one side of the bend."""
    if (waits := not_known((cell,))) is not None:
        return waits
    return known(abs(cell.number), moved((-1.0 if cell.number < 0 else 1.0, cell)))


def root(cell: Cell, at: int) -> Cell:
    if (waits := not_known((cell,))) is not None:
        return waits
    if cell.number < 0:
        return refused("takes the root of a number below 0", at)
    value = math.sqrt(cell.number)
    return known(value, moved((0.5 / max(value, math.sqrt(_STEP)), cell)))  # at 0 it would be steeper than any float


def next_up(steps: Cell, x: Cell, dimension: Dimension) -> Cell:
    """The smallest of `steps` that is at least `x`; NONE where none is. It keeps still while `x` moves a little."""
    if (waits := not_known((steps, x))) is not None:
        return waits
    assert isinstance(steps.value, tuple)
    enough = [step for step in steps.value if at_most(x.number, step, dimension)]
    return known(min(enough)) if enough else NONE


def compare(operator: str, a: Cell, b: Cell, dimension: Dimension, doubt: Doubt | None = None) -> Cell:
    """`a < b` and the others by the one comparison; CLOSE where `doubt` is given and too large for a call.

    A limit is closed: with a guard band g, `a <= b` is sure to hold up to b - g, and sure not to hold beyond b + g.
    """
    if (waits := not_known((a, b))) is not None:
        return waits
    if operator in (">", ">="):
        operator, a, b = operator.replace(">", "<"), b, a
    low, high = a.number, b.number
    smaller = at_most if operator == "<=" else less
    if doubt is not None and (partials := moved((1.0, a), (-1.0, b))):
        guard = doubt(known(low - high, partials))
        if smaller(low, high + guard, dimension) and not smaller(low, high - guard, dimension):
            return Cell(State.CLOSE, because=frozenset(partials))
    return known(smaller(low, high, dimension))


def deny(cell: Cell) -> Cell:
    return known(not cell.holds) if cell.state is State.KNOWN else cell


def logic(operator: str, cells: Sequence[Cell]) -> Cell:
    """Kleene's `and` and `or`: one that decides alone does, whatever the others wait for. NONE decides nothing."""
    decides = operator == "or"
    if any(cell.state is State.KNOWN and cell.holds is decides for cell in cells):
        return known(decides)
    if (waits := waiting(cells)) is not None:
        return waits
    return NONE if any(cell.state is State.NONE for cell in cells) else known(not decides)


def filtered(cell: Cell, condition: Cell) -> Cell:
    """`only(x, condition)`: x where the condition holds, NONE where it does not."""
    if condition.state is State.KNOWN:
        return cell if condition.holds else NONE
    return not_known((cell, condition)) or NONE


def chosen(condition: Cell, then: Cell, otherwise: Cell) -> Cell:
    if condition.state is State.KNOWN:
        return then if condition.holds else otherwise
    if condition.state is State.NONE:
        return NONE
    sides = [side for side in (then, otherwise) if side.refused is None]
    return waiting((condition, *sides)) or NONE


def reduced(function: str, cells: Sequence[Cell], at: int) -> Cell:
    """An aggregate of `cells`, and of the members of those that are lists. Those that do not apply are left out.

    Where none is left, the result does not apply either; only a count is 0.
    """
    left = [cell for cell in cells if cell.state is not State.NONE]
    if function in ("any", "all") and left:
        return logic("or" if function == "any" else "and", left)
    if (waits := waiting(left)) is not None:
        return waits
    left = [part for cell in left for part in _parts(cell)]
    if function == "count":
        return known(float(sum(cell.value is not False for cell in left)))
    if not left:
        return NONE
    match function:
        case "max":
            return max(left, key=_number)
        case "min":
            return min(left, key=_number)
        case "span":
            largest, smallest = max(left, key=_number), min(left, key=_number)
            return known(largest.number - smallest.number, moved((1.0, largest), (-1.0, smallest)))
    share = 1 / len(left) if function == "mean" else 1.0
    total = 0.0
    for cell in left:  # in order and one by one, so that the page's sum is the same to the last digit
        total += cell.number
    return finite(total / len(left) if function == "mean" else total, moved(*((share, cell) for cell in left)), at)


def _parts(cell: Cell) -> list[Cell]:
    return [known(value) for value in cell.value] if isinstance(cell.value, tuple) else [cell]


def _number(cell: Cell) -> float:
    return cell.number


def called(function: Function, arguments: Sequence[Cell], at: int) -> Cell:
    """A registered function; its partials by central difference, one-sided where one side is refused."""
    if (waits := not_known(arguments)) is not None:
        return waits
    values = [cell.value for cell in arguments]
    result = _result(function, values, at)
    if isinstance(result, Cell):
        return result
    if isinstance(result, tuple):
        return known(result)
    slopes = []
    for index, cell in enumerate(arguments):
        if cell.partials:
            step = _STEP * max(1.0, abs(cell.number))
            sides = [(_result(function, _shifted(values, index, by), at), by) for by in (step, -step)]
            ends = [(side, by) for side, by in sides if isinstance(side, float)]
            if len(ends) == 1:
                ends.append((result, 0.0))
            slope = (ends[0][0] - ends[1][0]) / (ends[0][1] - ends[1][1]) if len(ends) == 2 else 0.0
            slopes.append((slope, cell))
    return known(result, moved(*slopes))


def _shifted(values: Sequence[object], index: int, by: float) -> list[object]:
    value = values[index]
    assert isinstance(value, float)
    return [*values[:index], value + by, *values[index + 1 :]]


def _result(function: Function, values: Sequence[object], at: int) -> float | tuple[float, ...] | Cell:
    try:
        result = function.call(*values)
    except (ValueError, ArithmeticError) as wrong:
        return refused(f"{function.name}(): {wrong}", at)
    numbers = tuple(float(value) for value in result) if function.gives_list else (float(result),)
    if not all(map(math.isfinite, numbers)):
        return refused(f"{function.name}(): the result is too large to hold", at)
    return numbers if function.gives_list else numbers[0]
