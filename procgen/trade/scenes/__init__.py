"""Views of an engine, by name: each a pure function from a family's figures to scenes."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from procgen.trade.scenes.bore import bore_stations, ring_light_stations
from procgen.trade.scenes.clock import cam_clock
from procgen.trade.scenes.end import end_view
from procgen.trade.scenes.galley import galley_map, galley_plan
from procgen.trade.scenes.view import Given, View

VIEWS: Mapping[str, View] = MappingProxyType(
    {
        view.name: view
        for view in (
            View("cam_clock", cam_clock, "cam_bearing"),
            View("galley_map", galley_map),
            View("galley_plan", galley_plan),
            View("bore_stations", bore_stations),
            View("light_stations", ring_light_stations),
            View("end_view", end_view),
        )
    }
)

__all__ = ["VIEWS", "Given", "View"]
