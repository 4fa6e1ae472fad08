"""Whether a cam shell's oil hole stands over the block's."""

from __future__ import annotations

from collections.abc import Iterator
from math import radians

from procgen.model.family import Family
from procgen.trade.block import cam_radius, clock, clock_gap, clock_text, shells
from procgen.trade.finding import Finding
from procgen.trade.oiling import hole_overlap

HOLE = 0.3  # mm along the bore: one minute of clock on the largest cam bore is 0.25 mm


def shell_holes(family: Family) -> Iterator[Finding]:
    """Where no groove carries the oil round, the hole in the shell is drawn over a hole in the block."""
    if shells(family) != "fitted":
        return
    for bearing, stated in family.members.get("cam_bearing", {}).items():
        hole, radius = clock(family, bearing, "shell_hole"), cam_radius(family, bearing)
        in_block = [at for name in ("block_hole", "second_hole") if (at := clock(family, bearing, name)) is not None]
        if hole is None or radius is None or not in_block or _has_groove(family, bearing):
            continue
        nearest = min(in_block, key=lambda at: clock_gap(at, hole))
        off = radius * radians(clock_gap(nearest, hole))
        if off > HOLE:
            yield Finding(
                "shell-hole",
                f"the shell of cam bearing {bearing} has its hole at {clock_text(hole)}, the block at "
                f"{clock_text(nearest)}{_open(family, bearing, off)}, and there is no groove between them",
                (("cam_bearing", bearing),),
                "give both one clock position, or describe the groove",
                stated["shell_hole_clock"].place,
            )


def _has_groove(family: Family, bearing: str) -> bool:
    named = any(o.kind == "groove" and o.of == bearing for p in family.passages.values() for o in p.opens)
    return named or family.member("cam_bearing", bearing, "groove_width") is not None


def _open(family: Family, bearing: str, off: float) -> str:
    """How much of the hole is left, where both sizes are known."""
    sizes = [family.member("cam_bearing", bearing, f"{name}_diameter") for name in ("block_hole", "shell_hole")]
    block, shell = sizes
    if block is None or shell is None:
        return ""
    return f" ({hole_overlap(block, shell, off) * 100:.0f} % open)"
