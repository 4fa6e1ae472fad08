"""What the layout itself says of a family, so that no author types it: a word, and the reason in words for a reader."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from procgen.model.family import Family
from procgen.trade.block import cam_centre, clock, clock_at, clock_gap, clock_text, shells, word
from procgen.trade.cleaning import entries_of, hole_in_shell
from procgen.trade.galleys import blind_ends, dead_ends
from procgen.trade.layout.ends import ends_of
from procgen.units.compare import at_most
from procgen.units.dimension import ANGLE, LENGTH
from procgen.units.lists import listed

BOTTOM = 180.0  # deg: valve springs press the cam down, unless a bearing states its loaded clock
LOADED_ARC = 45.0  # deg each way in which an oil hole still feeds the loaded line; common practice, no source

Conclusion = tuple[str | None, str]
"""The word, None while the layout is not yet known, and the reason."""


def behind_shells(family: Family) -> Conclusion:
    """`cam.behind_shells`: nothing, groove (oil runs on behind the shells) or stub (blind holes behind them)."""
    fitted = shells(family)
    if fitted == "none":
        return "nothing", "there are no shells: the block itself is the bearing"
    if fitted is None or not family.passages:
        return None, "the cam shells or the oil passages are not yet known"
    onward = sorted({opening.of for _, opening, _, _ in ends_of(family, "groove")})
    if onward:
        return "groove", f"oil runs on through a groove behind {_bearings(onward)}"
    blind = blind_ends(family)
    if blind:
        names = listed([passage.id for passage, _ in blind])
        return "stub", f"{names} end behind a shell, away from its oil hole"
    if not any(True for _ in ends_of(family, "cam")):
        return None, "no passage to a cam bearing is known yet"
    return "nothing", "every passage that ends at a cam bearing ends at its oil hole"


def brush_past_shells(family: Family) -> Conclusion:
    """`cam.brush_past_shells`: yes where a brush goes right through every passage to the cam with the shells in."""
    behind, because = behind_shells(family)
    if shells(family) == "none" or behind is None:
        return (None if behind is None else "yes"), because
    if behind == "groove":
        return "no", "the groove behind the shells is open only in an empty bore"
    if behind == "stub":
        return "no", because
    holes = [(passage, hole_in_shell(family, opening)) for passage, opening, _, _ in ends_of(family, "cam")]
    if any(hole is None for _, hole in holes):
        return None, "the oil holes of the shells are not yet known"
    across = [p.id for p, _ in holes if any(entry.through for entry in entries_of(family, p)[:1])]
    if across:
        return "no", f"the brush for {listed(across)} comes across the cam bore"
    narrow = [p.id for p, hole in holes if hole is not None and not at_most(p.diameter, hole, LENGTH)]
    if narrow:
        return "no", f"the holes in the shells are smaller than {listed(narrow)}"
    return "yes", "every passage ends at a shell hole of at least its own size"


def bottom_oil(family: Family) -> Conclusion:
    """`cam.bottom_oil`: direct where every bearing's oil comes out in its loaded arc, else carried_round."""
    bearings = family.members.get("cam_bearing", {})
    furthest = (-1.0, "", 0.0, 0.0)
    for id in bearings:
        holes = _oil_enters(family, id)
        if not holes:
            return None, f"where oil enters cam bearing {id} is not yet known"
        stated = clock(family, id, "loaded")
        loaded = BOTTOM if stated is None else stated
        gap, hole = min((clock_gap(at, loaded), at) for at in holes)
        furthest = max(furthest, (gap, id, hole, loaded))
    gap, _, hole, loaded = furthest
    if gap < 0:
        return None, "no cam bearing is known yet"
    at, bottom = clock_text(hole), clock_text(loaded)
    if at_most(gap, LOADED_ARC, ANGLE):
        near = "at" if at_most(gap, 0, ANGLE) else "close to"
        return "direct", f"oil enters at {at}, {near} the loaded line at {bottom}"
    return "carried_round", f"oil enters at {at}; the journal carries it round to the loaded line at {bottom}"


def shell_sizes(family: Family) -> Conclusion:
    """`cam.shell_sizes`: one, or stepped where the block bores differ from position to position."""
    fitted = shells(family)
    if fitted == "none":
        return "one", "there are no shells to mix up"
    bearings = family.members.get("cam_bearing", {})
    bores = {id: bore for id in bearings if (bore := family.member("cam_bearing", id, "block_bore")) is not None}
    if fitted is None or not bores or len(bores) < len(bearings):
        return None, "the cam shells or their bores in the block are not yet known"
    if at_most(max(bores.values()), min(bores.values()), LENGTH):
        return "one", "all block bores for the cam are one size"
    sizes = len({round(bore, 4) for bore in bores.values()})
    return "stepped", f"the block bores for the cam have {sizes} sizes"


def banks(family: Family) -> Conclusion:
    """`engine.banks`: one or two."""
    if family.layout.kind is None:
        return None, "the layout is not yet known"
    return (
        ("two", "the cylinders stand in a vee")
        if family.layout.kind == "vee"
        else ("one", "the cylinders stand in line")
    )


def galley_dead_ends(family: Family) -> Conclusion:
    """`galley.dead_ends`: some or none."""
    if not family.passages:
        return None, "the oil passages are not yet known"
    found = dead_ends(family)
    return (
        ("some", f"no oil flows through {listed(list(found))}")
        if found
        else ("none", "oil flows through every passage")
    )


def lifter_oil(family: Family) -> Conclusion:
    """`lifter.oil`: galley or splash."""
    if not family.passages:
        return None, "the oil passages are not yet known"
    fed = [galley for bank in family.members.get("bank", {}) if (galley := word(family, "bank", bank, "galley"))]
    if fed:
        return "galley", f"{listed(list(dict.fromkeys(fed)))} {'feeds' if len(fed) == 1 else 'feed'} the lifters"
    return "splash", "no galley runs to the lifters"


CONCLUSIONS: Mapping[str, Callable[[Family], Conclusion]] = MappingProxyType(
    {
        "cam.behind_shells": behind_shells,
        "cam.brush_past_shells": brush_past_shells,
        "cam.bottom_oil": bottom_oil,
        "cam.shell_sizes": shell_sizes,
        "engine.banks": banks,
        "galley.dead_ends": galley_dead_ends,
        "lifter.oil": lifter_oil,
    }
)


def _oil_enters(family: Family, bearing: str) -> list[float]:
    """Clock positions (deg) at which oil comes to the journal: the shell's hole, or without shells the block's."""
    if shells(family) == "none":
        stated = [at for name in ("block_hole", "second_hole") if (at := clock(family, bearing, name)) is not None]
        centre = cam_centre(family)
        drawn = [clock_at(centre, end) for _, opening, end, _ in ends_of(family, "cam")
                 if opening.of == bearing and centre is not None]  # fmt: skip
        return stated or drawn
    hole = clock(family, bearing, "shell_hole")
    return [] if hole is None else [hole]


def _bearings(ids: list[str]) -> str:
    return f"cam bearing {ids[0]}" if len(ids) == 1 else f"cam bearings {listed(ids)}"
