"""Checks of a family's layout by geometry alone: pure functions, each saying what does not fit.

Every tolerance has its name and reason beside the check that uses it.
"""

from collections.abc import Iterator

from procgen.model.family import Family
from procgen.trade.finding import Check, Finding
from procgen.trade.layout.ends import block_holes, cam_ends, deck_ends, main_ends, plug_ends
from procgen.trade.layout.fits import cam_shells, clearances, core_plugs
from procgen.trade.layout.metal import (
    cam_tunnel_apart,
    cylinders_apart,
    lifters_fed,
    passages_apart,
    rod_swing_clear,
)
from procgen.trade.layout.network import lines, meetings, reached, unsaid_meetings, with_lines
from procgen.trade.layout.plugs import drain_threads, idle_plugs, open_ends, plug_noses, tap_drills
from procgen.trade.layout.shells import shell_holes
from procgen.trade.layout.sizes import no_engine, slips
from procgen.trade.layout.stated import (
    as_many_cylinders,
    banks_as_laid_out,
    plugs_in_range,
    right_way_round,
)
from procgen.trade.layout.travel import rings_in_bore, rings_in_piston, stack
from procgen.trade.layout.unusual import unusual
from procgen.trade.routes import without_oil

__all__ = ["GEOMETRY_CHECKS", "Check", "Finding", "findings"]

GEOMETRY_CHECKS: tuple[Check, ...] = (
    right_way_round, as_many_cylinders, banks_as_laid_out, plugs_in_range,
    stack, rings_in_bore, rings_in_piston,
    clearances, cam_shells, core_plugs, shell_holes,
    meetings, unsaid_meetings, reached, plug_ends, main_ends, cam_ends, block_holes, deck_ends,
    open_ends, idle_plugs, drain_threads, tap_drills, plug_noses,
    passages_apart, cylinders_apart, cam_tunnel_apart, rod_swing_clear, lifters_fed,
    without_oil,
)  # fmt: skip
"""What is asked of a family whose passages are all lines."""


def findings(family: Family) -> Iterator[Finding]:
    """All that does not fit. A size that is a slip, or a passage that is no line, is told of as that, and by no check
    that would need it.
    """
    if (told := no_engine(family)) is not None:
        yield told
        if not told.is_doubtful:
            return
    found, family = slips(family)
    yield from found
    yield from unusual(family)
    yield from lines(family)
    drawn = with_lines(family)
    for check in GEOMETRY_CHECKS:
        yield from check(drawn)
