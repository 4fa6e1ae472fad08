"""Views of an engine, by name: each a pure function from a family's figures to scenes."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from procgen.trade.scenes.bore import bore_stations, ring_light_stations
from procgen.trade.scenes.clock import cam_clock
from procgen.trade.scenes.cores import core_plugs
from procgen.trade.scenes.deck import deck_lines
from procgen.trade.scenes.end import end_view
from procgen.trade.scenes.galley import galley_map
from procgen.trade.scenes.hone import hatch_angle, hone_stroke
from procgen.trade.scenes.ladder import size_ladder
from procgen.trade.scenes.nose import plug_nose
from procgen.trade.scenes.rings import ring_gap, ring_travel
from procgen.trade.scenes.route import oil_route
from procgen.trade.scenes.sling import stand_sling
from procgen.trade.scenes.view import Given, View

_LISTED = (
    View("bore_stations", bore_stations),
    View("cam_clock", cam_clock, "cam_bearing"),
    View("core_plugs", core_plugs),
    View("deck_lines", deck_lines),
    View("end_view", end_view),
    View("galley_map", galley_map),
    View("hatch_angle", hatch_angle),
    View("hone_stroke", hone_stroke),
    View("light_stations", ring_light_stations),
    View("oil_route", oil_route),
    View("plug_nose", plug_nose),
    View("ring_gap", ring_gap),
    View("ring_travel", ring_travel),
    View("size_ladder", size_ladder),
    View("stand_sling", stand_sling),
)

VIEWS: Mapping[str, View] = MappingProxyType({view.name: view for view in _LISTED})

__all__ = ["VIEWS", "Given", "View"]
