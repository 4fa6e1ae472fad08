"""How sure a measurement is that a size keeps its limits, its error taken as normal.

All uncertainties here are standard ones (k = 1): half of the expanded uncertainty that a gauge's certificate gives.
"""

from __future__ import annotations

from statistics import NormalDist

from procgen.trade.registry import function, positive
from procgen.units.dimension import LENGTH, NUMBER

RULE = "JCGM 106 (from memory, not checked)"


@function(takes=(LENGTH, LENGTH, LENGTH, LENGTH), gives=NUMBER, source=RULE)
def chance_within(size: float, low: float, high: float, uncertainty: float) -> float:
    """Chance (0 to 1) that a part that measures `size` lies between the limits `low` and `high`; all mm.

    ValueError if the uncertainty is not above 0 or the limits are the wrong way round.
    """
    if low > high:
        raise ValueError("the lower limit is above the upper one")
    return chance_at_most(size, high, uncertainty) - chance_at_most(size, low, uncertainty)


@function(takes=(LENGTH, LENGTH, LENGTH), gives=NUMBER, source=RULE)
def chance_at_most(size: float, limit: float, uncertainty: float) -> float:
    """Chance (0 to 1) that a part that measures `size` does not pass the upper `limit`; all mm.

    ValueError if the uncertainty is not above 0.
    """
    positive(uncertainty=uncertainty)
    return NormalDist(size, uncertainty).cdf(limit)


@function(takes=(LENGTH, LENGTH, LENGTH), gives=NUMBER, source=RULE)
def chance_at_least(size: float, limit: float, uncertainty: float) -> float:
    """Chance (0 to 1) that a part that measures `size` reaches the lower `limit`; as in chance_at_most."""
    return chance_at_most(-size, -limit, uncertainty)


@function(takes=(NUMBER,), gives=NUMBER, source=RULE)
def guard_factor(chance: float) -> float:
    """How many standard uncertainties inside one limit a size must measure to keep it with that `chance` (0 to 1).

    ValueError unless the chance lies between 0 and 1.
    """
    if not 0 < chance < 1:
        raise ValueError("a chance lies between 0 and 1")
    return NormalDist().inv_cdf(chance)
