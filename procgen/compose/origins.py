"""Where a value comes from, down to the lines of YAML."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.compose.spoken import Bound, Speaker
from procgen.formula import formula_text, names
from procgen.load.names import FamilyName
from procgen.model.card import Figure, Origin
from procgen.model.procedure import Decision, Reading, ValueSpec
from procgen.model.workshop import Rule, Trait
from procgen.trade.derived import Derived
from procgen.trade.traits import CONCLUSIONS


def origin(name: str, speaker: Speaker, bound: Bound | None = None) -> Origin:
    """The value's figure, its formula or source and place, and the same of each name in the formula."""
    bound = bound or {}
    meaning = speaker.meaning(name)
    spec = meaning.spec
    figure = _figure(name, speaker, bound)
    match spec:
        case ValueSpec(formula=None):
            return Origin(name, spec.title, figure, "", spec.source, str(spec.place))
        case ValueSpec(formula=formula) if formula is not None:
            inputs = tuple(origin(used, speaker, bound) for used in dict.fromkeys(names(formula.tree)))
            return Origin(name, spec.title, figure, formula_text(formula.tree), spec.source, str(spec.place), inputs)
        case FamilyName():
            fact = speaker.first.fact(spec, bound or next(speaker.first.indices(spec.axes)))
            place = str(fact.place) if fact is not None else str(speaker.first.bench.family.place)
            source = "not yet known" if fact is None or fact.value is None else fact.source or "the family's own figure"
            return Origin(name, spec.title, figure, "", source, place)
        case Rule():
            return Origin(name, spec.title, figure, "", spec.source, str(spec.place))
        case Reading():
            return Origin(
                name,
                spec.title,
                figure,
                "",
                f"read at the stand: {spec.where or spec.how}".rstrip(": "),
                str(spec.place),
            )
        case Decision():
            return Origin(name, spec.title, figure, "", "decided on this card", str(spec.place))
        case Trait():
            return Origin(name, spec.title, figure, "", _trait_source(spec, speaker), str(spec.place))
        case Derived():
            return Origin(
                name,
                spec.title,
                figure,
                "",
                f"worked out from the layout: {spec.source}",
                str(speaker.first.bench.family.place),
            )
        case _:
            return Origin(
                name, meaning.title, figure, "", "counted in the family", str(speaker.first.bench.family.place)
            )


def walk(root: Origin, depth: int = 0) -> Iterator[tuple[int, Origin]]:
    """An origin and all below it, each with its depth."""
    yield depth, root
    for below in root.inputs:
        yield from walk(below, depth + 1)


def _figure(name: str, speaker: Speaker, bound: Bound) -> Figure:
    axes = speaker.first.axes(speaker.meaning(name))
    if any(axis not in bound for axis in axes):
        return Figure("one for each " + " and ".join(axes).replace("_", " "))
    figures = speaker.figures(name, {axis: bound[axis] for axis in axes})
    return figures[0]


def _trait_source(trait: Trait, speaker: Speaker) -> str:
    if not trait.concluded_by:
        return "stated by the family"
    word, reason = CONCLUSIONS[trait.concluded_by](speaker.first.bench.family)
    return f"concluded from the layout: {reason}" if word is not None else "the layout is not yet known"
