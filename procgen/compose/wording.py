"""How a card speaks of the names in its conditions: the `Wording` that formula.alternatives asks."""

from __future__ import annotations

from procgen.compose.spoken import Speaker, axis_word
from procgen.formula import Cell
from procgen.formula.words import Clause, Figured, alternatives
from procgen.load.names import FamilyName
from procgen.model.card import Prose, Run, plain
from procgen.model.formula import Among, Expr, Formula, Logic, Name
from procgen.model.procedure import Decision, Reading
from procgen.model.workshop import Trait
from procgen.units.table import COUNT


class CardWording:
    """Answers by what a card's Speaker knows of each name."""

    def __init__(self, speaker: Speaker) -> None:
        self.speaker = speaker

    def title(self, name: str) -> str:
        return self.speaker.title(name)

    def choice_word(self, name: str, word: str) -> str:
        return self.speaker.word(name, word)

    def clause(self, name: str) -> str:
        spec = self.speaker.meaning(name).spec if name else None
        return spec.clause if isinstance(spec, Trait) else ""

    def stands_apart(self, name: str) -> bool:
        return bool(name) and isinstance(self.speaker.meaning(name).spec, (Trait, FamilyName))

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

    def counts(self, name: str) -> bool:
        spec, show = self.speaker.meaning(name).spec, self.speaker.show_of(name)
        if isinstance(spec, Reading):
            return spec.dimension == "number"
        return show.unit is COUNT and show.step == 1

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


def waits_on(when: Formula | None, speaker: Speaker, each: tuple[str, ...] = ()) -> Prose | None:
    """None where the family's layout excludes it; else what it still depends on, () for nothing.

    What depends on a trait that is not yet known stands: leaving it out could cost the engine.
    """
    if when is None:
        return ()
    left = {variant: scope.left(when.tree, {}) for variant, scope in speaker.scopes.items()}
    there = {variant: one for variant, one in left.items() if not isinstance(one, Cell) or one.holds}
    if not there:
        return None
    waiting = next((one for one in there.values() if not isinstance(one, Cell)), None)
    said = () if waiting is None else _outcome(waiting, speaker, each)
    if len(there) == len(left):
        return said
    which = Run(f"it is the {' or '.join(there)}")
    return (which, Run(" and "), *said) if said else (which,)


def only_if_said(when: Formula | None, speaker: Speaker, waits: Prose, each: tuple[str, ...]) -> str:
    """What something on a card waits on, within its title: "if “bore”"; "" for nothing, or for what `waits` says."""
    said = waits_on(when, speaker, each)
    return f"if {plain(said)}" if said and said != waits else ""


def _outcome(tree: Expr, speaker: Speaker, each: tuple[str, ...]) -> Prose:
    """A condition as the first words of what waits on it: of a decision the outcome alone, which the reader has just
    come to.
    """
    if isinstance(tree, Logic) and tree.operator == "and":
        parts = [_outcome(term, speaker, each) for term in tree.terms]
        return tuple(run for number, part in enumerate(parts) for run in (Run(" and "),)[:number] + part)
    if isinstance(tree, Among) and isinstance(tree.of, Name):
        name = tree.of.name
        if isinstance(speaker.meaning(name).spec, Decision):
            words = dict.fromkeys(f"“{speaker.word(name, word)}”" for word in tree.words)
            return (Run("not " * tree.negated + " or ".join(words)),)
    return one_line(tree, speaker, each)


def _prose(clause: Clause) -> Prose:
    return tuple(Run(p.text, figure=True) if isinstance(p, Figured) else Run(p) for p in clause)
