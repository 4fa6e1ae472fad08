"""How long ears may stand a noise in a day."""

from __future__ import annotations

from procgen.trade.registry import function
from procgen.units.dimension import LEVEL, NUMBER, TIME

RULE = "29 CFR 1910.95, Table G-16 (formula from memory, not checked)"
DAY = 8 * 3600.0  # s, at CRITERION
CRITERION = 90.0  # dB(A)
EXCHANGE = 5.0  # dB that halve the time
LOUDEST = 115.0  # dB(A): nobody stays in more


@function(takes=(LEVEL,), gives=TIME, source=RULE)
def noise_time(level: float) -> float:
    """Longest time (s) a day in a steady noise of `level` dB(A) without ear protection.

    ValueError above 115 dB(A), where there is none.
    """
    if level > LOUDEST:
        raise ValueError(f"above {LOUDEST:g} dB(A) no time is allowed")
    return DAY / 2 ** ((level - CRITERION) / EXCHANGE)


@function(takes=(LEVEL, TIME), gives=NUMBER, source=RULE)
def noise_dose(level: float, time: float) -> float:
    """Share of a day's noise that `time` (s) at `level` dB(A) uses up; the shares of all noises of a day add up.

    ValueError above 115 dB(A), or if the time is below 0.
    """
    if time < 0:
        raise ValueError("a time cannot be below nothing")
    return time / noise_time(level)
