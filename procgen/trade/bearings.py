"""What a worn bearing costs in oil."""

from __future__ import annotations

from procgen.trade.registry import function, positive
from procgen.units.dimension import LENGTH, NUMBER


@function(takes=(LENGTH, LENGTH), gives=NUMBER, source="laminar flow through a narrow gap")
def leak_ratio(clearance: float, new_clearance: float) -> float:
    """How many times the oil of a new bearing leaks from a worn one at the same pressure: the ratio cubed.

    Clearances both on diameter (mm). ValueError if either is not above 0.
    """
    positive(clearance=clearance, new_clearance=new_clearance)
    return (clearance / new_clearance) ** 3
