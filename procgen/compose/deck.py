"""All the cards of a family, in the order of work."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import replace

from procgen.compose.bench import Bench
from procgen.compose.card import compose_card, stage_of
from procgen.compose.common import Common
from procgen.compose.figures import Units, units_for, written
from procgen.compose.live import live, opened
from procgen.compose.scenes import outline_of
from procgen.load.names import family_names
from procgen.model.card import Deck, FamilySheet, Figure, Row, Shop
from procgen.model.family import Family
from procgen.model.workshop import Workshop
from procgen.trade.traits import CONCLUSIONS
from procgen.units.quantity import Quantity

FIRST_SIZES = ("geometry.bore", "geometry.stroke", "geometry.rod_length", "geometry.compression_height")
"""What a family needs before anything else: listed as missing until it is there."""


def benches(workshop: Workshop, family: Family, common: Common | None = None) -> Mapping[str, Bench]:
    """A bench for each variant, by the name that prints; one under "" for a family without variants."""
    common = common or Common(workshop)
    if not family.variants:
        return {"": Bench(workshop, family, None, common=common)}
    return {variant.name: Bench(workshop, family, variant, common=common) for variant in family.variants}


def compose_deck(
    workshop: Workshop,
    family: Family,
    made: Mapping[str, Bench] | None = None,
    only: Collection[str] = (),
    is_live: bool = True,
) -> Deck:
    """The family's deck, or `only` some cards of it. `made`: benches that are there already, so that nothing is worked
    out twice. `is_live`: with what its pages need to judge readings."""
    made = made or benches(workshop, family)
    cards = [
        compose_card(id, made, stage_of(id, workshop))
        for id, _ in workshop.deck
        if id in workshop.procedures and (not only or id in only)
    ]
    deck = Deck(family_sheet(workshop, family), tuple(cards))
    return enlivened(deck, lives(deck, made)) if is_live else deck


def lives(deck: Deck, made: Mapping[str, Bench]) -> dict[str, str | None]:
    """What the pages of its cards need to judge readings, by card; see `live`."""
    judging = opened(made)
    return {card.id: live(card.id, judging) for card in deck.cards}


def enlivened(deck: Deck, lives: Mapping[str, str | None]) -> Deck:
    return replace(deck, cards=tuple(replace(card, live=lives[card.id]) for card in deck.cards))


def shop(workshop: Workshop) -> Shop:
    return Shop(workshop.name, workshop.site, workshop.approved_by, workshop.approved_on)


def family_sheet(workshop: Workshop, family: Family) -> FamilySheet:
    """What a family's own page shows beside its deck."""
    units = units_for(workshop, family)
    return FamilySheet(
        id=family.id,
        name=family.name,
        describe=family.describe,
        variants=tuple((variant.id, variant.name) for variant in family.variants),
        sizes=tuple(_sizes(family, units)),
        traits=tuple(_traits(workshop, family)),
        missing=tuple(_missing(family)),
        outline=outline_of(workshop, family, units),
    )


def _sizes(family: Family, units: Units) -> Iterator[Row]:
    """What the family states of itself, a figure a variant where they differ."""
    for name in family_names().values():
        if name.axes or name.kind != "quantity":
            continue
        found = {variant.name: family.fact(name.name, variant) for variant in family.variants} or {
            "": family.fact(name.name)
        }
        figures = {
            v: written(f.value, units) for v, f in found.items() if f is not None and isinstance(f.value, Quantity)
        }
        distinct = list(dict.fromkeys(figures.values()))
        if len(distinct) == 1:
            yield Row(name.name, name.title, (distinct[0],))
        elif distinct:
            yield Row(name.name, name.title, tuple(_named(figure, v) for v, figure in figures.items()))


def _named(figure: Figure, variant: str) -> Figure:
    return Figure(figure.text, figure.unit, figure.relation, figure.also, figure.state, variant)


def _traits(workshop: Workshop, family: Family) -> Iterator[tuple[str, str, str]]:
    for trait in workshop.traits.values():
        if trait.concluded_by:
            word, reason = CONCLUSIONS[trait.concluded_by](family)
        else:
            word, reason = family.traits.get(trait.id, (None, None))[0], "stated"
        if word is not None:
            yield trait.title, trait.values.get(word, word), str(reason)
        else:
            yield trait.title, "not yet known", ""


def _missing(family: Family) -> Iterator[str]:
    variants = family.variants or (None,)
    for name in FIRST_SIZES:
        facts = [family.fact(name, variant) for variant in variants]
        if any(fact is None or fact.value is None for fact in facts):
            yield family_names()[name].title
