"""A packet as lines for the terminal: what needs somebody, then what is decided in the order of work."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby

from procgen.cli.wrapping import wrapped
from procgen.model.packet import BEGUN, DONE, UNCALLED, WAITING, Finding, Line, Packet, Progress, Purchase
from procgen.model.verdict import CLEAR, CLOSE, INSIDE, OPEN, PERSON, WANTING

NBSP = "\u00a0"
MOST = 6  # things that one line waits for


def packet_lines(packet: Packet, width: int) -> Iterator[str]:
    yield ", ".join(part for part in (packet.title, packet.family_name, packet.variant) if part)
    yield packet.sentence
    yield from _part("Asked about", packet.queries, width)
    begun = {one.card for one in packet.begun}
    pressing = [f for f in packet.findings if f.state == CLOSE or (f.card in begun and f.state in (WANTING, OPEN))]
    yield from _part("Needs somebody", _by_card(sorted(pressing, key=lambda f: f.stage)), width)
    decided = [f for f in packet.findings if f.state in (CLEAR, PERSON) and (f.card in begun or f.lines)]
    yield from _part("Decided", _by_card(decided), width)
    yield from _part("Shells that come out", packet.shells_out, width)
    yield from _part("To order", (_order(part) for part in packet.purchases if part.count), width)
    yield from _part("From the shelf", (_shelf(part) for part in packet.purchases if part.on_shelf), width)
    changes = (
        f"{c.title}, {c.whose}: {c.before} → {c.after}, removed {c.removed}" for b in packet.befores for c in b.changes
    )
    yield from _part("Before and after", changes, width)
    yield from _part("Open, in the order of work", _stages(packet), width)
    yield ""
    yield from wrapped(packet.rule, width, further=0)


def _by_card(found: Iterable[Finding]) -> Iterator[str]:
    """Each card with its questions and what they came to, indented below it."""
    for (stage, title), own in groupby(found, key=lambda finding: (finding.stage, finding.card_title)):
        yield f"{stage} {title}"
        for finding in own:
            said = _decided(finding) if finding.state in (CLEAR, PERSON) else _open(finding)
            yield from (f"  {line}" for line in said)


def _question(finding: Finding) -> str:
    return f"{finding.title} {finding.whose}:" if finding.whose else finding.title


def _open(finding: Finding) -> Iterator[str]:
    if finding.state == CLOSE:
        yield f"{_question(finding)} TOO CLOSE TO CALL, {finding.action}"
        yield from (f"  {_compared(line)}" for line in finding.lines if line.side != INSIDE)
        if finding.settles:
            yield f"  {finding.settles}"
        return
    more = len(finding.waits_for) - MOST
    wanted = "; ".join((*finding.waits_for[:MOST], *((f"and {more} more",) if more > 0 else ())))
    yield f"{_question(finding)} {finding.state.upper()}, {wanted}"


def _decided(finding: Finding) -> Iterator[str]:
    detail = f". {finding.detail}" if finding.detail else ""
    yield f"{_question(finding)} {finding.action.upper()}{detail}"
    if finding.by:
        against = f", against the rule ({finding.against})" if finding.against else ""
        yield f"  decided by {finding.by}{against}: {finding.reason}"
    told = [line for line in finding.lines if line.side != INSIDE] or list(finding.lines[:1])
    more = len(finding.lines) - len(told)
    for number, line in enumerate(told, start=1):
        yield f"  {_compared(line)}{f'; {more} more inside' if more and number == len(told) else ''}"


def _compared(line: Line) -> str:
    worst = f", {line.whose}" if line.whose else ""
    blunt = "; the gauge is not good enough to pass anything between these limits" if line.blunt else ""
    sure = f", margin {line.margin}, U {line.uncertainty}" if line.is_measured else ""
    return f"{line.title}{worst}: {line.of} {line.side}{sure}{blunt} ({_readings(line.readings)})"


def _readings(read: tuple[str, ...]) -> str:
    return ", ".join(read[:3]) + (f" and {len(read) - 3} more" if len(read) > 3 else "")


def _order(part: Purchase) -> str:
    return f"{part.count} × {_part_for(part)}"


def _shelf(part: Purchase) -> str:
    return f"{part.on_shelf} × {_part_for(part)}"


def _part_for(part: Purchase) -> str:
    whose = f", {part.whose}" if part.whose else ""
    return " ".join(filter(None, (part.item, part.size))) + whose


def _stages(packet: Packet) -> Iterator[str]:
    yield from (f"{_stage(one)}: {one.open} open" for one in packet.progress if one.state == BEGUN)
    for state in (WAITING, UNCALLED, DONE):
        found = [_stage(one) for one in packet.progress if one.state == state]
        if found:
            yield f"{state}: {', '.join(found)}"


def _stage(one: Progress) -> str:
    return f"{one.stage.number} {one.title}".replace(" ", NBSP)


def _part(head: str, lines: Iterable[str], width: int) -> Iterator[str]:
    found = list(lines)
    if not found:
        return
    yield ""
    yield head
    for line in found:
        yield from wrapped(f"  {line}", width)
