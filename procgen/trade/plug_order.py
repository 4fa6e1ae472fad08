"""The numbers by which plugs are counted: on the drawing, on the block and in the tray."""

from __future__ import annotations

from collections.abc import Mapping

from procgen.model.family import Family
from procgen.trade.cleaning import cleaning_plan
from procgen.trade.galleys import natural


def plug_numbers(family: Family) -> Mapping[str, int]:
    """Plugs in the order of cleaning, from 1; at one passage from front to rear."""
    found: dict[str, None] = {}
    for plan in cleaning_plan(family):
        closing = [plug for plug in family.plugs.values() if plan.passage in plug.closes]
        found.update(dict.fromkeys(plug.id for plug in sorted(closing, key=lambda plug: (plug.at[0], plug.id))))
    found.update(dict.fromkeys(sorted(family.plugs, key=natural)))
    return {id: number for number, id in enumerate(found, start=1)}
