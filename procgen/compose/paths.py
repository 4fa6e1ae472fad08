"""Decisions as a card shows them: a path of arms, or the conclusion that this family's layout settles by itself."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import partial

from procgen.compose.prose import prose, sentence_and_rest
from procgen.compose.spoken import Bound, Speaker, axis_word
from procgen.compose.wording import conditions, one_line, only_if_said
from procgen.formula import Cell, State
from procgen.model.card import Arm, Conclusion, Path, Prose, Run, plain
from procgen.model.formula import Expr, Logic
from procgen.model.procedure import Branch, Decision

SETTLED, NEVER = True, False


def decision_item(decision: Decision, speaker: Speaker, waits: Prose = ()) -> Path | Conclusion | None:
    """The decision for this family; None where a trait excludes it. `waits`: what its whole step waits on already."""
    if not _there(decision, speaker):
        return None
    branches = list(_live(decision, speaker))
    each = f"each {axis_word(decision.each[0])}" if decision.each else ""
    only_if = only_if_said(decision.when, speaker, waits, decision.each)
    if len(branches) == 1 and branches[0][1] is SETTLED:
        branch = branches[0][0]
        action, detail = action_and_detail(branch, speaker)
        return Conclusion(decision.name, decision.title, action, detail, plain(_reason(branch, decision, speaker)))
    return Path(
        decision.name,
        decision.title,
        ", ".join(part for part in (each, only_if) if part),
        tuple(_arm(branch, left, decision, speaker) for branch, left in branches),
        speaker.not_yet_known(_names_left(branches, speaker)),
    )


def action_and_detail(branch: Branch, speaker: Speaker, bound: Bound | None = None) -> tuple[str, Prose]:
    """`bound`: the one member whose figures are said, instead of all that differ."""
    fill = speaker.fill if bound is None else partial(speaker.fill, bound=bound)
    action, detail = sentence_and_rest(prose(branch.then.value, fill))
    return plain(action).rstrip("."), detail


def _arm(branch: Branch, left: Expr | bool, decision: Decision, speaker: Speaker) -> Arm:
    action, detail = action_and_detail(branch, speaker)
    said = () if isinstance(left, bool) else conditions(left, speaker, decision.each)
    return Arm(branch.id, said, action, detail)


def _live(decision: Decision, speaker: Speaker) -> Iterator[tuple[Branch, Expr | bool]]:
    """The branches that this family can reach, each with what is left of its condition for a person to judge."""
    for branch in decision.branches:
        left = _left(branch, decision, speaker)
        if left is NEVER:
            continue
        yield branch, left
        if left is SETTLED:
            return


def _left(branch: Branch, decision: Decision, speaker: Speaker) -> Expr | bool:
    """What readings must settle of a condition: the same for all variants and members, or all of it."""
    if branch.when is None:
        return SETTLED
    found = [left for scope in speaker.scopes.values() for left in scope.lefts(branch.when.tree, decision.each)]
    return found[0] if found and all(left is found[0] or left == found[0] for left in found) else branch.when.tree


def _there(decision: Decision, speaker: Speaker) -> bool:
    return any(
        not (cell.state is State.NONE or cell.value is False)
        for scope in speaker.scopes.values()
        for member in scope.indices(decision.each)
        for cell in [scope.applies(decision.when, member)]
    )


def _reason(branch: Branch, decision: Decision, speaker: Speaker) -> Prose:
    """The part of the condition that this family's layout meets."""
    if branch.when is None:
        return (Run("nothing else can hold for this family"),)
    tree = branch.when.tree
    if isinstance(tree, Logic) and tree.operator == "or":
        member = next(speaker.first.indices(decision.each))
        for term in tree.terms:
            left = speaker.first.left(term, member)
            if isinstance(left, Cell) and left.holds:
                return one_line(term, speaker, decision.each)
    return one_line(tree, speaker, decision.each)


def names_asked(decision: Decision, speaker: Speaker) -> Iterator[str]:
    """The names in what is left of the conditions for this family; none where a trait excludes the decision."""
    if _there(decision, speaker):
        yield from _names_left(_live(decision, speaker), speaker)


def _names_left(branches: Iterable[tuple[Branch, Expr | bool]], speaker: Speaker) -> Iterator[str]:
    """The names in what is left of these branches' conditions."""
    for _, left in branches:
        yield from speaker.first.names(left) if not isinstance(left, bool) else ()
