"""How a decision's branches differ: of their conditions only what changed, so that the same limit is the same change on
every card that judges by it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from procgen.ledger.change import AS_PRINTED, Change
from procgen.ledger.items import Item

_CLAUSES = re.compile(r" (?:or|and) ")
_ACTION = re.compile(r"\S+(?: [^\sA-Z]\S*)*")
"""Up to the next word with a capital, which begins what is told beside it."""


def arms(head: str, was: Item, now: Item) -> Iterator[Change]:
    """`was` and `now`: the same decision in two revisions; `head`: what it is called."""
    old, new = _by_action(was), _by_action(now)
    for action, conditions in new.items():
        if action in old and old[action] != conditions:
            match = _ACTION.match(action)
            yield from _clauses(f"{head}, “{match[0]}”" if match else head, old[action], conditions)
    gone, come = [a for a in old if a not in new], [a for a in new if a not in old]
    for action in list(come):  # the same conditions end in something else
        other = next((a for a in gone if old[a] == new[action]), None)
        if other is not None:
            yield Change("branch", f"{head}, {new[action]}", other, action)
            gone.remove(other)
            come.remove(action)
    yield from (Change("branch", head, f"{old[action]}: {action}", "") for action in gone)
    yield from (Change("branch", head, "", f"{new[action]}: {action}") for action in come)
    if old.keys() == new.keys() and list(old) != list(new):
        yield Change("branch", head, AS_PRINTED, "its branches in another order")


def _by_action(item: Item) -> Mapping[str, str]:
    """Conditions by what they end in; what the decision is for, and what it waits for, has none."""
    found = {}
    for line in item.lines:
        conditions, arrow, action = line.partition(" -> ")
        found[action if arrow else line] = conditions if arrow else ""
    return found


def _clauses(what: str, was: str, now: str) -> Iterator[Change]:
    old, new = _CLAUSES.split(was), _CLAUSES.split(now)
    gone, come = [one for one in old if one not in new], [one for one in new if one not in old]
    for one in list(gone):
        other = next((another for another in come if Change("", "", one, another).figures), None)
        if other is not None:
            yield _limit(one, other, what)
            gone.remove(one)
            come.remove(other)
    if gone or come:
        any_will_do = " and " not in was + now
        yield Change("branch", what, *((" or ".join(gone), " or ".join(come)) if any_will_do else (was, now)))
    elif set(old) == set(new):
        yield Change("branch", what, was, now)


def _limit(was: str, now: str, what: str) -> Change:
    """ "out-of-round > 0.05 mm" is of "out-of-round", whatever decides by it."""
    words = re.match(r"[^<>≤≥=\d]*", was)
    start = words[0] if words else ""
    return Change("limit", start.strip() or what, was[len(start) :], now[len(start) :])
