"""Everything that can be wrong with a workshop, as small named checks.

A check is a function of the context that yields problems; what each code means stands in the guide. Cause before echo:
the checks of FORM run on all cards; those of MEANING work things out, and leave alone the cards and families whose form
does not hold together. Both look at the deck, each family and each job by itself (`portions.py`), so that what was
found in one that has not changed need not be found again.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence, Set
from dataclasses import replace
from pathlib import Path
from typing import Any

from procgen.check.circles import circles
from procgen.check.context import Context
from procgen.check.decisions import gaps, not_yet_known, proved, refused, unreachable
from procgen.check.drawings import drawings
from procgen.check.formulas import formulas, same_names, shown_units
from procgen.check.jobs import below_nothing, depths, depths_in_inches, gauges, slips
from procgen.check.layouts import geometry
from procgen.check.ledger import noted_texts
from procgen.check.limits import bounded, crossed, idle
from procgen.check.portions import Portions
from procgen.check.stocks import stocks
from procgen.check.texts import braces, long_steps, notices, references, too_early, unused
from procgen.check.unseen import built, unseen
from procgen.files.memory import NOTHING, Memory
from procgen.files.problems import Problem, Severity
from procgen.model.workshop import Workshop

Check = Callable[[Context], Iterator[Problem]]

SHOP: tuple[Check, ...] = (notices, stocks, noted_texts)
"""Of what the shop has: quickly done, and done each time."""

FORM: tuple[Check, ...] = (
    formulas, same_names, circles, shown_units, idle,
    braces, references, unused, too_early, drawings, long_steps,
    geometry,
)  # fmt: skip
"""Of the deck as written, and of each family."""

MEANING: tuple[Check, ...] = (refused, not_yet_known)
"""Of each family."""

GATHERED = {"proved": proved, "bounded": bounded, "built": built}
"""What is worked out for each family, and told of all of them together."""

JOBS: tuple[Check, ...] = (gauges, depths, depths_in_inches, slips, below_nothing)


Look = Callable[[str], Portions]
"""Works out all that is asked of one family by itself, by its id, and gives the portions among which it did."""

Ahead = Callable[[Portions, Look], None]


def check(
    workshop: Workshop, broken: Iterable[str] = (), memory: Memory = NOTHING, ahead: Ahead | None = None
) -> tuple[Context, tuple[Problem, ...]]:
    """All problems of a loaded workshop, by place, and what was worked out on the way, for those who go on with it.

    `broken`: files that did not load whole. `ahead` may look at families, in any order and any process, before they are
    looked at here one after the other: what the memory then knows is not worked out again.
    """
    context = Context(workshop, lost=_lost(workshop, broken))
    portions = Portions(context, memory)
    shared = [*_told(SHOP, context), *portions.deck("form", lambda deck: _told(FORM, deck))]
    if ahead is not None:
        ahead(portions, lambda id: _look(id, portions, {*broken, *_files(shared)}))
    found = [*shared, *(problem for id in workshop.families for problem in _form(id, portions))]
    portions = portions.without({*broken, *_files(found)})
    context = portions.context
    gathered: dict[str, list[Any]] = {what: [] for what in GATHERED}
    for id in context.workshop.families:
        problems, more = _meaning(id, portions)
        found += problems
        for what, content in more.items():
            gathered[what] += content
    for job in context.workshop.jobs.values():
        found += portions.job("job", job, lambda one: _told(JOBS, one))
    found += (*gaps(workshop, gathered["proved"]), *unreachable(workshop, gathered["proved"]))
    found += crossed(workshop, gathered["bounded"])
    if not any(Path(file).parent.name == "families" for file in {*broken, *_files(found)}):
        found += unseen(workshop, gathered["built"])
    return context, _in_order(found)


def _look(id: str, portions: Portions, broken: Set[str]) -> Portions:
    portions = portions.without({*broken, *_files(_form(id, portions))})
    if id in portions.context.workshop.families:
        _meaning(id, portions)
    return portions


def _form(id: str, portions: Portions) -> Sequence[Problem]:
    return portions.family("form", id, lambda family: _told(FORM, family))


def _meaning(id: str, portions: Portions) -> tuple[Sequence[Problem], dict[str, list[Any]]]:
    """Its problems, and what is gathered of it."""
    problems = portions.family("meaning", id, lambda family: _told(MEANING, family))
    return problems, {what: portions.gathered(id, gather) for what, gather in GATHERED.items()}


def _files(found: Iterable[Problem]) -> set[str]:
    """Those with an error in them."""
    return {problem.place.path for problem in found if problem.is_error}


def _told(checks: Iterable[Check], context: Context) -> list[Problem]:
    return [problem for one in checks for problem in one(context)]


def _in_order(found: Iterable[Problem]) -> tuple[Problem, ...]:
    return tuple(sorted(dict.fromkeys(found), key=lambda problem: problem.place))


def _lost(workshop: Workshop, broken: Iterable[str]) -> frozenset[str]:
    """The cards that are there and could not be loaded: what others ask of them is no slip of the others."""
    stems = {Path(path).stem for path in broken if Path(path).parent.name == "deck"}
    return frozenset(stems - set(workshop.procedures))


def check_jobs(workshop: Workshop, broken: Iterable[str] = ()) -> tuple[Problem, ...]:
    """What stands in the way of judging the workshop's jobs: their families, all cards, and their readings."""
    families = {id: workshop.families[id] for id in {job.family for job in workshop.jobs.values()}}
    context = Context(replace(workshop, families=families), lost=_lost(workshop, broken))
    found = _told((*SHOP, *FORM), context)
    context = context.without({*broken, *_files(found)})
    found += _told((refused, *JOBS), context)
    return _in_order(found)


def told_once(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """By place. A plug that is gone is seen by loading and by the layout; the layout can say what it costs. What is
    warned of at the very place of an error says the same."""
    told = tuple(problems)
    errors = {problem.place for problem in told if problem.is_error}
    found = [one for one in told if one.severity is not Severity.WARNING or one.place not in errors]
    names = {problem.place: problem.hint for problem in found if problem.code == "no-such-part"}
    costly = {problem.place for problem in found if problem.code == "open-end"}
    kept = {
        replace(problem, hint="; ".join(filter(None, (names.get(problem.place), problem.hint))))
        if problem.code == "open-end"
        else problem
        for problem in found
        if not (problem.code == "no-such-part" and problem.place in costly)
    }
    return tuple(sorted(kept, key=lambda problem: (problem.place, problem.message)))


__all__ = ["FORM", "MEANING", "Ahead", "Check", "Context", "Look", "check", "check_jobs", "told_once"]
