"""The one comparison. A difference under a fixed small step counts as none.

Sums and conversions leave noise in the last digits of a float: 0.1 + 0.2 is not 0.3. Every verdict compares here, so
that noise can't put a reading that lies exactly on its limit on the wrong side. Each step lies far below what any gauge
at the stand can read and far above the noise of floats of the sizes met.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from procgen.units import dimension as d
from procgen.units.dimension import Dimension

RELATIVE = 1e-9
"""For dimensions without a step of their own: this share of the larger number."""

STEPS: Mapping[Dimension, float] = MappingProxyType(
    {
        d.NUMBER: 1e-9,
        d.LENGTH: 1e-6,  # mm
        d.AREA: 1e-6,  # mm²
        d.VOLUME: 1e-3,  # mm³
        d.MASS: 1e-6,  # kg
        d.TIME: 1e-6,  # s
        d.SPEED: 1e-6,  # mm/s
        d.FLOW: 1e-3,  # mm³/s
        d.FREQUENCY: 1e-6,  # /s
        d.FORCE: 1e-3,  # mN
        d.PRESSURE: 1e-6,  # kPa
        d.VISCOSITY: 1e-12,  # kg/(mm·s): a millionth of 1 mPa·s
        d.ENERGY: 1.0,  # mN·mm: a millionth of 1 J
        d.TORQUE: 1.0,  # mN·mm: a millionth of 1 N·m
        d.ANGLE: 1e-6,  # degree
        d.CLOCK: 1e-6,  # degree
        d.TEMPERATURE: 1e-6,  # K
        d.TEMPERATURE_DIFFERENCE: 1e-6,  # K
        d.EXPANSION: 1e-12,  # 1/K
        d.LEVEL: 1e-6,  # dB
    }
)


def step_of(dimension: Dimension) -> float:
    """The step in base units below which a difference is none; 0.0 where RELATIVE holds instead."""
    return STEPS.get(dimension, 0.0)


def equal(a: float, b: float, dimension: Dimension) -> bool:
    """Whether two values in base units are the same as far as any verdict goes."""
    step = STEPS.get(dimension)
    if step is None:
        step = RELATIVE * max(abs(a), abs(b))
    return a == b or abs(a - b) < step


def less(a: float, b: float, dimension: Dimension) -> bool:
    """Whether `a` is less than `b` by more than noise."""
    return a < b and not equal(a, b, dimension)


def at_most(a: float, b: float, dimension: Dimension) -> bool:
    """Whether `a` is less than `b` or equal to it: limits are closed."""
    return a < b or equal(a, b, dimension)
