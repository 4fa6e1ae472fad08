"""Limits and clearances that are far from what engines usually have: ten times off, or in another unit than was meant.

Only a warning: the maker's figure rules, and where a limit says its source somebody has looked. What is usual is common
practice in engines of cars, boats and tractors; no source. Bearings: a thousandth of the journal, within three quarters
to one and a half of it. So for much smaller and larger engines only what goes with a size of their own is looked at.
"""

from __future__ import annotations

from collections.abc import Iterator

from procgen.model.family import Fact, Family
from procgen.trade.block import middle
from procgen.trade.finding import Finding, said
from procgen.units.quantity import Quantity

FAR = 3.0
"""Times beyond what is usual: a slip of ten times from anywhere within it lies farther off, a strict limit does not."""

OF_A_SIZE = {
    "mains.clearance_min": (0.00075, 0.0015, "main.journal"),
    "mains.clearance_max": (0.00075, 0.0015, "main.journal"),
    "mains.clearance_service_max": (0.00075, 0.0015, "main.journal"),
    "rods.clearance_min": (0.00075, 0.0015, "rods.journal"),
    "rods.clearance_max": (0.00075, 0.0015, "rods.journal"),
    "rods.clearance_service_max": (0.00075, 0.0015, "rods.journal"),
    "cam.shell_interference_min": (0.001, 0.001, "cam_bearing.block_bore"),
    "cam.shell_interference_max": (0.001, 0.001, "cam_bearing.block_bore"),
}
"""Usual share of a size of the engine, from, to, and which size."""

IN_MM = {
    "cam.clearance_min": (0.03, 0.10),
    "cam.clearance_max": (0.03, 0.10),
    "limits.cam_bearing_clearance_service_max": (0.03, 0.10),
    "limits.ring_side_clearance_min": (0.03, 0.08),
    "limits.ring_side_clearance_max": (0.12, 0.15),
    "limits.cylinder_out_of_round_max": (0.025, 0.13),
    "limits.cylinder_taper_max": (0.05, 0.13),
    "limits.out_of_round_after_hone_max": (0.010, 0.013),
    "limits.taper_after_hone_max": (0.010, 0.013),
    "limits.hone_stock_after_boring": (0.05, 0.10),
}
"""Usual from, to, in an engine whose bore is within BORES."""

OWN = "", "shop practice"
"""What a figure's source is where the author names none."""

BORES = 50.0, 200.0  # mm
RING_GAP = 0.0035, 0.0045  # for each unit of bore


def unusual(family: Family) -> Iterator[Finding]:
    """Each figure that lies `FAR` beyond what is usual. Where a least is over its most that is told, and says more."""
    for own in (family.facts, *(variant.facts for variant in family.variants)):
        for name, fact in own.items():
            usual = _usual(name, family)
            if usual is None or not isinstance(fact.value, Quantity):
                continue
            (low, high), value = usual, fact.value.value
            if fact.source not in OWN or _is_crossed(name, family):
                continue
            if value > 0 and not low / FAR <= value <= high * FAR:
                yield _finding(name, fact, low, high, family)


def _usual(name: str, family: Family) -> tuple[float, float] | None:
    if name == "ring_pack.gap_min_per_bore":
        return RING_GAP
    if name in OF_A_SIZE:
        low, high, of = OF_A_SIZE[name]
        size = middle(of, family)
        return None if size is None else (low * size, high * size)
    bore = family.millimetres("geometry.bore")
    return IN_MM.get(name) if bore is not None and BORES[0] <= bore <= BORES[1] else None


def _is_crossed(name: str, family: Family) -> bool:
    thing, _, _ = name.rpartition("_")
    least, most = (family.millimetres(f"{thing}_{end}") for end in ("min", "max"))
    return least is not None and most is not None and least > most


def _finding(name: str, fact: Fact, low: float, high: float, family: Family) -> Finding:
    assert isinstance(fact.value, Quantity)
    value, far = fact.value.value, "large" if fact.value.value > high else "small"
    if name == "ring_pack.gap_min_per_bore":
        size, usual = f"{value:g}", f"{low:g} to {high:g}"
    else:
        digits = 3 if value >= 0.01 else 4
        size, ends = said(value, family, digits), [said(end, family, 3) for end in (low, high)]
        usual = f"about {ends[0]}" if low == high else f"{ends[0].partition(' ')[0]} to {ends[1]}"
    message = f"`{name.partition('.')[2]}` of {size} is unusually {far}: {usual} is usual"
    hint = "mend it where it is ten times off or in another unit; leave it where the maker says so"
    return Finding("unusual", message, (), hint, fact.place, is_doubtful=True)
