"""Limits of a value that nothing could lie within.

What they come to is worked out for each family by itself, and told for all families together.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from procgen.check.context import Context
from procgen.compose import Bench
from procgen.compose.card import speaker_for
from procgen.compose.spoken import Speaker
from procgen.files.problems import Place, Problem, Related, error
from procgen.formula import State, names
from procgen.model.family import Family
from procgen.model.formula import Formula, Name
from procgen.model.procedure import Limits
from procgen.model.workshop import Workshop
from procgen.units.compare import less

Bounded = Sequence[Any]
"""Of a value with both limits, as plain data: its card, its name, the family, and where the least is over the most how
much each is, in words; "" where they are the right way round."""


def bounded(context: Context) -> list[Bounded]:
    """Each value whose limits the families' figures alone settle."""
    return [
        [card, name, family, said]
        for family, made in context.benches.items()
        for card in context.whole_cards(next(iter(made.values())))
        for name, said in _of_card(card, made)
    ]


def idle(context: Context) -> Iterator[Problem]:
    """A limit that is the value itself, which nothing could exceed, or a least and a most that are one and the same."""
    for procedure, _, _ in context.cards():
        for name, value in procedure.values.items():
            sides = [] if value.limits is None else [side for side in (value.limits.min, value.limits.max) if side]
            trees = [side.tree for side in sides]
            if own := next((side for side in sides if name in names(side.tree)), None):
                message, hint = (
                    f"a limit of `{name}` is `{name}` again: it would let anything pass",
                    "name another figure",
                )
                yield error("idle-limit", message, own.text.place, hint)
            elif len(trees) == 2 and trees[0] == trees[1]:
                message, hint = f"`min` and `max` of `{name}` are the same", "leave one out, or mend it"
                yield error("idle-limit", message, sides[1].text.place, hint)


def crossed(workshop: Workshop, found: Sequence[Bounded]) -> Iterator[Problem]:
    """A value's limits the wrong way round: by the card, where that is so in all families that know both; else by the
    figures of those in which it is.
    """
    by_value: dict[tuple[str, str], dict[str, str]] = {}
    for card, name, family, said in found:
        by_value.setdefault((card, name), {})[family] = said
    for (card, name), said_by in by_value.items():
        value = workshop.procedures[card].values.get(name)  # None where families add it
        if value is None or value.limits is None:
            continue
        wrong = {family: said for family, said in said_by.items() if said}
        is_by_card = len(wrong) == len(said_by)
        for family, said in list(wrong.items())[: 1 if is_by_card else None]:
            whose = ", ".join(workshop.families[id].name for id in (wrong if is_by_card else (family,)))
            message = f"`min` of `{name}` is over its `max`, {said}: nothing could lie between them ({whose})"
            place, *more = _places(value.limits, None if is_by_card else workshop.families[family])
            related = tuple(Related(other, "the other one") for other in more)
            yield error("limits-crossed", message, place, "exchange the two, or mend the one that is wrong", related)


def _of_card(card: str, made: Mapping[str, Bench]) -> Iterator[tuple[str, str]]:
    speaker = speaker_for(card, made)
    for name, value in speaker.first.procedure.values.items():
        if value.limits is not None and value.limits.min is not None and value.limits.max is not None:
            said = list(_said(name, value.limits.min, value.limits.max, value.each, speaker))
            if said:
                yield name, next(filter(None, said), "")


def _said(name: str, min: Formula, max: Formula, each: tuple[str, ...], speaker: Speaker) -> Iterator[str]:
    dimension = speaker.show_of(name).unit.dimension
    for scope in speaker.scopes.values():
        for member in scope.indices(each):
            least, most = scope.cell(min, member), scope.cell(max, member)
            if least.state is State.KNOWN and most.state is State.KNOWN:
                is_over = less(most.number, least.number, dimension)
                yield f"{speaker.in_words(name, least)} over {speaker.in_words(name, most)}" if is_over else ""


def _places(limits: Limits, family: Family | None) -> list[Place]:
    """Where the least is written; of a family's own limits, where it states those that are its figures."""
    sides = [side for side in (limits.min, limits.max) if side is not None]
    facts = [family.fact(side.tree.name) for side in sides if family is not None and isinstance(side.tree, Name)]
    return [fact.place for fact in facts if fact is not None] or [sides[0].text.place]
