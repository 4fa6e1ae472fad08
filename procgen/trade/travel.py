"""How high the rings run: heights over the crankshaft, which a cut deck leaves as they are.

Depths below the deck come from them: block height less the height. Whether a ring meets the ridge that an older set
left is a matter of heights alone: it does where the new height of its upper edge is the greater one.
"""

from __future__ import annotations

from procgen.trade.registry import function
from procgen.units.dimension import LENGTH


@function(takes=(LENGTH, LENGTH, LENGTH, LENGTH), gives=LENGTH, source="geometry")
def crown_below_deck(block_height: float, stroke: float, rod_length: float, compression_height: float) -> float:
    """Gap (mm) from deck down to the crown at the top of the stroke; below 0 where the crown stands out. All mm."""
    return block_height - stroke / 2 - rod_length - compression_height


@function(takes=(LENGTH, LENGTH, LENGTH, LENGTH), gives=LENGTH, source="geometry")
def ring_height_top(stroke: float, rod_length: float, compression_height: float, crown_to_edge: float) -> float:
    """Height (mm) over the crankshaft of a ring's edge at the top of the stroke.

    `crown_to_edge` is measured on the piston in the hand, from the crown down to that edge. All mm.
    """
    return stroke / 2 + rod_length + compression_height - crown_to_edge


@function(takes=(LENGTH, LENGTH, LENGTH, LENGTH), gives=LENGTH, source="geometry")
def ring_height_bottom(stroke: float, rod_length: float, compression_height: float, crown_to_edge: float) -> float:
    """Height (mm) over the crankshaft of a ring's edge at the bottom of the stroke; as in ring_height_top."""
    return rod_length + compression_height - stroke / 2 - crown_to_edge
