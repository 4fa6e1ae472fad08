"""What a quantity is a quantity of: powers of the base dimensions, and whether it is a position or a difference."""

from __future__ import annotations

from functools import cache

from procgen.values import dataclass

BASES = ("length", "mass", "time", "temperature", "angle", "level")
"""Angle is a base, so that torque (energy per angle) and energy stay apart; level is for dB(A), which never adds up."""


@dataclass(frozen=True, slots=True)
class Dimension:
    """Powers of BASES. A `point` is a position on a scale (temperature, clock position): its differences are plain."""

    powers: tuple[int, ...] = (0,) * len(BASES)
    point: bool = False

    def __mul__(self, other: Dimension) -> Dimension:
        return Dimension(tuple(a + b for a, b in zip(self.powers, other.powers, strict=True)))

    def __truediv__(self, other: Dimension) -> Dimension:
        return Dimension(tuple(a - b for a, b in zip(self.powers, other.powers, strict=True)))

    @property
    def is_number(self) -> bool:
        return not any(self.powers)

    @property
    def difference(self) -> Dimension:
        return Dimension(self.powers)


def _of(**powers: int) -> Dimension:
    return Dimension(tuple(powers.get(base, 0) for base in BASES))


NUMBER = _of()
LENGTH = _of(length=1)
AREA = _of(length=2)
VOLUME = _of(length=3)
MASS = _of(mass=1)
TIME = _of(time=1)
SPEED = _of(length=1, time=-1)
FLOW = _of(length=3, time=-1)
FREQUENCY = _of(time=-1)
FORCE = _of(mass=1, length=1, time=-2)
PRESSURE = _of(mass=1, length=-1, time=-2)
VISCOSITY = _of(mass=1, length=-1, time=-1)
ENERGY = _of(mass=1, length=2, time=-2)
TORQUE = _of(mass=1, length=2, time=-2, angle=-1)
ANGLE = _of(angle=1)
CLOCK = Dimension(ANGLE.powers, point=True)
TEMPERATURE_DIFFERENCE = _of(temperature=1)
TEMPERATURE = Dimension(TEMPERATURE_DIFFERENCE.powers, point=True)
EXPANSION = _of(temperature=-1)
LEVEL = _of(level=1)

NAMES: dict[str, Dimension] = {
    "number": NUMBER, "length": LENGTH, "area": AREA, "volume": VOLUME, "mass": MASS, "time": TIME, "speed": SPEED,
    "flow": FLOW, "frequency": FREQUENCY, "force": FORCE, "pressure": PRESSURE, "viscosity": VISCOSITY,
    "energy": ENERGY, "torque": TORQUE, "angle": ANGLE, "clock": CLOCK, "temperature": TEMPERATURE,
    "temperature_difference": TEMPERATURE_DIFFERENCE, "expansion": EXPANSION, "level": LEVEL,
}  # fmt: skip
"""The words that schemas (`"quantity": "length"`) and messages use."""


@cache
def name_of(dimension: Dimension) -> str:
    """A word a person knows ("length"), or the powers ("length² per time") where no word is listed."""
    for name, listed in NAMES.items():
        if listed == dimension:
            return name.replace("_", " ")
    over = [f"{b}{_power(p)}" for b, p in zip(BASES, dimension.powers, strict=True) if p > 0]
    under = [f"{b}{_power(-p)}" for b, p in zip(BASES, dimension.powers, strict=True) if p < 0]
    return " · ".join(over or ["1"]) + (" per " + " · ".join(under) if under else "")


def _power(n: int) -> str:
    return "" if n == 1 else "".join("⁰¹²³⁴⁵⁶⁷⁸⁹"[int(d)] for d in str(n))
