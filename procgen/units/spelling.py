"""Finding a unit by what an author wrote, and saying what is wrong with it."""

from __future__ import annotations

import re

from procgen.units.dimension import Dimension, name_of
from procgen.units.nearest import did_you_mean
from procgen.units.table import UNITS, Unit, units_of

# Characters that look alike: Greek mu and micro sign, dot operator and middle dot, powers written with a caret.
_LOOK_ALIKES = (("\u03bc", "µ"), ("\u22c5", "·"), ("^2", "²"), ("^3", "³"), ("\u00a0", " "), ("º", "°"))

_HABITS = {
    '"': "in", "''": "in", "″": "in", "inch": "in", "inches": "in", "'": "ft", "foot": "ft", "feet": "ft",
    "mil": "thou", "mils": "thou", "thousandths": "thou", "micron": "µm", "microns": "µm", "l": "L", "ltr": "L",
    "gal": "US gal", "gpm": "US gal/min", "gallon": "US gal", "lbs": "lb", "sec": "s", "hr": "h", "mins": "min",
    "Nm": "N·m", "N-m": "N·m", "N*m": "N·m", "ft·lb": "lbf·ft", "ft.lb": "lbf·ft", "ft-lb": "lbf·ft", "ft lb": "lbf·ft",
    "ftlb": "lbf·ft", "lb·ft": "lbf·ft", "lb-ft": "lbf·ft", "lb.ft": "lbf·ft", "lb ft": "lbf·ft", "ft*lb": "lbf·ft",
    "ft·lbf": "lbf·ft", "lbft": "lbf·ft", "in·lb": "lbf·in", "in-lb": "lbf·in", "in.lb": "lbf·in", "in lb": "lbf·in",
    "C": "°C", "F": "°F", "deg C": "°C", "deg F": "°F", "degrees": "°", "degree": "°", "dB": "dB(A)", "dBA": "dB(A)",
    "PSI": "psi", "RPM": "rev/min", "CFM": "cfm", "percent": "%", "pct": "%",
}  # fmt: skip
"""Spellings that people use and this list does not: each names the spelling that it is refused for."""

_THINGS = {
    "number": "a plain number", "clock": "a clock position", "expansion": "a rate of thermal expansion",
    "level": "a sound level", "area": "an area", "energy": "an energy", "angle": "an angle",
}  # fmt: skip


_MORE = re.compile(r"(-|–|±|\+|/|\.\.|to )[ -]*[0-9]")
"""What follows the number in a range, a tolerance, a date."""


class UnitError(ValueError):
    """A quantity that can't be read: `message` says what is wrong and what was expected, `hint` the mend."""

    def __init__(self, message: str, hint: str = "") -> None:
        super().__init__(message)
        self.message = message
        self.hint = hint


def find_unit(text: str, dimension: Dimension | None = None) -> Unit:
    """The unit of that spelling. UnitError names the nearest right one, of that `dimension` if there is one like it."""
    spelt = " ".join(text.split())
    for wrong, right in _LOOK_ALIKES:
        spelt = spelt.replace(wrong, right)
    if spelt in UNITS:
        return UNITS[spelt]
    if _MORE.match(spelt):
        message = f"one number and its unit were expected; `{text}` stands after the number"
        raise UnitError(message, "write one figure; where least and most are wanted, each has a key of its own")
    if spelt[:1] in ("O", "o", "l", "I") and any(sign.isdigit() for sign in spelt):
        hint = "a letter stands among the digits: nought is 0, one is 1"
    elif spelt in _HABITS:
        hint = f"did you mean `{_HABITS[spelt]}`?"
    else:
        alike = (name for name, unit in UNITS.items() if name and unit.dimension == dimension)
        nearest = did_you_mean(spelt, alike) or did_you_mean(spelt, filter(None, UNITS))
        hint = nearest or "units are a closed list; the guide shows them all"
    raise UnitError(f"unknown unit `{text}`", hint)


def a_thing(dimension: Dimension) -> str:
    """A dimension with its article, for a sentence: "a length", "an angle", "a clock position"."""
    name = name_of(dimension)
    return _THINGS.get(name, f"a {name}")


def wrong_dimension(expected: Dimension, written: str, found: Dimension) -> UnitError:
    """The error for a unit of another dimension, with both words."""
    symbols = [unit.symbol for unit in units_of(expected) if unit.symbol][:6]
    if not symbols:
        hint = ""
    elif symbols == ["clock"]:
        hint = "write h:mm, for example 4:30"
    else:
        hint = f"units for it: {', '.join(symbols)}"
    return UnitError(f"{a_thing(expected)} was expected; {written} is {a_thing(found)}", hint)
