"""A scene as an SVG for a width and a type size. Attributes only: no style sheet reaches in, no marker, no pattern.

The same scene, width, size and theme give the same bytes, on paper and on a page.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import Literal

from procgen.draw.boxes import Box, around
from procgen.draw.fonts import Fonts
from procgen.draw.inks import AT, THEMES
from procgen.draw.lettering import HALO, Letters, Text, printed
from procgen.draw.placed import Placed
from procgen.draw.placing import TooWide, place
from procgen.draw.scales import SCALES, said, scales_to
from procgen.draw.sheet import Sheet
from procgen.draw.strokes import Strokes, joined, number
from procgen.files.templating import environment
from procgen.model.scene import Scene
from procgen.values import dataclass

TALLEST = 1.15  # times the width: a drawing must fit a face of the card
SCALES_TRIED = 2  # at which lettering found no room, before badges stand in rows
AIR = 0.6  # mm kept free round all lettering


Caption = Literal["paper", "page", ""]
"""What stands under a drawing: words with its scale, words without, or nothing."""


class NoRoom(ValueError):
    """A width in which a scene cannot be drawn at all."""


@dataclass(frozen=True)
class Arranged:
    """A scene with everything in its place, mm from the top left corner."""

    sheet: Sheet
    scale: Fraction
    placed: Placed
    under: tuple[Text, ...]  # legend and caption
    extent: Box
    width: float
    height: float


class Drawer:
    """Makes SVGs; kept for a process's life. `templates`: folders in which drawings/scene.svg is looked for."""

    def __init__(self, fonts: Fonts, templates: Sequence[Path]) -> None:
        self._fonts = fonts
        self._jinja = environment(templates, trim=True)
        self._jinja.filters.update(mm=number, printed=printed)
        self._arranged: dict[tuple[str, float, float, Fraction | None], tuple[Scene, Arranged | None]] = {}

    def __call__(self, scene: object, width: float, size: float, theme: str) -> str:
        """`width` there is (mm), type `size` (pt), theme's name. NoRoom where it cannot be drawn in that width."""
        assert isinstance(scene, Scene)
        return self.svg(scene, width, size, theme)

    def svg(
        self,
        scene: Scene,
        width: float,
        size: float,
        theme: str,
        *,
        scale: Fraction | None = None,
        caption: Caption = "paper",
    ) -> str:
        """`scale`: one that is asked for, so that several drawings may be compared; else the largest that fits."""
        return self._rendered(self.arrange(scene, width, size, scale, caption), theme)

    def alike(self, scenes: Sequence[Scene], width: float, size: float, theme: str) -> tuple[str, ...]:
        """Scenes to compare, without captions: each at the scale of the one that has to be smallest."""
        scales = [self.arrange(scene, width, size, caption="").scale for scene in scenes]
        return tuple(self.svg(scene, width, size, theme, scale=min(scales), caption="") for scene in scenes)

    def row(self, scenes: Sequence[Scene], width: float, size: float, theme: str) -> tuple[str, ...]:
        """Scenes to stand side by side, each `width` mm wide: at one scale, equally high, their origins level, without
        lettering: what they are is said beside them.
        """
        if not scenes:
            return ()
        for scale in SCALES:
            sheets = [Sheet(scene, float(scale), size / AT) for scene in scenes]
            extents = [sheet.extent for sheet in sheets]
            if all(extent.right - extent.left <= width for extent in extents):
                break
        air = AIR * size / AT
        top, bottom = min(extent.top for extent in extents) - air, max(extent.bottom for extent in extents) + air
        made = []
        for sheet, extent in zip(sheets, extents, strict=True):
            shift = width / 2 - extent.middle[0], -top
            arranged = Arranged(replace(sheet, shift=shift), scale, Placed(), (), extent, width, bottom - top)
            made.append(self._rendered(arranged, theme, told=False))
        return tuple(made)

    def _rendered(self, arranged: Arranged, theme: str, told: bool = True) -> str:
        strokes = Strokes(arranged.sheet, THEMES[theme])
        return self._jinja.get_template("drawings/scene.svg").render(
            scene=arranged.sheet.scene,
            told=told,
            width=arranged.width,
            height=arranged.height,
            elements=joined(
                (
                    *strokes.shapes(),
                    *strokes.leaders(arranged.placed.leaders),
                    *strokes.discs(arranged.placed.discs, HALO * arranged.sheet.weight),
                )
            ),
            texts=(*arranged.placed.texts, *arranged.under),
            inks=THEMES[theme],
        )

    def arrange(
        self, scene: Scene, width: float, size: float, scale: Fraction | None = None, caption: Caption = "paper"
    ) -> Arranged:
        key = (f"{scene.id}/{caption}", width, size, scale)
        kept = self._arranged.get(key)
        if kept is None or kept[0] != scene:
            self._arranged[key] = kept = (scene, self._arrange(scene, width, size, scale, caption))
        if kept[1] is None:
            raise NoRoom(f"{scene.title}: {width:.0f} mm are too narrow for type of {size:g} pt")
        return kept[1]

    def _arrange(
        self, scene: Scene, width: float, size: float, scale: Fraction | None, caption: Caption
    ) -> Arranged | None:
        """At the largest scale at which all lettering finds its place; then crowded; None where it does not fit."""
        letters = Letters(self._fonts, size)
        scales = (scale,) if scale is not None else worth_trying(scene, width)
        for crowded in (False, True):
            tried, best = 0, None
            for each in scales:
                sheet = Sheet(scene, float(each), size / AT)
                try:
                    placed = place(sheet, letters, width, crowded)
                except TooWide:
                    continue
                if placed is not None:
                    made = _settled(scene, sheet, each, placed, letters, width, caption)
                    if made.height <= TALLEST * width:
                        return made
                    best = made if best is None or made.height < best.height else best
                tried += placed is None
                if tried == SCALES_TRIED:
                    break
            if best is not None:
                return best
        return None


def worth_trying(scene: Scene, width: float) -> tuple[Fraction, ...]:
    """Those that make sense, but for such as the bare shapes are wider than there is room for: lines and lettering of
    the paper's size only add to that."""
    extent = Sheet(scene, 1.0, 0.0).extent
    wide = (extent.right - extent.left) / (width + 0.01)
    return tuple(each for each in scales_to(scene.largest) if float(each) * wide <= 1)


def _settled(
    scene: Scene, sheet: Sheet, scale: Fraction, placed: Placed, letters: Letters, width: float, caption: Caption
) -> Arranged:
    """Moved to the corner of its frame, with legend and caption beneath."""
    extent = sheet.extent
    whole = around([extent, *placed.boxes, *(Box(*p, *p) for leader in placed.leaders for p in leader.points)])
    right = (width - (whole.right - whole.left)) / 2 - whole.left
    down = AIR * sheet.weight - whole.top
    moved = placed.moved(right, down)
    bottom = whole.bottom + down + AIR * sheet.weight
    under: list[Text] = []
    if scene.legend:
        texts, tall = letters.legend(scene.legend, width)
        under += [text.moved(0.0, bottom + 0.4 * letters.step) for text in texts]
        bottom += tall + 0.4 * letters.step
    if caption:
        texts, tall = letters.wrapped(words_under(scene, scale if caption == "paper" else None), width)
        under += [text.moved(0.0, bottom + 0.2 * letters.step) for text in texts]
        bottom += tall + 0.2 * letters.step
    extent = extent.moved(right, down)
    return Arranged(replace(sheet, shift=(right, down)), scale, moved, tuple(under), extent, width, bottom)


def words_under(scene: Scene, scale: Fraction | None) -> str:
    """What is drawn, from where it is seen, and at what scale: that only on paper, since a screen has none."""
    parts = [", ".join(part for part in (scene.title, scene.view) if part) + "."]
    if scene.to_scale and scale is not None:
        parts.append(f"{said(scale)}.")
        if scale == 1 and scene.lay_on:
            parts.append(scene.lay_on)
    return " ".join(parts)
