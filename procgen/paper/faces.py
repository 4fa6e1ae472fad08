"""From measured heights to faces: the parts of a card, what a face holds, and what stands where a face ends."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from procgen.model.card import Card
from procgen.paper.fit import Fit
from procgen.paper.pack import Part, Plan, Room
from procgen.paper.pieces import NUMBER, SEATED, Piece, Pieces
from procgen.paper.placing import Face
from procgen.paper.sizes import POINT

Heights = Mapping[str, float]
"""Of each part of a card in reading order, mm, and of the margins' rows."""

_NAMED = {"hold": "hold", "record": "record", "start/bring": "what to bring"}
_PARTS = re.compile(r'data-part="(?!~)')
_MARGINS = ("head-first", "head-later", "foot-first", "foot-later", *SEATED)


def parts_of(heights: Heights) -> tuple[Part, ...]:
    """The parts in reading order, the title glued to what follows it.

    A table is measured whole as its first row's part, the other rows on their own and its head beside them ("~").
    """
    rest: dict[str, float] = {}
    for key, height in heights.items():
        table, _, row = key.rpartition("/")
        if f"~{table}" in heights and row != "1":
            rest[table] = rest.get(table, 0.0) + height
    parts = []
    glued = heights["title"]
    for key, height in heights.items():
        if key in _MARGINS or key == "title" or key.startswith("~"):
            continue
        table, _, row = key.rpartition("/")
        again = heights.get(f"~{table}", 0.0) if row != "1" else 0.0
        parts.append(Part(key, height + glued - (rest.get(table, 0.0) if row == "1" else 0.0), again))
        glued = 0.0
    return tuple(parts)


def tops(fit: Fit, heights: Heights) -> tuple[float, float]:
    """Top margins of later faces and of the first."""
    paper = fit.page
    return paper.top + heights["head-later"], max(paper.top + heights["head-first"], paper.row_bottom)


def foot_of(heights: Heights, key: str) -> float:
    """The height of a foot with the address that takes its seat there."""
    return max(heights[key], heights.get(key.replace("foot", "address"), 0.0))


def room_of(fit: Fit, heights: Heights) -> Room:
    paper, text_line = fit.page, 1.24 * fit.sizes.step * POINT
    later_top, first_top = tops(fit, heights)
    slack = 0.3  # mm: layout rounds
    return Room(
        first=paper.height - first_top - foot_of(heights, "foot-first") - paper.foot - slack,
        later=paper.height - later_top - foot_of(heights, "foot-later") - paper.foot - slack,
        arrow=fit.line.gap + text_line,
        label=text_line,
    )


@dataclass(frozen=True)
class Turn:
    """Where a face ends: what its arrow says, and the number of the step that goes on, if one does."""

    text: str
    continued: str


def turns(card: Card, parts: Sequence[Part], plan: Plan) -> Mapping[str, Turn]:
    """By the key of the part that opens the next face."""
    numbers = {step.id: str(step.number) for step in card.steps}
    found = {}
    for face, start in enumerate(plan.opens[1:], start=2):
        part, before = parts[start], parts[start - 1]
        number = numbers.get(part.step, "")
        continued = number if part.step == before.step else ""
        what = f"rest of {number}" if continued else number or _NAMED.get(part.key, "more")
        where = "overleaf" if face % 2 == 0 else f"on face {face}"  # an odd face is on another sheet
        found[part.key] = Turn(f"{what} {where}", continued)
    return found


def ended(html: str) -> str:
    """A card whose line of work ends in its last part, but for a table of several rows."""
    before, begin, last = html.rpartition('<div class="part ')
    return f"{before}{begin}end {last}" if len(_PARTS.findall(last)) == 1 else html


def faces_of(fit: Fit, pieces: Pieces) -> list[Face]:
    """What stands where on each face. A face ends with what says that the work goes on overleaf."""
    bodies: list[list[Piece]] = [[]]
    numbers: list[Piece] = []
    seated = {SEATED[key]: piece for piece in pieces.all if (key := next(iter(piece.heights), "")) in SEATED}
    for piece in pieces.all:
        key = next(iter(piece.heights), "")
        if key.startswith("face/"):
            numbers.append(piece)
        elif key not in _MARGINS:
            bodies[-1].append(piece)
        if "overleaf" in piece.heights:
            bodies.append([])
    found: list[Face] = []
    for body, number in zip(bodies, numbers, strict=True):
        margin = f"foot-{'later' if found else 'first'}"
        found.append(face(fit, pieces, margin, body, not found, {**seated, NUMBER: number}))
    return found


def face(
    fit: Fit, pieces: Pieces, foot_key: str, body: Sequence[Piece], is_first: bool, seated: Mapping[str, Piece]
) -> Face:
    """One, with its margins."""
    later_top, first_top = tops(fit, pieces.heights)
    head, foot = pieces.named("head-first" if is_first else "head-later"), pieces.named(foot_key)
    top, bottom = first_top if is_first else later_top, foot_of(pieces.heights, foot_key) + fit.page.foot
    return Face(head, foot, seated, body, top, bottom, fit.page.top, fit.page.height - fit.page.foot - foot.height)
