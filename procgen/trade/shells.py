"""Which cam shell belongs in which bore, where the bores are not all of one size."""

from __future__ import annotations

from collections.abc import Mapping

from procgen.model.family import Family
from procgen.trade.block import shells
from procgen.units.compare import equal
from procgen.units.dimension import LENGTH
from procgen.units.lists import listed


def shell_places(family: Family) -> Mapping[str, tuple[str, ...]]:
    """For each cam bearing the positions that take the same shell, itself among them; empty without shells or sizes.

    Alike are shells of one block bore, one installed bore and one oil hole. What is stated for one position and not for
    the other keeps them apart.
    """
    bearings = family.members.get("cam_bearing", {})
    sizes = ("block_bore", "bore_installed", "width", "shell_hole_diameter", "shell_hole_clock")
    of_each = {id: [family.member("cam_bearing", id, name) for name in sizes] for id in bearings}
    if shells(family) != "fitted" or any(own[0] is None for own in of_each.values()):
        return {}
    return {id: tuple(other for other in bearings if _alike(of_each[id], of_each[other])) for id in bearings}


def shell_fits(family: Family) -> Mapping[str, str]:
    """Where the shell of a position may go: "only here", "anywhere", or the positions."""
    places = shell_places(family)
    return {id: _said(of_it, len(places)) for id, of_it in places.items()}


def _said(alike: tuple[str, ...], all_of_them: int) -> str:
    if len(alike) == 1:
        return "only here"
    return "anywhere" if len(alike) == all_of_them else listed(alike)


def _alike(first: list[float | None], second: list[float | None]) -> bool:
    return all(
        (a is None and b is None) or (a is not None and b is not None and equal(a, b, LENGTH))
        for a, b in zip(first, second, strict=True)
    )
