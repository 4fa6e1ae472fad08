"""What a card has for engines that are built as none of the shop's families is.

Which of it a family has is worked out for each by itself, and told for all families together.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from procgen.check.context import Context
from procgen.compose import CardScope
from procgen.files.problems import Place, Problem, Related, warning
from procgen.formula import names, nodes
from procgen.model.formula import Among, Formula, Name, Not
from procgen.model.procedure import Procedure
from procgen.model.workshop import Workshop
from procgen.units.lists import listed
from procgen.units.nearest import did_you_mean

AHEAD = "ahead of a family that is to come,"

Thing = tuple[str, str]
"""What it is, and its name: ("step", "brush"), ("hold point", "")."""

Built = Sequence[Any]
"""A family's traits, word by id, and [card, what, name, whether it has it] of each thing that waits on a trait."""


def built(context: Context) -> list[Built]:
    found: list[Built] = []
    for made in context.benches.values():
        bench = next(iter(made.values()))
        traits = context.workshop.traits
        words = {id: cell.value for id, trait in traits.items() if (cell := bench.trait(trait)).value is not None}
        there = [
            [card, *thing, any(_is_there(one.card(card), when, each) for one in made.values())]
            for card in context.whole_cards(bench)
            for thing, (when, each) in _waiting(bench.procedures[card]).items()
            if any(name in traits for name in bench.alike.results(when.tree).names)
        ]
        found.append([words, there])
    return found


def unseen(workshop: Workshop, found: Sequence[Built]) -> Iterator[Problem]:
    """A step, a hold point or a row that no family has, since none is built that way: a slip, or ahead of a family that
    is yet to come, which the shop says under `awaits`. Nobody would ever see it.
    """
    seen: dict[tuple[str, str, str], bool] = {}
    has: dict[str, set[str]] = defaultdict(set)
    for words, there in found:
        for id, word in words.items():
            has[id].add(word)
        for card, what, name, is_there in there:
            seen[card, what, name] = seen.get((card, what, name), False) or is_there
    alike: dict[str, list[tuple[Place, str]]] = defaultdict(list)
    hints: dict[str, str] = {}
    for (card, what, name), is_seen in seen.items():
        waiting = _waiting(workshop.procedures[card]).get((what, name))
        if is_seen or waiting is None or _is_awaited(waiting[0], workshop):
            continue
        asked, place, hint = _asked(waiting[0], has, workshop)
        alike[asked].append((place, f"{what} `{name}`" if name else what))
        hints[asked] = hint
    for asked, things in alike.items():
        (place, thing), *more = things
        what = f"{thing} and {len(more)} more are" if more else f"{thing} is"
        message = f"{what} for {asked}; no family here is built that way"
        yield warning("unseen", message, place, hints[asked], tuple(Related(*other) for other in more))


def _waiting(card: Procedure) -> Mapping[Thing, tuple[Formula, tuple[str, ...]]]:
    """All that a card has on a condition, with the condition and what there is one of it for each of."""
    found: dict[Thing, tuple[Formula | None, tuple[str, ...]]] = {}
    found |= {("step", step.id): (step.when, ()) for step in card.steps}
    found |= {("hold point", ""): (card.hold.when if card.hold is not None else None, ())}
    found |= {("value", value.name): (value.when, value.each) for value in card.values.values()}
    found |= {("reading", reading.name): (reading.when, reading.each) for reading in card.readings.values()}
    found |= {("decision", decision.name): (decision.when, decision.each) for decision in card.decisions.values()}
    return {thing: (when, each) for thing, (when, each) in found.items() if when is not None}


def _is_there(scope: CardScope, when: Formula, each: tuple[str, ...]) -> bool:
    """What depends on something that is not yet known is there, and so is what there may be members for."""
    left = scope.lefts(when.tree, each)
    return not left or any(one is not False for one in left)


def _is_awaited(when: Formula, workshop: Workshop) -> bool:
    """Whether the shop says so; also where its word is misspelt, which is told by itself."""
    return any(
        (word in node.words) is not node.negated or word not in workshop.traits[node.of.name].values
        for node in nodes(when.tree)
        if isinstance(node, Among) and isinstance(node.of, Name) and node.of.name in workshop.traits
        for word, _ in workshop.awaits.get(node.of.name, ())
    )


def _asked(when: Formula, has: Mapping[str, set[str]], workshop: Workshop) -> tuple[str, Place, str]:
    """What of a condition no family has, where that stands, and the mend."""
    for node in nodes(when.tree):
        if not (isinstance(node, Among) and isinstance(node.of, Name) and node.of.name in workshop.traits):
            continue
        id, known = node.of.name, has[node.of.name]
        words = [word for word in workshop.traits[id].values if (word in node.words) is not node.negated]
        if words and not known & set(words) and not any(isinstance(one, Not) for one in nodes(when.tree)):
            near = next(filter(None, (did_you_mean(word, known) for word in words)), "")
            there = f"{near} " * bool(near) + f"here it is {listed(sorted(known), 'or')}"
            ahead = f"{AHEAD} write `awaits: {{{id}: {words[0]}}}` in workshop.yaml"
            return f"`{id}` {listed(words, 'or')}", when.text.at(node.word_ats[0]), f"{there}; {ahead}"
    traits = ", ".join(f"`{name}`" for name in names(when.tree) if name in workshop.traits)
    asked, ahead = " ".join(when.text.value.split()), f"{AHEAD} name one of {traits} under `awaits` in workshop.yaml"
    return f"`{asked}`", when.text.place, f"mend the condition; {ahead}"
