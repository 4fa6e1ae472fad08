"""Drawings on a page: the same as on paper, in one width for a phone and, where that shows more, one for a desk."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from markupsafe import Markup

from procgen.draw.svg import Drawer, NoRoom
from procgen.draw.verdict_bar import verdict_bar
from procgen.model.packet import Line
from procgen.model.scene import Scene
from procgen.web.words import tidy

NARROW, WIDE = 74.0, 134.0  # mm, of 96 px to the inch: what a phone has beside the line, and a desk beside the card
WHOLE, MAP = 86.0, 150.0  # mm: all of a phone but its margins, and a bore map among others on a desk
TYPE = 12.05  # pt: 16 px and a hair, the least for a label on a page
FAMILY = 34.0  # mm for a family in the row of all
BAR = 46.0  # mm for a verdict's bar, which the style sheet stretches


class Drawings:
    """Drawn once however often pages ask, one after the other, for what is the same."""

    def __init__(self, drawer: Drawer) -> None:
        self._drawer = drawer
        self._made: dict[str, tuple[Scene, tuple[Markup, Markup]]] = {}

    def of(self, scene: Scene) -> tuple[Markup, Markup]:
        """For a phone and a desk; the first empty where a phone lacks the room, the second where it shows no more."""
        known = self._made.get(scene.id)
        if known is None or known[0] != scene:
            known = self._made[scene.id] = scene, self._both(scene)
        return known[1]

    def _both(self, scene: Scene) -> tuple[Markup, Markup]:
        wide = self._drawer.arrange(scene, WIDE, TYPE, caption="page")
        try:
            narrow = self._drawer.arrange(scene, NARROW, TYPE, caption="page")
        except NoRoom:
            return Markup(), self._svg(scene, WIDE)
        return self._svg(scene, NARROW), self._svg(scene, WIDE) if wide.scale > narrow.scale else Markup()

    def alike(self, scenes: Sequence[Scene]) -> dict[str, tuple[Markup, Markup]]:
        """By id, to compare: all at one scale for a phone, whose whole width they have, and at one for a desk."""
        made = (map(Markup, self._drawer.alike(scenes, width, TYPE, "colour")) for width in (WHOLE, MAP))
        return dict(zip((scene.id for scene in scenes), zip(*made, strict=True), strict=True))

    def row(self, outlines: Mapping[str, Scene]) -> dict[str, Markup]:
        """The families' outlines by id, at one scale on one crank centreline."""
        made = self._drawer.row(list(outlines.values()), FAMILY, TYPE, "colour")
        return {id: Markup(svg) for id, svg in zip(outlines, made, strict=True)}

    def _svg(self, scene: Scene, width: float) -> Markup:
        return Markup(_lean(self._drawer.svg(scene, width, TYPE, "colour", caption="page")))


def _lean(svg: str) -> str:
    """Without what an SVG within a page need not say, and the text's own face said once."""
    face = ' font-family="Card Text"'
    return svg.replace(' xmlns="http://www.w3.org/2000/svg"', "", 1).replace(face, "").replace("<svg", f"<svg{face}", 1)


def bar(line: Line) -> Markup:
    """Of a verdict on a job's page."""
    return Markup(tidy(verdict_bar(line, BAR)))
