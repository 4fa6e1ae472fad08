"""Badges in a row above the metal and a row below it: for where each cannot find a place of its own."""

from __future__ import annotations

from collections.abc import Sequence

from procgen.draw.boxes import Box
from procgen.draw.fixed import BESIDE, CLEAR, spread
from procgen.draw.lettering import Letters
from procgen.draw.placed import Leader, Placed, straightened
from procgen.draw.sheet import Sheet
from procgen.model.scene import Badge


def set_in_rails(
    badges: Sequence[Badge], sheet: Sheet, letters: Letters, placed: Placed, content: Box, frame: Box
) -> None:
    """Each in the row that is nearer to it while there is room in that one, in the order of their things."""
    if not badges:
        return
    form, gap = letters.badge(badges[0]), CLEAR * sheet.weight
    pitch = form.width + gap
    fits = max(1, int((frame.right - frame.left + gap) / pitch))
    down = sorted(badges, key=lambda badge: -badge.anchor[1])
    middle = sheet.extent.middle[1]
    above = [badge for badge in down if sheet.spot(badge.anchor)[1] <= middle][:fits]
    below = [badge for badge in down if badge not in above]
    spare = max(0, len(below) - fits)
    above, below = above + below[:spare], below[spare:]
    off = BESIDE * sheet.weight + letters.step  # so that no leader lies flat
    for row, top in ((above, content.top - off - form.height), (below, content.bottom + off)):
        ordered = sorted(row, key=lambda badge: (badge.anchor[0], badge.anchor[1]))
        wanted = [sheet.spot(badge.anchor)[0] - form.width / 2 for badge in ordered]
        lefts = _inside(spread(wanted, [pitch] * len(ordered)), pitch, frame.left, frame.right - form.width)
        for badge, left in zip(ordered, lefts, strict=True):
            _set(badge, left, top, sheet, letters, placed)


def _set(badge: Badge, left: float, top: float, sheet: Sheet, letters: Letters, placed: Placed) -> None:
    form, anchor = letters.badge(badge), sheet.spot(badge.anchor)
    assert form.disc is not None
    (x, y), radius = form.disc
    down = 1 if anchor[1] > top else -1
    rim = x + left, y + top + down * radius
    bend = rim[0], y + top + down * (form.height / 2 + CLEAR * sheet.weight)
    placed.set(form, left, top, Leader(straightened((anchor, bend, rim)), accent=False, dot=True))


def _inside(lefts: Sequence[float], pitch: float, least: float, most: float) -> list[float]:
    """Pushed back within the frame from either end, their distances kept."""
    found = list(lefts)
    for n, left in enumerate(found):
        found[n] = max(left, least + n * pitch)
    for n in range(len(found)):
        found[-1 - n] = min(found[-1 - n], most - n * pitch)
    return found
