"""Numbers as they are printed. Decimals only here; the arithmetic before it is in floats."""

from __future__ import annotations

import math
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache

from procgen.units.compare import RELATIVE, step_of
from procgen.units.quantity import Quantity, Show
from procgen.units.spelling import wrong_dimension
from procgen.units.table import CLOCK_FACE, Unit

MINUS = "\u2212"
_DIAL = 720  # minutes round a clock face


def headed(symbol: str) -> str:
    """A unit's symbol where it stands after words without its figure, and "in" or "°" would not be read as a unit."""
    return {"in": "inches", "°": "degrees"}.get(symbol, symbol)


def shown(value: float, show: Show, towards: str = "even") -> str:
    """A value in base units as text in the unit and steps of `show`, without the unit's symbol.

    `towards` "even" rounds to the nearest step in one go, a tie to the even one (ASTM E29, ISO 80000-1 annex B rule A).
    "up" and "down" are for limits converted from another unit: a lower limit goes up and an upper one down, so that no
    work passes that the original limit would refuse. A value equal to a step, as comparison has it, stays on it.

    A float stands a hair beside the decimal it came from: 98.4065 mm is stored as a little more, and would never be the
    tie that its author wrote. So the number is first snapped to decimals of a thousandth of the comparison step: too
    fine to move anything that was measured, far coarser than the noise.
    """
    return _shown(value, show, show.step.as_tuple().exponent, towards)


@lru_cache(maxsize=8192)  # families have many figures in common
def _shown(value: float, show: Show, exponent: int | str, towards: str) -> str:
    """`exponent`: of the step; steps of 0.1 and 0.10 are equal, and print otherwise."""
    number = show.unit.from_base(value)
    step = Fraction(show.step)
    if show.unit is CLOCK_FACE:
        number *= 60
    noise = _noise(value, show.unit)
    steps = _snapped(number, noise) / step
    nearest = round(steps)  # half-even, and exact on fractions
    if towards == "even" or abs(steps - nearest) * step < noise:
        count = nearest
    elif towards == "up":
        count = math.ceil(steps)
    elif towards == "down":
        count = math.floor(steps)
    else:
        raise ValueError(f"towards {towards!r}")
    if show.unit is CLOCK_FACE:
        return _clock(int(count * step) % _DIAL)
    return _decimal(count * show.step, show.step)


def show_in(show: Show, unit: Unit) -> Show:
    """The same show in another unit: its step is the power of ten nearest to the converted one, on a logarithmic scale.

    Raises:
        UnitError: where the units measure different things.
    """
    if unit == show.unit:
        return show
    if unit.dimension != show.unit.dimension:
        raise wrong_dimension(show.unit.dimension, unit.symbol, unit.dimension)
    return _converted(show, unit)


@lru_cache(maxsize=1024)
def _converted(show: Show, unit: Unit) -> Show:
    converted = Fraction(show.step) * show.unit.factor / unit.factor
    return Show(Decimal(1).scaleb(round(math.log10(converted))), unit)


def show_of(quantity: Quantity) -> Show:
    """The show that the digits of a written quantity imply: 76.20 mm says 0.01 mm; a fraction, 0.0001 of its unit."""
    if quantity.unit is CLOCK_FACE:
        return Show(Decimal(1), CLOCK_FACE)
    if "/" in quantity.text:
        return Show(Decimal("0.0001"), quantity.unit)
    exponent = Decimal(quantity.text.replace(MINUS, "-")).as_tuple().exponent
    return Show(Decimal(1).scaleb(int(exponent)), quantity.unit)


def as_written(quantity: Quantity) -> str:
    """The number as its author wrote it, digits kept, with a true minus sign."""
    return quantity.text.replace("-", MINUS, 1) if quantity.text.startswith("-") else quantity.text


def _noise(value: float, unit: Unit) -> Fraction:
    """The comparison step as a number in `unit` (minutes for the clock face)."""
    step = Fraction(step_of(unit.dimension) or RELATIVE * abs(value))
    return step / unit.factor * (60 if unit is CLOCK_FACE else 1)


def _snapped(number: Fraction, noise: Fraction) -> Fraction:
    """`number` at the decimals of a thousandth of `noise`."""
    if noise == 0:
        return number
    grid = Fraction(10) ** math.floor(math.log10(noise / 1000))
    return round(number / grid) * grid


def _decimal(number: Decimal, step: Decimal) -> str:
    places = max(0, -int(step.as_tuple().exponent))
    text = f"{abs(number):.{places}f}"
    return MINUS + text if number < 0 else text


def _clock(minutes: int) -> str:
    hour, minute = divmod(minutes, 60)
    return f"{hour or 12}:{minute:02}"
