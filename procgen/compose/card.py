"""One card, settled."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from procgen.compose.bench import Bench
from procgen.compose.figures import units_for
from procgen.compose.origins import Told, origin
from procgen.compose.paths import names_asked
from procgen.compose.prose import prose
from procgen.compose.revision import revision
from procgen.compose.scenes import all_scenes
from procgen.compose.scope import CardScope
from procgen.compose.spoken import Speaker
from procgen.compose.steps import panels, step_items
from procgen.compose.wording import waits_on
from procgen.model.card import Card, Hold, Origin, Run, Stage
from procgen.model.formula import Formula
from procgen.model.procedure import Decision, Procedure
from procgen.model.workshop import Workshop


def compose_card(id: str, benches: Mapping[str, Bench], stage: Stage) -> Card:
    """The card of one procedure for one family: `benches` holds one a variant, by the name that prints."""
    speaker = speaker_for(id, benches)
    bench, procedure = speaker.first.bench, speaker.first.procedure
    family = bench.family
    card = Card(
        id=id,
        family=family.id,
        family_name=family.name,
        family_describe=family.describe,
        title=procedure.title,
        question=procedure.question,
        stage=stage,
        reason=prose(procedure.reason.value, speaker.fill),
        bring=tuple(_bring(procedure, bench)),
        panels=panels(procedure.cautions, "", speaker),
        steps=tuple(step_items(speaker)),
        hold=_hold(procedure, speaker),
        record=procedure.record,
        revision="",
        address=f"{family.id}/{id}",
        origins=_origins(speaker),
        missing=missing(speaker),
        scenes=all_scenes((step for step in procedure.steps if waits_on(step.when, speaker) is not None), speaker),
    )
    return replace(card, revision=revision(card))


def _bring(procedure: Procedure, bench: Bench) -> Iterator[str]:
    """Its tools by name, without those for engines of another kind, as far as the family says its kind."""
    workshop = bench.workshop
    for id, _ in procedure.tools:
        tool = workshop.tools.get(id)
        if tool is not None and all(
            bench.trait(workshop.traits[trait]).value in (None, word)
            for trait, (word, _) in tool.only.items()
            if trait in workshop.traits
        ):
            yield tool.name


def speaker_for(id: str, benches: Mapping[str, Bench]) -> Speaker:
    scopes: dict[str, CardScope] = {name: bench.card(id) for name, bench in benches.items()}
    bench = next(iter(benches.values()))
    return Speaker(scopes, units_for(bench.workshop, bench.family))


def stage_of(id: str, workshop: Workshop) -> Stage:
    """A card's place in the deck, in which it must be."""
    deck = [workshop.procedures[card] for card, _ in workshop.deck if card in workshop.procedures]
    place = next(number for number, card in enumerate(deck) if card.id == id)
    return Stage(
        number=place + 1,
        name=deck[place].stage,
        total=len(deck),
        before=deck[place - 1].stage if place else "",
        after=deck[place + 1].stage if place + 1 < len(deck) else "",
    )


def missing(speaker: Speaker) -> tuple[str, ...]:
    """What the card needs and the family does not state yet, in words, each once."""
    meanings = speaker.first.lexicon.meanings
    return speaker.not_yet_known(name for name in _asked(speaker) if meanings.get(name) is not None)


def _asked(speaker: Speaker) -> Iterator[str]:
    """Every name that the card shows or decides by for this family."""
    card = speaker.first.procedure
    for step in card.steps:
        if waits_on(step.when, speaker) is None:
            continue
        if step.when is not None:
            yield from speaker.first.names(step.when.tree)
        shown = [name for name, _ in (*step.show, *(step.table.show if step.table else ()))]
        yield from shown
        for value in (card.values[name] for name in shown if name in card.values):
            limits = (value.limits.min, value.limits.max) if value.limits is not None else ()
            yield from (name for limit in limits if limit is not None for name in speaker.first.names(limit.tree))
        for name, _ in step.decide:
            if name in card.decisions and not _is_stated(card.decisions[name], speaker):
                yield from names_asked(card.decisions[name], speaker)


def _is_stated(decision: Decision, speaker: Speaker) -> bool:
    """Whether the family states all that the decision's conditions name: then nothing of them can be missing, and what
    is left of them, which takes long, need not be worked out."""
    meanings = speaker.first.lexicon.meanings
    asked = {
        name
        for branch in decision.branches
        if branch.when is not None
        for name in speaker.first.names(branch.when.tree)
        if meanings.get(name) is not None
    }
    return all(map(speaker.is_known, asked))


def formulas_of(card: Procedure) -> Iterator[Formula]:
    """Every formula that has a say in what the card shows."""
    found: list[Formula | None] = []
    for value in card.values.values():
        limits = (value.limits.min, value.limits.max) if value.limits is not None else ()
        found += (value.formula, value.when, *limits)
    for reading in card.readings.values():
        found += (reading.when, reading.at, reading.expect.near if reading.expect is not None else None)
    for decision in card.decisions.values():
        impossible = (formula for formula, _ in decision.impossible)
        found += (decision.when, *(branch.when for branch in decision.branches), *impossible)
    found += (step.when for step in card.steps)
    found += (card.hold.when,) if card.hold is not None else ()
    yield from (formula for formula in found if formula is not None)


def _hold(procedure: Procedure, speaker: Speaker) -> Hold | None:
    hold = procedure.hold
    waits = waits_on(hold.when, speaker) if hold is not None else None
    if hold is None or waits is None:
        return None
    only_if = (Run("If "), *waits, Run(": ")) if waits else ()
    return Hold((*only_if, *prose(hold.text.value, speaker.fill)), ("fitter", "second")[: hold.signers])


def _origins(speaker: Speaker) -> Mapping[str, Origin]:
    """Of every value of the card, and of all else that stands in a row of its own."""
    card = speaker.first.procedure
    shown = [name for step in card.steps for name, _ in step.show]
    told: Told = {}
    return {name: origin(name, speaker, told=told) for name in dict.fromkeys([*card.values, *shown])}
