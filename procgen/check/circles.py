"""Names that need themselves, by way of formulas, conditions and decisions: they could never be worked out."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from graphlib import CycleError, TopologicalSorter

from procgen.check.context import Context
from procgen.compose import Lexicons
from procgen.compose.alike import Alike
from procgen.compose.names import Meaning
from procgen.files.problems import Place, Problem, Related, error
from procgen.model.formula import Formula
from procgen.model.procedure import Decision, Procedure, Reading, ValueSpec

Node = tuple[str, str]
"""A card, and a name of its own."""

Spec = ValueSpec | Reading | Decision


def circles(context: Context) -> Iterator[Problem]:
    """A value, reading or decision that needs itself, by way of others or at once."""
    alike = context.benches.common.alike
    if context.has_deck:
        yield from _among(context.lexicons, alike, "")
    for id, family in context.workshop.families.items():
        if family.amendments:
            yield from _among(next(iter(context.benches[id].values())).lexicons, alike, family.place.path)


def _among(lexicons: Lexicons, alike: Alike, file: str) -> Iterator[Problem]:
    """Every circle once. `file` is that of the family that changes the cards: what is written there is blamed first."""
    graph = {node: needed for card in lexicons.procedures for node, needed in _needs(card, lexicons, alike)}
    while True:
        try:
            TopologicalSorter(graph).prepare()
            return
        except CycleError as found:
            circle: list[Node] = list(reversed(found.args[1]))[:-1]
        places = {node: _place(lexicons.procedures[node[0]], node[1]) for node in circle}
        start = min(range(len(circle)), key=lambda at: (places[circle[at]].path != file, places[circle[at]]))
        yield _told([*circle[start:], *circle[:start]], places)
        del graph[circle[start]]


def _told(circle: list[Node], places: Mapping[Node, Place]) -> Problem:
    first, *others = circle
    said = {(card, name): name if card == first[0] else f"{card.replace('-', '_')}.{name}" for card, name in circle}
    way = " → ".join(said[node] for node in (*circle, first))
    related = tuple(Related(places[node], f"`{said[node]}` needs the next one") for node in others)
    hint = "work one of them out from something else"
    return error("circle", f"`{said[first]}` needs itself: {way}", places[first], hint, related)


def _needs(card: str, lexicons: Lexicons, alike: Alike) -> Iterator[tuple[Node, list[Node]]]:
    """Each name of the card's own, and the names of procedures that have a say in it."""
    procedure = lexicons.procedures[card]
    meanings = lexicons.card(card).meanings

    def nodes(asked: Iterator[str]) -> list[Node]:
        found = ((name, meanings.get(name)) for name in dict.fromkeys(asked))
        return [(meaning.card.id, _own(name, meaning, card)) for name, meaning in found if meaning and meaning.card]

    for kind in (procedure.values, procedure.readings, procedure.decisions):
        for name, spec in kind.items():
            yield (card, name), nodes(_asked(spec, alike))
    stations = (reading.at for reading in procedure.readings.values())
    yield (card, "depth"), nodes(_names(alike, *stations))


def _own(name: str, meaning: Meaning, card: str) -> str:
    """The name as its own card calls it."""
    return name if meaning.card is not None and meaning.card.id == card else name.partition(".")[2]


def _asked(spec: Spec, alike: Alike) -> Iterator[str]:
    yield from (axis for axis in spec.each if axis == "depth")
    match spec:
        case ValueSpec():
            yield from _names(alike, spec.when, spec.formula)
        case Reading():
            yield from spec.least
            yield from _names(alike, spec.when, spec.expect.near if spec.expect is not None else None)
        case Decision():
            yield from _names(alike, spec.when, *(branch.when for branch in spec.branches))


def _names(alike: Alike, *formulas: Formula | None) -> Iterator[str]:
    yield from (name for formula in formulas if formula is not None for name in alike.results(formula.tree).names)


def _place(procedure: Procedure, name: str) -> Place:
    specs: dict[str, Spec] = {**procedure.values, **procedure.readings, **procedure.decisions}
    stations = (r.at.text.place for r in procedure.readings.values() if r.at is not None)
    return specs[name].place if name in specs else next(stations, procedure.place)
