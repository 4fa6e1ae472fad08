"""How a card speaks of the names in its conditions: the `Wording` that formula.alternatives asks."""

from __future__ import annotations

from procgen.compose.spoken import Speaker, axis_word
from procgen.formula.words import Clause, Figured, alternatives
from procgen.load.names import FamilyName
from procgen.model.card import Prose, Run
from procgen.model.formula import Expr
from procgen.model.procedure import Decision, Reading
from procgen.model.workshop import Trait


class CardWording:
    def __init__(self, speaker: Speaker) -> None:
        self.speaker = speaker

    def title(self, name: str) -> str:
        return self.speaker.title(name)

    def choice_word(self, name: str, word: str) -> str:
        return self.speaker.word(name, word)

    def options(self, name: str) -> tuple[str, ...]:
        spec = self.speaker.meaning(name).spec
        match spec:
            case Reading():
                return tuple(spec.choices)
            case Trait():
                return tuple(spec.values)
            case Decision():
                return tuple(branch.id for branch in spec.branches)
            case FamilyName():
                return spec.words
            case _:
                return ()

    def figure(self, name: str) -> str | None:
        return self.speaker.constant(name)

    def axes(self, name: str) -> tuple[str, ...]:
        return self.speaker.first.axes(self.speaker.meaning(name))

    def each_word(self, axis: str) -> str:
        return axis_word(axis)


def conditions(tree: Expr, speaker: Speaker, each: tuple[str, ...]) -> tuple[tuple[Prose, ...], ...]:
    """A condition as alternatives of clauses, ready to print."""
    return tuple(tuple(map(_prose, clauses)) for clauses in alternatives(tree, CardWording(speaker), each))


def one_line(tree: Expr, speaker: Speaker, each: tuple[str, ...] = ()) -> Prose:
    """A condition as one line of prose."""
    runs: list[Run] = []
    for number, clauses in enumerate(conditions(tree, speaker, each)):
        runs += [Run(" or ")] if number else []
        for place, clause in enumerate(clauses):
            runs += [Run(" and "), *clause] if place else clause
    return tuple(runs)


def _prose(clause: Clause) -> Prose:
    return tuple(Run(p.text, figure=True) if isinstance(p, Figured) else Run(p) for p in clause)
