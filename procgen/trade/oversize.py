"""The size that a worn bore cleans up at, by how its wear is shared between the walls."""

from __future__ import annotations

from procgen.trade.registry import function, positive
from procgen.units.dimension import LENGTH, NUMBER


@function(takes=(LENGTH, LENGTH, NUMBER, LENGTH, LENGTH), gives=LENGTH, source="geometry")
def clean_up_size(unworn: float, largest: float, one_wall: float, margin: float, stock: float) -> float:
    """Smallest finished bore (mm) that leaves no worn spot when the bar is centred on the unworn bore.

    `unworn` and `largest` diameter, `margin` to clean up and hone `stock`, both on diameter, in mm. `one_wall` is the
    share of the wear that lies on one wall: 1/2 where both walls are worn alike, 1 where one has it all. ValueError
    where the largest is below the unworn, or the share is not between 1/2 and 1.
    """
    positive(unworn=unworn)
    if largest < unworn:
        raise ValueError("the worn bore cannot be smaller than the unworn one")
    if not 0.5 <= one_wall <= 1:
        raise ValueError("the more worn wall has between half of the wear and all of it")
    return unworn + 2 * one_wall * (largest - unworn) + margin + stock
