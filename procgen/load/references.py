"""Whether what one file calls by an id is there. Names in formulas are looked up later, by those who read formulas."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path

from procgen.files.document import Cursor
from procgen.files.home import resources
from procgen.files.problems import Place, Problem, Related, error
from procgen.load.reader import placed
from procgen.model.family import Family
from procgen.model.procedure import CautionRef, Procedure, Step
from procgen.model.workshop import Workshop
from procgen.units.nearest import did_you_mean

Found = Iterator[Problem]


def reference_problems(workshop: Workshop, file: Cursor, broken: frozenset[str]) -> Found:
    """Everything called by an id that isn't there.

    `file` is the workshop's own file; `broken` procedures are there, only not loaded.
    """
    yield from _deck(workshop, broken)
    yield from _known("stock", placed(file.get("stock")), workshop.stocks)
    own = {gauge.place: gauge for job in workshop.jobs.values() for gauge in job.gauges.values()}
    gauges = (*workshop.gauges.values(), *(gauge for place, gauge in own.items() if place.path != file.place.path))
    yield from _known("gauge", ((gauge.kind, gauge.place) for gauge in gauges), gauge_kinds(workshop))
    for trait, words in workshop.awaits.items():
        for value, place in words:
            yield from _trait_word(trait, value, place, workshop)
    for tool in workshop.tools.values():
        for trait, (value, place) in tool.only.items():
            yield from _trait_word(trait, value, place, workshop)
    signs = _signs(workshop)
    for caution in workshop.cautions.values():
        for sign in caution.symbols:
            if sign not in signs:
                hint = f"those that can be drawn: {', '.join(signs)}"
                yield error("no-sign", f"there is no sign `{sign}`", caution.place, hint)
    for procedure in workshop.procedures.values():
        yield from _procedure(procedure, workshop)
    for family in workshop.families.values():
        yield from _traits(family, workshop)
        yield from _amendments(family, workshop)


def gauge_kinds(workshop: Workshop) -> tuple[str, ...]:
    """The kinds of gauge that readings may ask for: the tools that measure, as formulas would write them."""
    return tuple(tool.id.replace("-", "_") for tool in workshop.tools.values() if tool.kind == "gauge")


def _signs(workshop: Workshop) -> tuple[str, ...]:
    """The safety signs that can be drawn: the package's, and a workshop's own."""
    folders = (folder / "drawings" / "signs" for folder in (resources("templates"), workshop.root / "templates"))
    return tuple(sorted({file.stem for folder in folders for file in folder.glob("*.svg")}))


def _deck(workshop: Workshop, broken: frozenset[str]) -> Found:
    first: dict[str, Place] = {}
    stems = {Path(card.place.path).stem: card for card in workshop.procedures.values()}
    for card, place in workshop.deck:
        if card in first:
            seen = (Related(first[card], "first listed here"),)
            yield error("deck-twice", f"`{card}` is in the deck twice", place, "keep one of the two", seen)
        first.setdefault(card, place)
        if card in stems and card not in workshop.procedures:
            other = stems[card]
            message = f"the deck lists `{card}`; the file of that name gives itself the id `{other.id}`"
            yield error("deck-no-card", message, other.place, f"write `id: {card}`, or list `{other.id}` in the deck")
        elif card not in workshop.procedures and card not in broken:
            hint = did_you_mean(card, workshop.procedures)
            yield error("deck-no-card", f"the deck lists `{card}`, but no procedure has that id", place, hint)


def _procedure(procedure: Procedure, workshop: Workshop) -> Found:
    yield from _cautions(procedure.cautions, workshop)
    yield from _known("tool", procedure.tools, workshop.tools)
    yield from _known("trait", procedure.traits, workshop.traits)
    kinds = gauge_kinds(workshop)
    asked = ((reading.gauge, reading.place) for reading in procedure.readings.values() if reading.gauge)
    yield from _known("gauge", asked, kinds)
    yield from _steps(procedure.steps, workshop)


def _steps(steps: Iterable[Step], workshop: Workshop) -> Found:
    for step in steps:
        yield from _cautions(step.cautions, workshop)


def _amendments(family: Family, workshop: Workshop) -> Found:
    for amendment in family.amendments.values():
        for cautions in amendment.cautions.values():
            yield from _cautions(cautions, workshop)
        for steps in (*amendment.before.values(), *amendment.after.values()):
            yield from _steps(steps, workshop)
        for fields in amendment.replace.values():
            replaced = fields.get("cautions")
            if isinstance(replaced, tuple):
                yield from _cautions(replaced, workshop)


def _cautions(refs: Iterable[CautionRef], workshop: Workshop) -> Found:
    yield from _known("caution", ((ref.id, ref.place) for ref in refs), workshop.cautions)


def _traits(family: Family, workshop: Workshop) -> Found:
    for id, (value, place) in family.traits.items():
        trait = workshop.traits.get(id)
        if trait is not None and trait.concluded_by:
            message = f"`{id}` is concluded from the layout and may not be typed"
            yield error("trait-concluded", message, place, "the layout says it; leave it out")
        else:
            yield from _trait_word(id, value, place, workshop)


def _trait_word(id: str, value: str, place: Place, workshop: Workshop) -> Found:
    trait = workshop.traits.get(id)
    if trait is None:
        yield from _known("trait", [(id, place)], workshop.traits)
    elif value not in trait.values:
        hint = did_you_mean(value, trait.values) or f"it is one of: {', '.join(trait.values)}"
        yield error("trait-value", f"`{id}` can't be `{value}`", place, hint)


def _known(what: str, asked: Iterable[tuple[str, Place]], there: Iterable[str]) -> Found:
    known = tuple(there)
    for id, place in asked:
        if id not in known:
            yield error(f"no-{what}", f"there is no {what} `{id}`", place, did_you_mean(id, known))
