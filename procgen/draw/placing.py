"""Where labels and badges stand: never on one another, on a leader or over the frame, and clear of the metal.

First what has its place; then, in what is left of the frame, what finds its own.
"""

from __future__ import annotations

from procgen.draw.boxes import Box, around
from procgen.draw.fixed import CLEAR, set_beside, set_column, set_on
from procgen.draw.free import Free
from procgen.draw.lettering import Letters
from procgen.draw.placed import Placed
from procgen.draw.rails import set_in_rails
from procgen.draw.sheet import Sheet

MARGIN = 50.0  # mm above and below the metal in which labels may stand


class TooWide(Exception):
    """What has its place does not fit in the width."""


def place(sheet: Sheet, letters: Letters, width: float, crowded: bool = False) -> Placed | None:
    """All lettering of a scene, in a frame `width` mm wide; the scene's origin stays where the sheet has it.

    `crowded`: badges stand in rows and leaders may cross, for where nothing else is left. None where there is not room
    for what finds its own place; TooWide where a smaller scale must be tried first.
    """
    scene, placed, extent = sheet.scene, Placed(), sheet.extent
    if extent.right - extent.left > width:
        raise TooWide
    for label in scene.labels:
        if label.place == "on":
            set_on(label, sheet, letters, placed)
    for label in scene.labels:
        if label.place == "beside" and not set_beside(label, sheet, letters, placed):
            return None
    for side in ("left", "right"):
        content = around([extent, *placed.boxes])
        if column := [label for label in scene.labels if label.place == side]:
            set_column(column, side, content, sheet, letters, placed)
    content = around([extent, *placed.boxes])
    spare = width - (content.right - content.left)
    if spare < 0:
        raise TooWide
    frame = Box(content.left - spare / 2, extent.top - MARGIN, content.right + spare / 2, extent.bottom + MARGIN)
    if crowded:
        set_in_rails(scene.badges, sheet, letters, placed, content, frame)
        placed = placed.given_way(CLEAR * sheet.weight)
    free = Free(sheet, letters, placed, frame, crowded)
    return free.placed if free.set_all() else None
