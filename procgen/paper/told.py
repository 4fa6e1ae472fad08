"""How paper says what is wrong with a card: always by the card's address, and the step where there is one."""

from __future__ import annotations

from procgen.files.problems import Place, Problem, error, warning
from procgen.model.card import Card
from procgen.paper.pack import Plan


def place(card: Card) -> Place:
    return Place(card.address)


def _where(card: Card, key: str) -> str:
    step = key.split("/")[0]
    numbers = {item.id: item.number for item in card.steps}
    if step in numbers:
        return f"step {numbers[step]} ({step}) of card {card.id}"
    return f"{step} of card {card.id}"


def plan(card: Card, plan: Plan, title_wraps: bool) -> tuple[Problem, ...]:
    """What packing could not do."""
    problems = [
        error(
            "taller-than-a-face",
            f"{_where(card, key)} is taller than a face at the smallest type that may be used",
            place(card),
            hint="split the step in two, or print on a larger stock",
        )
        for key in plan.tall
    ]
    problems += [
        warning(
            "step-split",
            f"{_where(card, step)} does not fit on one face and goes on overleaf",
            place(card),
            hint="split the step in two, or print on a larger stock",
        )
        for step in plan.split
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


def engine(card: Card, message: str) -> Problem:
    return error("printing", f"card {card.id}: {message}", place(card))


def joined(message: str) -> Problem:
    return error("printing", message, Place("deck"))
