"""Labels that have their place from the scene: on a thing, beside it, or in a column at the side."""

from __future__ import annotations

from collections.abc import Sequence

from procgen.draw.boxes import Box
from procgen.draw.lettering import Form, Letters
from procgen.draw.placed import Leader, Placed, straightened
from procgen.draw.sheet import Sheet
from procgen.model.scene import Label

CLEAR = 0.7  # mm between lettering and anything else, at 15 pt
BESIDE = 1.4  # mm between a thing and what stands beside it
LEVEL = 2.4  # mm that a leader runs level at its label


def set_on(label: Label, sheet: Sheet, letters: Letters, placed: Placed) -> None:
    """Centred on its anchor; left out where it may be and would touch something."""
    form = next(form for form in letters.forms(label) if len(form.ports) == 2)
    x, y = sheet.spot(label.anchor)
    box = form.box(x - form.width / 2, y - form.height / 2)
    letters_only = Box(box.left, y - form.height * 0.3, box.right, y + form.height * 0.3)
    if label.optional and not (placed.is_clear(box.grown(CLEAR * sheet.weight)) and sheet.inked.is_free(letters_only)):
        return
    placed.set(form, box.left, box.top, optional=label.optional)


def set_beside(label: Label, sheet: Sheet, letters: Letters, placed: Placed) -> bool:
    """Touching its anchor on the first of its sides that is free; False where none is and it may not be left out."""
    x, y = sheet.spot(label.anchor)
    gap = BESIDE * sheet.weight
    for form in letters.forms(label):
        port, level = form.ports[0][1] if len(form.ports) == 1 else "", y - form.ports[0][0][1]
        over, under = y - gap - form.height, y + gap
        places = {
            ("right", "left"): (x + gap, level),
            ("left", "right"): (x - gap - form.width, level),
            ("above", ""): (x - form.width / 2, over),
            ("below", ""): (x - form.width / 2, under),
            ("above right", "left"): (x, over),
            ("below right", "left"): (x, under),
            ("above left", "right"): (x - form.width, over),
            ("below left", "right"): (x - form.width, under),
        }
        for side in label.sides:
            if (side, port) not in places:
                continue
            box = form.box(*places[side, port])
            if sheet.inked.is_free(box.grown(-0.2)) and placed.is_clear(box.grown(CLEAR * sheet.weight)):
                placed.set(form, box.left, box.top, optional=label.optional)
                return True
    return label.optional


def set_column(
    column: Sequence[Label], side: str, content: Box, sheet: Sheet, letters: Letters, placed: Placed
) -> None:
    """One under the other at the heights of their things, pushed apart as far as they must be."""
    weight, way = sheet.weight, 1 if side == "right" else -1
    port = "left" if side == "right" else "right"
    ordered = sorted(column, key=lambda label: -label.anchor[1])
    forms: list[Form] = [next(f for f in letters.forms(label) if f.ports[0][1] == port) for label in ordered]
    heights = [sheet.spot(label.anchor)[1] for label in ordered]
    wanted = [height - form.ports[0][0][1] for height, form in zip(heights, forms, strict=True)]
    tops = spread(wanted, [form.height + CLEAR * weight for form in forms])
    room = ((LEVEL * 2 + 1.0) if any(label.leader for label in column) else BESIDE) * weight
    edge = content.right + room if side == "right" else content.left - room
    for label, form, top in zip(ordered, forms, tops, strict=True):
        left = edge if side == "right" else edge - form.width
        (px, py), _ = form.ports[0]
        near = left + px - way * CLEAR * weight, top + py
        bend = near[0] - way * LEVEL * weight, near[1]
        path = straightened((sheet.spot(label.anchor), bend, near))
        leader = Leader(path, label.accent, label.dot) if label.leader else None
        placed.set(form, left, top, leader, label.optional)


def spread(wanted: Sequence[float], heights: Sequence[float]) -> list[float]:
    """Tops nearest (by squares) to those wanted, in order, none over the next: pooled like an isotonic fit."""
    offsets, total = [], 0.0
    for height in heights:
        offsets.append(total)
        total += height
    pools: list[list[float]] = []  # sum and count of what is shared
    for want, offset in zip(wanted, offsets, strict=True):
        pools.append([want - offset, 1])
        while len(pools) > 1 and pools[-2][0] / pools[-2][1] > pools[-1][0] / pools[-1][1]:
            shared, count = pools.pop()
            pools[-1][0] += shared
            pools[-1][1] += count
    shifts = [shared / count for shared, count in pools for _ in range(int(count))]
    return [shift + offset for shift, offset in zip(shifts, offsets, strict=True)]
