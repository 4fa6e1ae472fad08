"""What must hold of every card before it leaves the press. Each gate sees what the others miss."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from procgen.draw.fonts import HEAD, SUB, TEXT, Fonts
from procgen.files.problems import Problem
from procgen.model.card import Card
from procgen.model.workshop import Hole, Stock
from procgen.paper import told
from procgen.paper.boxes import MM, attribute, is_image, is_margin, is_text, pages, walk
from procgen.paper.content import Said
from procgen.paper.fit import Fit
from procgen.paper.words import tidy

_LENIENT = 0.15  # mm: layout rounds


def coverage(card: Card, texts: Iterable[Said], fonts: Fonts) -> tuple[Problem, ...]:
    """Characters that the fonts lack: they would be printed as boxes, or in somebody else's font."""
    problems = []
    for one in texts:
        lacking = fonts.missing(tidy(one.text), one.family)
        if lacking:
            problems.append(told.characters(card, one.step, lacking))
    return tuple(dict.fromkeys(problems))


def wide_words(card: Card, texts: Iterable[Said], fit: Fit) -> tuple[Problem, ...]:
    """Words that no line holds: they would be broken anywhere."""
    sizes, beside = fit.sizes, fit.page.across
    text = fit.text - fit.line.number
    room = {TEXT: (sizes.step, text), HEAD: (sizes.value, beside), SUB: (sizes.step, fit.text)}
    problems = []
    for one in texts:
        if one.family not in room or one.text in (card.address, card.revision):
            continue  # figures have columns of their own, an address may break, a revision is set for the hand
        size, width = room[one.family]
        for word in tidy(one.text).split(" "):
            if fit.width(word, one.family, size, bold=one.family == TEXT) > width:
                problems.append(told.wide(card, one.step, word))
    return tuple(dict.fromkeys(problems))


def faces(
    card: Card, texts: Iterable[Said], document: Any, fit: Fit, stock: Stock, parts: Iterable[str], fonts: Fonts
) -> tuple[Problem, ...]:
    """The gates on a card that is laid out and written: `texts` that must be on it, `parts` that must be once."""
    problems: list[Problem] = []
    seen: Counter[str] = Counter()
    words: list[str] = []
    for number, page in enumerate(pages(document), start=1):
        for key in {attribute(box, "data-part") for box in walk(page)} - {""}:
            seen[key] += 1
        inks = _inks(page)
        words += [box.text for box, _ in inks if is_text(box)]
        problems += _outside(card, page, inks, number, fit)
        problems += _in_hole(card, inks, number, stock)
        problems += _small(card, inks, number, fit)
    for key in parts:
        if seen[key] != 1:
            problems.append(told.not_once(card, key, seen[key]))
    printed = _bare("".join(words))
    for one in texts:
        if _bare(tidy(one.text)) not in printed:
            problems.append(told.unprinted(card, one.step, one.text))
    strangers = {font.family for font in document.fonts.values()} - fonts.families
    problems += [told.stranger(card, family) for family in sorted(strangers)]
    return tuple(dict.fromkeys(problems))


def _bare(text: str) -> str:
    return "".join(text.replace("\u200b", "").split())


_Inks = Sequence[tuple[Any, bool]]
"""Everything that is drawn as a thing of its own, and whether it stands in the margin."""


def _inks(page: Any) -> _Inks:
    return [(box, is_margin(child)) for child in page.children for box in walk(child) if is_text(box) or is_image(box)]


def _outside(card: Card, page: Any, inks: _Inks, face: int, fit: Fit) -> Iterator[Problem]:
    """Ink beyond the margins of the face, or below where its content ends."""
    paper = fit.page
    top, bottom = page.content_box_y() * MM, (page.content_box_y() + page.height) * MM
    for box, margin in inks:
        x, y = box.position_x * MM, box.position_y * MM
        right, low = x + box.width * MM, y + box.height * MM
        above, below = (paper.top - 1.0, paper.height - paper.foot + 1.0) if margin else (top - 1.0, bottom + 1.0)
        # A line box may be less high than its letters' ascent and descent, so up and down a millimetre is allowed.
        if x < paper.side - _LENIENT or right > paper.width - paper.side + _LENIENT or y < above or low > below:
            yield told.outside(card, face, getattr(box, "text", "a picture"))


def _in_hole(card: Card, inks: _Inks, face: int, stock: Stock) -> Iterator[Problem]:
    hole = stock.hole
    if hole is None:
        return
    middles = _middles(hole, stock)
    for box, _ in inks:
        x, y = box.position_x * MM, box.position_y * MM
        if any(_reaches(hole, middle, x, y, box.width * MM, box.height * MM) for middle in middles):
            yield told.in_hole(card, face, getattr(box, "text", "a picture"))


def _middles(hole: Hole, stock: Stock) -> set[float]:
    """Where the hole's middle is on a front and, turned over, on a back."""
    return {hole.centre[0], stock.width - hole.centre[0]}


def _reaches(hole: Hole, middle: float, x: float, y: float, width: float, height: float) -> bool:
    """Whether a rectangle comes nearer to the hole than is to be kept clear: distance to the slot's middle line."""
    half = max(hole.length - hole.across, 0.0) / 2
    dx = max(x - (middle + half), (middle - half) - (x + width), 0.0)
    dy = max(y - hole.centre[1], hole.centre[1] - (y + height), 0.0)
    return bool((dx * dx + dy * dy) ** 0.5 < hole.across / 2 + hole.keep_clear - _LENIENT)


def _small(card: Card, inks: _Inks, face: int, fit: Fit) -> Iterator[Problem]:
    for box, _ in inks:
        if is_text(box) and box.text.strip() and box.style["font_size"] * 0.75 < fit.sizes.hand - 0.01:
            yield told.small(card, face, box.text, box.style["font_size"] * 0.75, fit.sizes.hand)
