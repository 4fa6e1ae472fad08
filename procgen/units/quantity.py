"""Quantities as authors write them: a number and its unit. Parsing is strict and the list of units is closed."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache

from procgen.units import numerals
from procgen.units.dimension import CLOCK, NUMBER, Dimension
from procgen.units.spelling import UnitError, a_thing, find_unit, wrong_dimension
from procgen.units.table import CLOCK_FACE, COUNT, Unit, units_of
from procgen.values import dataclass

__all__ = ["Quantity", "Show", "UnitError", "parse_quantity", "parse_show"]

_CLOCK = re.compile(r"(?P<hour>[0-9]{1,2}):(?P<minute>[0-9]{2})")


@dataclass(frozen=True, slots=True)
class Quantity:
    """`value` in base units; `unit` and `text` as the author wrote them: "0.0010" keeps its digits."""

    value: float
    dimension: Dimension
    unit: Unit
    text: str


@dataclass(frozen=True, slots=True)
class Show:
    """How a value is printed: in steps of `step` of a unit ("0.001 mm"). On the clock face the step is in minutes."""

    step: Decimal
    unit: Unit


def parse_quantity(text: str, dimension: Dimension | None = None, default: Unit | None = None) -> Quantity:
    """Read "98.40 mm", "1/4 in", "1 13/64 in", "12:00", "-78 °C", "90 %", or a bare "98.40" in the unit `default`.

    Args:
        text: what the author wrote.
        dimension: what is wanted there; None takes any.
        default: what a bare number means; a bare number without it is refused, unless a plain number is wanted.

    Raises:
        UnitError: with what is wrong and the mend.
    """
    return _read(text.strip(), dimension, default)


@lru_cache(maxsize=10_000)  # a file's are read when it is checked and when it is loaded, and again once it was edited
def _read(text: str, dimension: Dimension | None, default: Unit | None) -> Quantity:
    clock = _CLOCK.fullmatch(text)
    if clock:
        return _on_clock(text, clock, dimension)
    number, written, rest = _number(text, dimension)
    if rest:
        unit = find_unit(rest, dimension)
        if unit is CLOCK_FACE:
            raise UnitError("a clock position is written h:mm", "for example 4:30")
    else:
        unit = _default(written, dimension, default)
    if dimension is not None and unit.dimension != dimension:
        raise wrong_dimension(dimension, unit.symbol or written, unit.dimension)
    return Quantity(unit.to_base(number), unit.dimension, unit, written)


def parse_show(text: str, dimension: Dimension | None = None) -> Show:
    """Read a step and its unit: "0.001 mm", "0.5 deg", "0:05" (five minutes of the clock face), "1" (a plain number).

    Raises:
        UnitError: for a unit that is not listed or not of `dimension`, and for a step that is no positive decimal.
    """
    text = text.strip()
    clock = re.fullmatch(r"0:([0-5][0-9])", text)
    if clock and clock[1] != "00":
        if dimension not in (None, CLOCK):
            raise wrong_dimension(dimension, text, CLOCK)
        return Show(Decimal(clock[1]), CLOCK_FACE)
    number, written, rest = _number(text, dimension)
    unit = find_unit(rest)
    if number <= 0 or "/" in written or unit is CLOCK_FACE:
        raise UnitError(f"`{text}` is no step to print in", "write a decimal and its unit, for example 0.001 mm")
    if dimension is not None and unit.dimension != dimension:
        raise wrong_dimension(dimension, unit.symbol or written, unit.dimension)
    return Show(Decimal(written), unit)


def _number(text: str, dimension: Dimension | None) -> tuple[Fraction, str, str]:
    """The number, the number as written, and what follows it."""
    found = numerals.NUMERAL.match(text)
    try:
        if found:
            return numerals.exact(found), found["text"], text[found.end() :].strip()
    except ValueError as refused:
        raise UnitError(str(refused), "write the fraction in lowest terms, for example 1 13/64 in") from None
    wanted = a_thing(dimension) if dimension is not None else "a quantity"
    hint = numerals.mend(text) or _example(dimension)
    if not any(sign.isdigit() for sign in text):
        hint = "; ".join(filter(None, (hint, "leave it empty while it is not yet known")))
    raise UnitError(f"{wanted} was expected; `{text}` is not one", hint)


def _default(written: str, dimension: Dimension | None, default: Unit | None) -> Unit:
    """The unit of a bare number."""
    if dimension == CLOCK or default is CLOCK_FACE:
        raise UnitError(f"a clock position was expected; `{written}` is a bare number", "write h:mm, for example 4:30")
    if default is not None:
        return default
    if dimension == NUMBER:
        return COUNT
    wanted = a_thing(dimension) if dimension is not None else "a quantity"
    symbol = units_of(dimension)[0].symbol if dimension is not None and units_of(dimension) else ""
    hint = f"write the unit after it, for example {written} {symbol}" if symbol else "write the unit after it"
    raise UnitError(f"{wanted} was expected; `{written}` has no unit", hint)


def _on_clock(text: str, found: re.Match[str], dimension: Dimension | None) -> Quantity:
    if dimension not in (None, CLOCK):
        raise wrong_dimension(dimension, text, CLOCK)
    hour, minute = int(found["hour"]), int(found["minute"])
    if not (1 <= hour <= 12 and minute <= 59):
        raise UnitError(f"`{text}` is not on a clock face", "clock positions run from 12:00 round to 11:59")
    return Quantity(CLOCK_FACE.to_base(hour % 12 + Fraction(minute, 60)), CLOCK, CLOCK_FACE, text)


def _example(dimension: Dimension | None) -> str:
    if dimension == CLOCK:
        return "write h:mm, for example 4:30"
    if dimension == NUMBER:
        return "write a number, for example 0.25"
    units = units_of(dimension) if dimension is not None else ()
    return f"write a number and its unit, for example 12.5 {units[0].symbol}" if units else ""
