"""Formulas: every name is there, every dimension and word fits."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from procgen.check.context import Context
from procgen.compose import Lexicon
from procgen.compose.names import LOCAL_AXES
from procgen.files.problems import Place, Problem, Related, error
from procgen.formula import TRUTH, Type, infer, names
from procgen.model.formula import Formula
from procgen.model.procedure import Procedure, Reading, ValueSpec
from procgen.model.workshop import Rule
from procgen.units.dimension import LENGTH, name_of

Asked = tuple[Formula | None, tuple[str, ...], Type | None]
"""A formula, what there is one of it for each of, and what it must give."""


def formulas(context: Context) -> Iterator[Problem]:
    """A formula that does not hold together: a name that nothing has, a word that a choice does not offer, a length
    added to a torque, one value wanted where there are many. It is told at its column, with the nearest right name.
    """
    for procedure, lexicon, _ in context.cards():
        for formula, each, wanted in _asked(procedure, lexicon):
            if formula is not None and not any(map(context.asks_the_lost, names(formula.tree))):
                yield from (
                    _with_rules(problem, formula, lexicon) for problem in infer(formula, lexicon, each, wanted)[1]
                )


def _with_rules(problem: Problem, formula: Formula, lexicon: Lexicon) -> Problem:
    """What does not fit may be a rule of the shop that was given the wrong unit: each is shown where it is stated."""
    if problem.code != "formula-dimension":
        return problem
    rules = (meaning.spec for name in names(formula.tree) if (meaning := lexicon.meanings.get(name)) is not None)
    stated = tuple(
        Related(rule.place, f"`shop.{rule.name}` is {_a(name_of(rule.value.dimension))}")
        for rule in rules
        if isinstance(rule, Rule)
    )
    return replace(problem, related=(*problem.related, *stated))


def same_names(context: Context) -> Iterator[Problem]:
    """A name that a card has twice, as a value and a reading, say: a formula could mean either."""
    for procedure, _, _ in context.cards():
        first: dict[str, Place] = {}
        for kind in (procedure.readings, procedure.decisions, procedure.values):
            for name, spec in kind.items():
                if name in first:
                    related = (Related(first[name], "first used here"),)
                    message, hint = f"`{name}` names two things on this card", "give one of them another name"
                    yield error("same-name", message, spec.place, hint, related)
                elif name in LOCAL_AXES and any(name in reading.each for reading in procedure.readings.values()):
                    message, hint = f"`{name}` is what readings of this card are over", "give it another name"
                    yield error("same-name", message, spec.place, hint)
                first.setdefault(name, spec.place)


def shown_units(context: Context) -> Iterator[Problem]:
    """A value's `show:` in a unit that measures something else than the value does."""
    for procedure, lexicon, _ in context.cards():
        for value in procedure.values.values():
            found = lexicon.type_of(value.name)
            if found is None or value.show is None or found.kind == "truth":
                continue
            if value.show.unit.dimension != found.dimension:
                says, is_ = name_of(value.show.unit.dimension), name_of(found.dimension)
                message = f"`{value.name}` is shown as {_a(says)}, and its formula gives {_a(is_)}"
                hint = "change the unit in `show`, or the formula"
                yield error("show-unit", message, value.show_place or value.place, hint)


def _asked(procedure: Procedure, lexicon: Lexicon) -> Iterator[Asked]:
    for value in procedure.values.values():
        yield from _of_value(value, lexicon)
    for reading in procedure.readings.values():
        yield from _of_reading(reading, lexicon)
    for decision in procedure.decisions.values():
        yield decision.when, decision.each, TRUTH
        yield from ((branch.when, decision.each, TRUTH) for branch in decision.branches)
        yield from ((buy.count, decision.each, Type("number")) for branch in decision.branches for buy in branch.buy)
        yield from ((formula, decision.each, TRUTH) for formula, _ in decision.impossible)
    for step in procedure.steps:
        yield step.when, (), TRUTH
    if procedure.hold is not None:
        yield procedure.hold.when, (), TRUTH


def _of_value(value: ValueSpec, lexicon: Lexicon) -> Iterator[Asked]:
    yield value.formula, value.each, None
    yield value.when, value.each, TRUTH
    if value.limits is not None:
        found = lexicon.type_of(value.name)
        wanted = None if found is None else Type("number", found.dimension)
        yield value.limits.min, value.each, wanted
        yield value.limits.max, value.each, wanted


def _of_reading(reading: Reading, lexicon: Lexicon) -> Iterator[Asked]:
    each = tuple(axis for axis in reading.each if axis not in LOCAL_AXES)
    yield reading.when, each, TRUTH
    yield reading.at, (), Type("list", LENGTH)
    if reading.expect is not None:
        found = lexicon.type_of(reading.name)
        yield reading.expect.near, each, None if found is None else Type("number", found.dimension)


def _a(word: str) -> str:
    return f"{'an' if word[0] in 'aeiou' else 'a'} {word}"
