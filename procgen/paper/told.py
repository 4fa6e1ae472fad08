"""How paper says what is wrong with a card: by the card's address, and the step where there is one.

Whoever knows the workshop's files turns that place into a line of them (`make/located.py`).
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from procgen.files.problems import Place, Problem, error, note, warning
from procgen.model.card import Card
from procgen.model.workshop import ReadFrom, Sheets, Stock
from procgen.paper.imposing import PAPERS
from procgen.paper.pack import Plan
from procgen.paper.sizes import WANTED, Sizes

if TYPE_CHECKING:
    from procgen.paper.glance import Shown, View

_NAMED = {"start/reason": "the reason", "start/bring": "the list of what to bring", "hold": "the hold point"}
_PARTS = {
    "drawing": "the drawing of ",
    "grid": "a row of the table of ",
    "values": "the figures of ",
    "box": "the reading of ",
    "decision": "a branch of the decision of ",
}


MANY = 6
"""A card of more faces is set in the smallest type."""


FAR = 1500.0
"""mm: steps are not read from farther away, limits and decisions may be."""


def place(card: Card, key: str = "") -> Place:
    """ "family/card", or "family/card#step" where it is of a step."""
    step = key.partition("/")[0]
    return Place(f"{card.address}#{step}" if any(step == one.id for one in card.steps) else card.address)


def _where(card: Card, key: str) -> str:
    if key in _NAMED:
        return f"{_NAMED[key]} of card {card.id}"
    step, _, part = key.partition("/")
    numbers = {item.id: item.number for item in card.steps}
    if step in numbers:
        what = next((name for kind, name in _PARTS.items() if part.startswith(kind)), "")
        return f"{what}step {numbers[step]} ({step}) of card {card.id}"
    if step.startswith("panel-"):
        return f"caution {step.removeprefix('panel-')} of card {card.id}"
    return f"{step} of card {card.id}" if step else f"card {card.id}"


def plan(card: Card, plan: Plan, title_wraps: bool, read_from: ReadFrom) -> tuple[Problem, ...]:
    """What packing could not do."""
    glance = "; from so far only a glance card can be read (`--glance`)" if read_from.steps >= FAR else ""
    problems = [
        error(
            "taller-than-a-face",
            f"{_where(card, key)}: taller than a face at the smallest type that may be used",
            place(card, key),
            hint=("split the step in two" if key.endswith("/words") else "make it less")
            + f", stand nearer (`read_from`), or choose a larger stock{glance}",
        )
        for key in plan.tall
    ]
    problems += [
        note(
            "cut-by-a-face",
            f"{_where(card, key)}: a face ends inside its decision or table",
            place(card, key),
            hint="fewer or shorter branches, or a larger stock",
        )
        for key in plan.split
    ]
    if title_wraps:
        problems.append(
            warning(
                "title-too-long",
                f"the title of card {card.id}, {card.title!r}, takes two lines at the smallest type that may be used",
                place(card),
                hint="a shorter hail name; the question can say the rest",
            )
        )
    return tuple(problems)


def faces(card: Card, count: int, sizes: Sizes, read_from: ReadFrom) -> Problem:
    """How many faces a card takes, and why: what its type is for."""
    minutes = f"{sizes.minutes:g}"
    if sizes.minutes >= WANTED:
        why = f"all of the {minutes}′ wanted"
    elif count > MANY:
        why = f"{minutes}′, the least, as they are so many"
    else:
        why = f"{minutes}′; {WANTED:g}′ would take another sheet"
    text = f"steps in {sizes.step:g} pt to be read from {read_from.steps / 1000:g} m, {why}"
    return note("faces", f"card {card.id}: {count} face{'s' * (count != 1)}; {text}", place(card))


def glance(
    card: Card, shown: Sequence[Shown], tall: Sequence[View], sizes: Sizes, distance: float
) -> tuple[Problem, ...]:
    """What its glance card shows, and which decisions only the full card has."""
    folds = [
        f"{one.arms} of {len(one.view.path.arms)} branches"
        for one in shown
        if one.view.path and one.folded and one.arms
    ]
    rest = f"; {', '.join(folds)}, the rest folded into “ask”" if folds else ""
    count = f"{len(shown)} face{'s' * (len(shown) != 1)}"
    text = f"glance card of {card.id}: {count}, {sizes.step:g} pt for {distance / 1000:g} m"
    return (
        note("faces", text + rest, place(card)),
        *(
            note(
                "not-at-a-glance",
                f"glance card of {card.id}: “{view.path.title if view.path else view.key}” is left to the full card, "
                "since not even its first branch has room",
                place(card),
                hint="a shorter first condition, a nearer `read_from: glance`, or a larger stock",
            )
            for view in tall
        ),
    )


def wide(card: Card, step: str, word: str) -> Problem:
    word = word.replace("\u00a0", " ").rstrip(".,;:")
    return error(
        "wider-than-a-face",
        f"{_where(card, step)}: the word “{word}” is wider than a face at the smallest type that may be used",
        place(card, step),
        hint="a shorter word, stand nearer (`read_from`), or choose a larger stock",
    )


def characters(card: Card, step: str, lacking: str) -> Problem:
    shown = ", ".join(f"{character} (U+{ord(character):04X})" for character in lacking)
    return error(
        "no-such-letter",
        f"{_where(card, step)} uses {shown}, which the cards' fonts do not have",
        place(card, step),
        hint="write it in words",
    )


def not_once(card: Card, key: str, times: int) -> Problem:
    message = f"{_where(card, key)}: a part of it stands on {times} faces instead of one"
    return error("not-once", message, place(card, key))


def unprinted(card: Card, step: str, text: str) -> Problem:
    return error("not-printed", f"{_where(card, step)}: {text!r} did not reach the paper", place(card, step))


def undrawn(card: Card, key: str, why: str) -> Problem:
    return error(
        "not-drawn", f"card {card.id}: drawing {key}: {why}", place(card), hint="a larger stock, or less lettering"
    )


def outside(card: Card, face: int, text: str) -> Problem:
    return error("outside-the-face", f"card {card.id}, face {face}: {text!r} runs out of its place", place(card))


def in_hole(card: Card, face: int, text: str) -> Problem:
    return error("in-the-hole", f"card {card.id}, face {face}: {text!r} stands where the hole is punched", place(card))


def small(card: Card, face: int, text: str, size: float, least: float) -> Problem:
    return error(
        "too-small",
        f"card {card.id}, face {face}: {text!r} is set in {size:.1f} pt, the least is {least:.1f}",
        place(card),
    )


def stranger(card: Card, family: str) -> Problem:
    return error("strange-font", f"card {card.id} came out in {family}, which is none of the cards' fonts", place(card))


def no_sheet(stock: Stock, sheets: Sheets) -> Problem:
    """That cards do not fit on a sheet; an error where the shop named the paper."""
    fold = " side by side with their backs" if sheets.duplex == "fold" else ""
    size = f"{stock.width:g} × {stock.height:g} mm"
    if sheets.paper:
        width, height = PAPERS[sheets.paper]
        return error(
            "no-sheet",
            f"cards of stock {stock.id}, {size}, do not fit{fold} on {sheets.paper} paper, {width:g} × {height:g} mm",
            stock.place,
            hint="name another paper under `sheets`, or a smaller stock" + ("; or print both sides" if fold else ""),
        )
    return warning(
        "no-sheet",
        f"cards of stock {stock.id}, {size}, fit{fold} on neither A4 nor Letter: there are no sheets of them",
        stock.place,
        hint="print the cards' own PDFs, or choose a smaller stock" + ("; or print both sides" if fold else ""),
    )


def engine(card: Card, message: str) -> Problem:
    return error("printing", f"card {card.id}: {message}", place(card))


def joined(message: str) -> Problem:
    return error("printing", message, Place("deck"))
