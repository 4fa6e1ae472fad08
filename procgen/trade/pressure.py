"""Pressure along the oil's route: what each passage takes, or why it can't be told. Estimates."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from procgen.model.family import Family
from procgen.trade.flow import laminar_drop
from procgen.trade.routes import legs


@dataclass(frozen=True, slots=True)
class Leg:
    """One passage of a route: how far oil runs in it (mm), the pressure (kPa) it takes or why that can't be told."""

    passage: str
    run: float
    drop: float | None
    refused: str = ""


def along_route(family: Family, route: Sequence[str], flow: float, viscosity: float, density: float) -> tuple[Leg, ...]:
    """Each passage of a route with all of `flow` (mm³/s) in it; viscosity in kg/(mm·s), density in kg/mm³."""
    found = []
    for id, run in legs(family, route):
        try:
            found.append(Leg(id, run, laminar_drop(viscosity, density, run, family.passages[id].diameter, flow)))
        except ValueError as refusal:
            found.append(Leg(id, run, None, str(refusal)))
    return tuple(found)


def whole_drop(route: Sequence[Leg]) -> float | None:
    """Pressure (kPa) that a whole route takes, bends and holes left out; None where a part of it can't be told."""
    drops = [leg.drop for leg in route if leg.drop is not None]
    return sum(drops) if len(drops) == len(route) else None
