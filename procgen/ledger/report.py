"""What is superseded, in words for a person at a terminal, and as data for a machine."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from typing import Any

from procgen.ledger.causes import Cause, causes
from procgen.ledger.change import Change
from procgen.ledger.standing import CURRENT, GONE, SUPERSEDED, Hung

FORMAT = "reprint/1"


def lines(hung: Sequence[Hung], families: Mapping[str, str]) -> Iterator[str]:
    """For a person. `families`: the name of each by its id; those that are gone go by their id."""
    superseded, gone = ([one for one in hung if one.state == state] for state in (SUPERSEDED, GONE))
    for cause in causes(superseded):
        yield from _cause(cause, families)
    if untold := [one for one in superseded if one.changes is None]:
        yield "What these said was not noted, so nobody can say what changed:"
        yield f"  {_cards(untold, families)}"
        yield ""
    if gone:
        yield "No longer in the deck:"
        yield from (f"  {line}" for line in _table(gone, families))
        yield ""
    if superseded:
        yield "Take down, and print anew:"
        yield from (f"  {line}" for line in _table(superseded, families))
        yield ""


def counted(hung: Sequence[Hung]) -> str:
    """ "3 of 12 printed cards are superseded, 1 is no longer in the deck"."""
    states = [one.state for one in hung]
    if not hung:
        return "no printed card is noted as hanging"
    if states.count(CURRENT) == len(hung):
        return f"all {len(hung)} printed cards are current" if len(hung) > 1 else "the one printed card is current"
    old, gone = states.count(SUPERSEDED), states.count(GONE)
    parts = [f"{old} of {len(hung)} printed cards {_is(old)} superseded"] if old else []
    parts += (
        [f"{gone}{'' if old else f' of {len(hung)} printed cards'} {_is(gone)} no longer in the deck"] if gone else []
    )
    return ", ".join(parts)


def _is(number: int) -> str:
    return "is" if number == 1 else "are"


def _cause(cause: Cause, families: Mapping[str, str]) -> Iterator[str]:
    of = _families(cause.hung, families)
    yield from _change(f"{of}: ", cause.change)
    if cause.follows:
        yield "    and what follows from it:"
        for change in cause.follows:
            yield from (f"    {line}" for line in _change("  ", change))
    yield f"    {_cards(cause.hung, families)}"
    yield ""


def _change(before: str, change: Change) -> Iterator[str]:
    if not change.is_long:
        yield before + change.said
    else:
        yield f"{before}{change.what}"
        yield f"    was: {change.was}"
        yield f"    now: {change.now}"


def _families(hung: Iterable[Hung], families: Mapping[str, str]) -> str:
    found = dict.fromkeys(one.noted.family for one in hung)
    if len(found) > 2 and found.keys() >= families.keys():
        return "every family"
    return ", ".join(families.get(id, id) for id in found)


def _cards(hung: Collection[Hung], families: Mapping[str, str]) -> str:
    """ "cards: cylinder-survey, decide"; families with a card only where it is not on those of all."""
    by_card: dict[str, dict[str, None]] = {}
    for one in hung:
        by_card.setdefault(one.noted.card, {})[families.get(one.noted.family, one.noted.family)] = None
    every = {name for names in by_card.values() for name in names}
    said = (card if names.keys() == every else f"{card} ({', '.join(names)})" for card, names in by_card.items())
    return f"{'card' if len(by_card) == 1 else 'cards'}: {', '.join(said)}"


def _table(hung: Iterable[Hung], families: Mapping[str, str]) -> Iterator[str]:
    head = ("family", "card", "says", "now", "printed", "stock", "where")
    rows = [head]
    for one in hung:
        noted, now = one.noted, one.card.revision if one.card is not None else "-"
        name = families.get(noted.family, noted.family)
        rows.append((name, noted.card, noted.revision, now, noted.on, noted.stock, noted.where))
    used = [i for i in range(len(head)) if any(row[i] for row in rows[1:])]
    widths = {i: max(len(row[i]) for row in rows) for i in used}
    for row in rows:
        yield "  ".join(row[i].ljust(widths[i]) for i in used).rstrip()


def data(hung: Sequence[Hung]) -> dict[str, Any]:
    """For a machine: `hanging` with each card's state and changes (null where nobody can say), `causes` by cards."""
    return {
        "format": FORMAT,
        "hanging": [_one(one) for one in hung],
        "causes": [
            {
                **_as_data(cause.change),
                "follows": [_as_data(change) for change in cause.follows],
                "cards": [one.noted.address for one in cause.hung],
            }
            for cause in causes([one for one in hung if one.state == SUPERSEDED])
        ],
    }


def _one(one: Hung) -> dict[str, Any]:
    noted = {key: getattr(one.noted, key) for key in ("family", "card", "revision", "stock", "on", "where")}
    changes = None if one.changes is None else [_as_data(change) for change in one.changes]
    return {**noted, "now": one.card.revision if one.card else None, "state": one.state, "changes": changes}


def _as_data(change: Change) -> dict[str, str]:
    return {"kind": change.kind, "what": change.what, "was": change.was, "now": change.now}
