"""The count sheets, to be ticked out and in: every galley plug, numbered in the order of cleaning; every core plug and
drain.
"""

from __future__ import annotations

from collections.abc import Iterator

from procgen.model.family import Family
from procgen.model.packet import PlugCount
from procgen.trade.plug_order import plug_numbers


def plug_counts(family: Family) -> Iterator[PlugCount]:
    numbers = plug_numbers(family)
    for plug in sorted(family.plugs.values(), key=lambda plug: numbers.get(plug.id, len(numbers) + 1)):
        kind = "relief valve" if plug.kind == "relief_valve" else plug.thread
        yield PlugCount(str(numbers.get(plug.id, "")), plug.id, kind, plug.where)


def water_plug_counts(family: Family) -> Iterator[PlugCount]:
    """Core plugs, then drains, as the family lists them."""
    for plug in (*family.core_plugs.values(), *family.drain_plugs.values()):
        yield PlugCount(
            "", plug.id, f"core, {plug.kind}" if plug.kind != "drain" else f"drain, {plug.thread}", plug.where
        )
