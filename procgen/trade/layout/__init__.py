"""Checks of a family's layout by geometry alone: pure functions, each saying what does not fit.

Every tolerance has its name and reason beside the check that uses it.
"""

from procgen.trade.finding import Check, Finding
from procgen.trade.galleys import without_oil
from procgen.trade.layout.ends import block_holes, cam_ends, deck_ends, main_ends, meetings, plug_ends
from procgen.trade.layout.fits import cam_shells, clearances, core_plugs
from procgen.trade.layout.metal import (
    cam_tunnel_apart,
    cylinders_apart,
    lifters_fed,
    passages_apart,
    rod_swing_clear,
)
from procgen.trade.layout.plugs import idle_plugs, open_ends, plug_noses, tap_drills
from procgen.trade.layout.travel import rings_in_bore, stack

__all__ = ["GEOMETRY_CHECKS", "Check", "Finding"]

GEOMETRY_CHECKS: tuple[Check, ...] = (
    stack, rings_in_bore,
    clearances, cam_shells, core_plugs,
    meetings, plug_ends, main_ends, cam_ends, block_holes, deck_ends,
    open_ends, idle_plugs, tap_drills, plug_noses,
    passages_apart, cylinders_apart, cam_tunnel_apart, rod_swing_clear, lifters_fed,
    without_oil,
)  # fmt: skip
