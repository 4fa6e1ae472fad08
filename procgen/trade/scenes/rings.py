"""Pistons and rings in the bore: where travel ends, and where a ring's gap is measured."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.model.scene import Area, Dimension, Label, Path, Scene, Shape
from procgen.trade.scenes.bore import ASIDE, WALL, Travel, travel
from procgen.trade.scenes.view import Given, box

SKIRT = 9.0  # mm of skirt shown below the oil ring
CLEAR = 1.0  # mm between piston and bore as drawn
GROOVE = 0.86  # of the bore: how deep a ring's groove is drawn
GAP = 4.0  # mm: a ring's gap as drawn


def ring_travel(given: Given) -> tuple[Scene, ...]:
    """Half a piston at the top of its stroke and half at the bottom: beyond their rings nothing wears the bore."""
    found = travel(given)
    names = ("crown_to_top_ring_upper", "top_ring_width", "oil_ring_width", "crown_to_oil_ring_lower")
    upper, top_wide, oil_wide, lower = (given.size(f"ring_pack.{name}") for name in names)
    if found is None or upper is None or top_wide is None or oil_wide is None or lower is None:
        return ()
    side, edge = found.bore / 2, found.bore / 2 + WALL
    crown = found.top - upper
    stroke = found.bottom - found.top + upper - lower
    rings = ((upper, top_wide), (lower - oil_wide, oil_wide))
    shapes: tuple[Shape, ...] = (
        *_bore(found),
        *_half_piston(-1, side, crown, lower, rings),
        *_half_piston(1, side, crown + stroke, lower, rings),
        Path(((0.0, 0.0), (0.0, -found.end)), "axis"),
        Path(((-edge, -found.top), (-side, -found.top)), "accent"),
        Path(((side, -found.bottom), (edge, -found.bottom)), "accent"),
        Dimension((-edge - ASIDE / 2, 0.0), (-edge - ASIDE / 2, -found.top)),
        Dimension((edge + ASIDE / 2, 0.0), (edge + ASIDE / 2, -found.bottom)),
    )
    unit = given.unit.symbol
    first, last = given.length(found.top, "0.05 mm"), given.length(found.bottom, "0.05 mm")
    return (
        Scene(
            id="ring-travel",
            title=f"Ring travel, {given.unit_word} below the deck",
            view="bore cut lengthwise, piston at the top on the left, at the bottom on the right",
            describe=(
                f"The bore cut lengthwise. On the left the piston stands at the top: its top ring turns back "
                f"{first} {unit} below the deck. On the right it stands at the bottom: its oil ring turns back at "
                f"{last} {unit}."
            ),
            shapes=shapes,
            labels=(
                Label((-edge - ASIDE / 2, -found.top), first, ("top ring,", "highest"), place="left", accent=True,
                      leader=False),
                Label((edge + ASIDE / 2, -found.bottom), last, ("oil ring,", "lowest"), place="right", accent=True,
                      leader=False),
                Label((edge, 0.0), words=("deck",), place="right", leader=False),
            ),
            metal=(box(-edge, -found.end, edge, 0.0),),
            largest=1 / 2,
        ),
    )  # fmt: skip


def ring_gap(given: Given) -> tuple[Scene, ...]:
    """A ring square in the bore at the foot of travel, where a bore that is not bored is tightest."""
    found, wide = travel(given), given.size("ring_pack.top_ring_width")
    per_bore = given.size("ring_pack.gap_min_per_bore")
    most = given.rules.get("ring_gap_max_per_bore")
    if found is None or wide is None or per_bore is None:
        return ()
    side = found.bore / 2
    low, high = -found.bottom, -found.bottom + wide
    gap = given.length(per_bore * found.bore, "0.01 mm", "up")
    if most is not None:
        gap = f"{gap}–{given.length(most * found.bore, '0.01 mm', 'down')}"
    unit = given.unit.symbol
    shapes: tuple[Shape, ...] = (
        *_bore(found),
        Area(box(-side, low, -GAP / 2, high), "solid"),
        Area(box(GAP / 2, low, side, high), "solid"),
        *(Path(((x, low - 1), (x, high + 1)), "accent") for x in (-GAP / 2, GAP / 2)),
        Dimension((-side - WALL - ASIDE / 2, 0.0), (-side - WALL - ASIDE / 2, low)),
    )
    return (
        Scene(
            id="ring-gap",
            title="A ring square at the foot of travel, its gap drawn wide",
            view="bore cut lengthwise",
            describe=(
                f"The bore cut lengthwise with a ring square across it, {given.length(found.bottom, '0.05 mm')} "
                f"{unit} below the deck. Its gap is {gap} {unit}."
            ),
            shapes=shapes,
            labels=(
                Label((GAP / 2, high), gap, (f"gap, {given.unit_word}",), place="right", accent=True, dot=False),
                Label((-side - WALL - ASIDE / 2, low / 2), words=(given.length(found.bottom, "0.05 mm"),), place="left",
                      strong=True, leader=False),
                Label((-side - WALL - ASIDE, 0.0), words=("deck",), place="left", leader=False),
            ),
            metal=(box(-side - WALL, -found.end, side + WALL, 0.0),),
            largest=0.5,
        ),
    )  # fmt: skip


def _bore(found: Travel) -> Iterator[Shape]:
    side, edge = found.bore / 2, found.bore / 2 + WALL
    for sign in (-1, 1):
        yield Area(box(sign * side, -found.end, sign * edge, 0.0), "hatch")
        yield Path(((sign * side, 0.0), (sign * side, -found.end)), "outline")
        yield Path(((sign * side, 0.0), (sign * (edge + ASIDE), 0.0)), "deck")


def _half_piston(
    sign: int, side: float, crown: float, lower: float, rings: tuple[tuple[float, float], ...]
) -> Iterator[Shape]:
    """Left (-1) or right (1) half of a piston whose crown stands at that depth; its rings solid."""
    reach, foot = sign * (side - CLEAR), crown + lower + SKIRT
    yield Area(((0.0, -crown), (reach, -crown), (reach, -foot), (0.0, -foot)), "iron")
    yield Path(((0.0, -crown), (reach, -crown), (reach, -foot), (0.0, -foot)), "outline")
    for below, wide in rings:
        yield Area(box(sign * side * GROOVE, -crown - below - wide, sign * side, -crown - below), "solid")
