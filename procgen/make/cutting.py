"""Fonts for pages, cut down while the workshop is read: most shops write with no characters but the guide's."""

from __future__ import annotations

from functools import partial
from pathlib import Path

from procgen.make.apart import Apart
from procgen.make.order import Order


def cut_ahead(order: Order) -> Apart[None]:
    """In a process of its own, where the site alone is made: else it is done beside the printing. Nobody need ask what
    comes of it: where fonts of just these characters are wanted, they lie there; else others are cut."""
    return Apart(partial(_cut, order.fonts), begin=order.only == "site" and order.workers > 1)


def _cut(folder: Path) -> None:
    from procgen.check.functions import told
    from procgen.check.guide import guide
    from procgen.compose.characters import characters
    from procgen.draw.fonts import prepare
    from procgen.web.fonts import ALWAYS, web_font

    wanted = ALWAYS | characters(guide(), told())
    for face in prepare(folder).faces:
        web_font(face, wanted, folder)
