"""Whether the parts of each variant fill the block, and whether their rings stay in the bore."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.model.family import Family, Variant
from procgen.trade.block import variants_of
from procgen.trade.cylinder import stack_height
from procgen.trade.finding import Finding, said
from procgen.units.compare import at_most
from procgen.units.dimension import LENGTH

STACK = 0.0127  # mm: half a thousandth of an inch, the coarsest last digit that stacks are drawn to


def stack(family: Family) -> Iterator[Finding]:
    """Half the stroke, rod, piston and deck clearance must make up the block's height, in every variant."""
    for variant in variants_of(family):
        names = ("stroke", "rod_length", "compression_height", "deck_clearance", "block_height")
        stroke, rod, piston, gap, height = (family.millimetres(f"geometry.{name}", variant) for name in names)
        if stroke is None or rod is None or piston is None or gap is None or height is None:
            continue
        filled = stack_height(stroke, rod, piston, gap)
        if not at_most(abs(filled - height), STACK, LENGTH):
            yield Finding(
                "stack",
                f"half stroke, rod, piston and deck clearance make {said(filled, family, 3)}; "
                f"the block is {said(height, family, 3)} high",
                (_subject(family, variant),),
                "one of the five figures is wrong",
            )


def rings_in_bore(family: Family) -> Iterator[Finding]:
    """At bottom dead centre the oil ring must still be in the bore."""
    for variant in variants_of(family):
        gap, stroke = (family.millimetres(f"geometry.{name}", variant) for name in ("deck_clearance", "stroke"))
        below = family.millimetres("ring_pack.crown_to_oil_ring_lower", variant)
        bottom = family.millimetres("geometry.bore_bottom", variant)
        if gap is None or stroke is None or below is None or bottom is None:
            continue
        lowest = gap + stroke + below
        if not at_most(lowest, bottom, LENGTH):
            yield Finding(
                "ring-leaves-bore",
                f"the oil ring runs down to {said(lowest, family)} below the deck, and the bore ends at "
                f"{said(bottom, family)}",
                (_subject(family, variant),),
            )


def rings_in_piston(family: Family) -> Iterator[Finding]:
    """The rings stand one below the other between the crown and the oil ring's lower side."""
    names = ("crown_to_top_ring_upper", "top_ring_width", "second_ring_width", "oil_ring_width")
    needed = sum(family.millimetres(f"ring_pack.{name}") or 0.0 for name in names)
    lower = family.fact("ring_pack.crown_to_oil_ring_lower")
    room = family.millimetres("ring_pack.crown_to_oil_ring_lower")
    if lower is not None and room is not None and not at_most(needed, room, LENGTH):
        yield Finding(
            "rings-overlap",
            f"crown to top ring and the rings' widths make {said(needed, family)}; "
            f"the oil ring's lower side is {said(room, family)} down",
            (),
            "mend one of these figures of `ring_pack`",
            lower.place,
        )


def _subject(family: Family, variant: Variant | None) -> tuple[str, str]:
    return ("variant", variant.id) if variant is not None else ("family", family.id)
