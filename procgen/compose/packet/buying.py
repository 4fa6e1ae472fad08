"""What must be bought: what the branches taken ask for, less what is on the shelf."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import field

from procgen.compose.alike import picked
from procgen.compose.packet.members import called
from procgen.compose.scope import CardScope
from procgen.compose.spoken import Speaker, axis_word
from procgen.formula import Cell, State
from procgen.model.card import plain
from procgen.model.job import Part
from procgen.model.packet import Purchase
from procgen.model.procedure import Buy
from procgen.model.verdict import Verdict
from procgen.units.compare import equal
from procgen.units.dimension import LENGTH
from procgen.units.quantity import Quantity
from procgen.values import dataclass


@dataclass(slots=True)
class _Wanted:
    size: float | None
    why: str
    each: str
    members: list[str] = field(default_factory=list)
    count: int = 0


Sized = tuple[tuple[str, ...], float | None, str]
"""(what there is one for each of, which one), or (); the size in base units, and as it prints."""

Wanted = dict[tuple[str, str], _Wanted]
"""By item, and size as it prints."""


def purchases(
    verdicts: Sequence[Verdict], speakers: Mapping[str, Speaker], shelf: Mapping[str, Part]
) -> tuple[Purchase, ...]:
    """In the order of work; what one branch asks for twice counts together."""
    wanted: Wanted = {}
    for verdict in verdicts:
        if verdict.is_settled:
            _add(verdict, speakers[verdict.card], wanted)
    return tuple(_purchase(item, size, one, shelf) for (item, size), one in wanted.items())


def _add(verdict: Verdict, speaker: Speaker, wanted: Wanted) -> None:
    decision = speaker.first.procedure.decisions[verdict.decision]
    bound = dict(zip(decision.each, verdict.member.split(" "), strict=True)) if decision.each else {}
    branch = next(branch for branch in decision.branches if branch.id == verdict.outcomes[0][0])
    for buy in branch.buy:
        count = speaker.first.cell(buy.count, bound)
        if count.state is not State.KNOWN or count.number <= 0:
            continue
        for members, size, text in _sizes(buy, bound, speaker):
            each = axis_word(decision.each[0]) if decision.each else members[0] if members else ""
            why = f"{speaker.first.procedure.title}: {verdict.outcomes[0][1]}"
            one = wanted.setdefault((buy.item, text), _Wanted(size, why, each))
            one.count += round(count.number)
            one.members += list(bound.values()) or list(members[1:])


def _sizes(buy: Buy, bound: Mapping[str, str], speaker: Speaker) -> Iterator[Sized]:
    """The size, or one for each member where the decision is not taken for each."""
    if not buy.size:
        yield (), None, ""
        return
    scope: CardScope = speaker.first
    spread = picked(scope.whole(buy.size), {a: m for a, m in bound.items() if a in scope.whole(buy.size).axes})
    for index, cell in spread.cells.items():
        of = (axis_word(spread.axes[0]), *index) if index else ()
        own = {**bound, **dict(zip(spread.axes, index, strict=True))}
        yield of, _number(cell), plain(speaker.fill(buy.size, own))


def _number(cell: Cell) -> float | None:
    return cell.number if cell.state is State.KNOWN and isinstance(cell.value, float) else None


def _purchase(item: str, size: str, wanted: _Wanted, shelf: Mapping[str, Part]) -> Purchase:
    there = sum(part.count or len(part.measured) for part in shelf.values() if _same(part, item, wanted.size))
    there = min(there, wanted.count)
    return Purchase(wanted.count - there, item, size, there, called(wanted.each, wanted.members), wanted.why)


def _same(part: Part, item: str, size: float | None) -> bool:
    stated = next((q for q in (part.oversize, part.undersize, part.size) if isinstance(q, Quantity)), None)
    sizes_agree = size is None or (stated is not None and equal(stated.value, size, LENGTH))
    return part.kind.replace("_", " ") == item.partition(",")[0] and sizes_agree
