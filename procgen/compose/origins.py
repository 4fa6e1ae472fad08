"""Where a value comes from, down to the lines of YAML."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.compose.spoken import Bound, Speaker
from procgen.formula import formula_text
from procgen.load.names import FamilyName
from procgen.model.card import Figure, Origin
from procgen.model.formula import Formula
from procgen.model.procedure import Decision, Reading, ValueSpec
from procgen.model.workshop import Rule, Trait
from procgen.trade.derived import Derived
from procgen.trade.traits import CONCLUSIONS
from procgen.units.lists import listed

Told = dict[tuple[str, str], Origin]
"""Those that are told already, by card and name."""


def origin(name: str, speaker: Speaker, bound: Bound | None = None, told: Told | None = None) -> Origin:
    """The value's figure, its formula or source and place, and the same of each name in the formula. `told`: of the
    same member of the family, if any.
    """
    told = {} if told is None else told
    key = (speaker.first.procedure.id, name)
    if key not in told:
        told[key] = _origin(name, speaker, bound or {}, told)
    return told[key]


def _origin(name: str, speaker: Speaker, bound: Bound, told: Told) -> Origin:
    meaning = speaker.meaning(name)
    spec = meaning.spec
    figure = _figure(name, speaker, bound)
    family = speaker.first.bench.family.place
    match spec:
        case ValueSpec(formula=Formula(tree=tree)):
            own = _card_of(name, speaker)
            inputs = tuple(origin(used, own, bound, told) for used in speaker.first.names(tree))
            return Origin(name, spec.title, figure, formula_text(tree), spec.source, str(spec.place), inputs)
        case ValueSpec() | Rule():
            source, place = spec.source, spec.place
        case FamilyName():
            given = {axis: bound[axis] for axis in spec.axes if axis in bound}
            at = given if len(given) == len(spec.axes) else next(speaker.first.indices(spec.axes), {})
            fact = speaker.first.fact(spec, at) if at.keys() >= set(spec.axes) else None
            known = fact is not None and fact.value is not None
            place = fact.place if fact is not None else family
            source = (
                (fact.source if fact is not None else "") or "the family's own figure" if known else "not yet known"
            )
        case Reading():
            source, place = f"read at the stand: {spec.where or spec.how}".rstrip(": "), spec.place
        case Decision():
            source, place = "decided on this card", spec.place
        case Trait():
            source, place = _trait_source(spec, speaker), spec.place
        case Derived():
            source, place = f"worked out from the layout: {spec.source}", family
        case _:
            source, place = "counted in the family", family
    return Origin(name, speaker.title(name), figure, "", source, str(place))


def walk(root: Origin, depth: int = 0) -> Iterator[tuple[int, Origin]]:
    """An origin and all below it, each with its depth."""
    yield depth, root
    for below in root.inputs:
        yield from walk(below, depth + 1)


def _card_of(name: str, speaker: Speaker) -> Speaker:
    """Who speaks of what stands in the formula of `name`: another card's value uses that card's names."""
    card = speaker.meaning(name).card
    return speaker if card is None else speaker.of_card(card.id)


def _figure(name: str, speaker: Speaker, bound: Bound) -> Figure:
    axes = speaker.first.axes(speaker.meaning(name))
    if any(axis not in bound for axis in axes):
        return Figure(f"one for each {listed([axis.replace('_', ' ') for axis in axes])}")
    figures = speaker.figures(name, {axis: bound[axis] for axis in axes})
    return figures[0]


def _trait_source(trait: Trait, speaker: Speaker) -> str:
    if not trait.concluded_by:
        return "stated by the family"
    word, reason = CONCLUSIONS[trait.concluded_by](speaker.first.bench.family)
    return f"concluded from the layout: {reason}" if word is not None else "the layout is not yet known"
