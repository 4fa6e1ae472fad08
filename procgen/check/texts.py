"""Texts and references: names in braces, what steps read, show and decide, what nobody uses, how long a step is."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from procgen.check.context import Context
from procgen.compose.prose import holes, stray_brace
from procgen.files.problems import Place, Problem, error, warning
from procgen.files.text import Text
from procgen.formula import names
from procgen.formula.types import mend
from procgen.model.procedure import Procedure, Step

LONGEST_STEP = 45
"""Words of a step, its `right` and `because` among them: what a person keeps in mind on the way to the block."""

INJURY = ("injury", "injure", "burn", "blind", "poison", "lung", "eye", "skin", "death", "kill")


def braces(context: Context) -> Iterator[Problem]:
    """A {name} in a text that nothing has, or a brace that it has too few or too many of."""
    for procedure, lexicon, _ in context.cards():
        for text in _texts(procedure):
            stray = stray_brace(text.value)
            if stray is not None:
                message = f"this `{text.value[stray]}` belongs to no {{name}}, and would be printed"
                hint = "write one { and one } right round the name; of letters, digits, _ and dots"
                yield error("stray-brace", message, text.at(stray), hint)
            for name, offset in holes(text.value):
                if lexicon.meanings.get(name) is None and not context.asks_the_lost(name):
                    yield _no_such("name", name, text.at(offset), lexicon.names())


def references(context: Context) -> Iterator[Problem]:
    """A step that reads, shows or decides what the procedure does not have, or a reading that counts by it."""
    for procedure, lexicon, _ in context.cards():
        for reading in procedure.readings.values():
            yield from _of_kind("value", ((name, reading.place) for name in reading.least), procedure.values)
        branches = (branch for decision in procedure.decisions.values() for branch in decision.branches)
        sizes = ((buy.size, buy.place) for branch in branches for buy in branch.buy if buy.size)
        yield from _of_kind("name", ((n, at) for n, at in sizes if not context.asks_the_lost(n)), lexicon.names())
        for step in procedure.steps:
            yield from _of_kind("reading", step.read, procedure.readings)
            yield from _of_kind("decision", step.decide, procedure.decisions)
            shown = [(name, place) for name, place in _shown(step) if not context.asks_the_lost(name)]
            yield from _of_kind("name", shown, lexicon.names())


def unused(context: Context) -> Iterator[Problem]:
    """A reading that no step takes, or a decision that no step makes: it would never reach a card."""
    for procedure, _, family in context.cards():
        read = {name for step in procedure.steps for name, _ in step.read}
        decided = {name for step in procedure.steps for name, _ in step.decide}
        whose = f" in the {family.name}" if family is not None else ""
        if read - set(procedure.readings) or decided - set(procedure.decisions):
            continue  # a step names what is not there, and may mean what nobody seems to use
        for name, reading in procedure.readings.items():
            if name not in read:
                yield error(
                    "unread", f"no step{whose} reads `{name}`", reading.place, f"add `read: [{name}]` to a step"
                )
        for name, decision in procedure.decisions.items():
            if name not in decided:
                hint = f"add `decide: [{name}]` to a step"
                yield error("undecided", f"no step{whose} decides `{name}`", decision.place, hint)


def too_early(context: Context) -> Iterator[Problem]:
    """A decision that a step makes before a later step takes a reading that it asks for, or makes a decision."""
    for procedure, _, _ in context.cards():
        places: dict[str, int] = {}  # the first step that takes each
        for number, step in enumerate(procedure.steps):
            places |= {name: number for name, _ in (*step.read, *step.decide) if name not in places}
        for number, step in enumerate(procedure.steps):
            for name, place in step.decide:
                asked = _asked(procedure, name)
                late = next((one for one in asked if places.get(one, number) > number), None)
                if late is not None:
                    what = "reads" if late in procedure.readings else "decides"
                    later = procedure.steps[places[late]].id
                    message = f"step `{step.id}` decides `{name}` before step `{later}` {what} `{late}`"
                    yield warning("too-early", message, place, f"decide it in step `{later}` or after it")


def _asked(procedure: Procedure, decision: str) -> list[str]:
    """The readings and decisions of the card itself that the branches ask for, by way of its values too."""
    if decision not in procedure.decisions:
        return []
    formulas = [branch.when for branch in procedure.decisions[decision].branches]
    found: list[str] = []
    while formulas:
        formula = formulas.pop()
        for name in names(formula.tree) if formula is not None else ():
            if name not in found:
                found.append(name)
                if name in procedure.values:
                    formulas.append(procedure.values[name].formula)
    return [name for name in found if name in procedure.readings or name in procedure.decisions]


def long_steps(context: Context) -> Iterator[Problem]:
    """A step of more than 45 words. Two short steps are done; half of a long one is forgotten."""
    for procedure, _, _ in context.cards():
        for step in procedure.steps:
            words = sum(len(t.value.split()) for t in (step.do, step.right, step.because) if t is not None)
            if words > LONGEST_STEP:
                message = f"step `{step.id}` has {words} words; {LONGEST_STEP} is the most"
                yield warning("long-step", message, step.place, "split it, or say less")


def notices(context: Context) -> Iterator[Problem]:
    """A NOTICE that speaks of an injury or bears a sign. NOTICE is for damage; for people there are the other three."""
    for caution in context.workshop.cautions.values():
        if caution.level != "NOTICE":
            continue
        said = f"{caution.hazard} {caution.consequence}".lower()
        word = next((word for word in INJURY if word in said), None)
        if word is not None or caution.symbols:
            why = "bears a sign" if word is None else f"says “{word}”"
            message = f"caution `{caution.id}` is a NOTICE, and {why}"
            yield error("notice-injury", message, caution.place, "a NOTICE is never about people: raise its level")


def _texts(procedure: Procedure) -> Iterator[Text]:
    yield procedure.reason
    if procedure.hold is not None:
        yield procedure.hold.text
    for step in procedure.steps:
        yield from (text for text in (step.do, step.right, step.because) if text is not None)
    for decision in procedure.decisions.values():
        yield from (branch.then for branch in decision.branches)


def _shown(step: Step) -> tuple[tuple[str, Place], ...]:
    return (*step.show, *(step.table.show if step.table is not None else ()))


def _of_kind(kind: str, asked: Iterable[tuple[str, Place]], known: Iterable[str]) -> Iterator[Problem]:
    for name, place in asked:
        if name not in known:
            yield _no_such(kind, name, place, tuple(known))


def _no_such(kind: str, name: str, place: Place, known: Iterable[str]) -> Problem:
    return error("unknown-name", f"there is no {kind} `{name}`", place, mend(name, tuple(known)))
