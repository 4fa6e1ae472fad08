"""A stock, theme and size: the pieces that were laid out so, and a face with nothing on it."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property
from typing import Any

from procgen.paper.engine import Engine
from procgen.paper.fit import Fit
from procgen.paper.pieces import ENDLESS, Known, PieceStore
from procgen.paper.placing import BLANK, CORNERS
from procgen.paper.theme import Theme


class Setting:
    """Its style (`css`) is read when something is laid out: many sizes are only reckoned with. `name`: no other setting
    with the same `known` has it."""

    def __init__(self, engine: Engine, fit: Fit, theme: Theme, css: Callable[[], str], known: Known, name: str) -> None:
        self.fit, self.theme = fit, theme
        self._engine, self._css, self._known, self._name = engine, css, known, name

    @cached_property
    def pieces(self) -> PieceStore:
        endless = self._engine.sheet(ENDLESS % self.fit.page.width)
        return PieceStore(lambda html: self._engine.layout(html, self._sheet, endless), self._known, self._name)

    @cached_property
    def blank(self) -> Any:
        """The document of a face with nothing on it."""
        return self._engine.layout(BLANK, self._sheet, self._engine.sheet(CORNERS))

    @cached_property
    def _sheet(self) -> Any:
        return self._engine.sheet(self._css())
