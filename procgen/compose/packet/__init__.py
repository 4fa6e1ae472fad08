"""(workshop, job) -> a Packet: verdicts grouped for reading, what follows from them, and what is still to be done."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from procgen.compose.card import speaker_for
from procgen.compose.deck import compose_deck
from procgen.compose.jobs import job_bench
from procgen.compose.packet.buying import purchases
from procgen.compose.packet.counts import plug_counts, water_plug_counts
from procgen.compose.packet.cover import cover, order
from procgen.compose.packet.grouping import findings
from procgen.compose.packet.history import befores
from procgen.compose.packet.maps import bore_maps
from procgen.compose.packet.members import together
from procgen.compose.packet.progress import progress
from procgen.compose.packet.sheets import needed, sheet
from procgen.compose.readings import Readings
from procgen.compose.slips import less_than_nothing, slip_of
from procgen.compose.spoken import Speaker
from procgen.compose.verdicts import verdicts
from procgen.model.card import Deck
from procgen.model.job import Job
from procgen.model.packet import BEGUN, WAITING, Packet, Progress, Purchase
from procgen.model.verdict import CLOSE, OPEN, TOO_CLOSE, WANTING, Judged, Verdict
from procgen.model.workshop import Workshop


def compose_packet(workshop: Workshop, job: Job, deck: Deck | None = None) -> tuple[Packet, Judged]:
    """`deck`: the family's cards, where they are composed already."""
    bench = job_bench(workshop, job)
    cards = (deck or compose_deck(workshop, bench.family)).cards
    speakers = {card.id: speaker_for(card.id, {"": bench}) for card in cards}
    found = tuple(verdict for speaker in speakers.values() for verdict in verdicts(speaker))
    stages = tuple(progress(cards, found, speakers))
    readings = bench.readings
    assert readings is not None
    buy = purchases(found, speakers, job.shelf)
    asked = needed(_to_read(stages), speakers)
    judged = Judged(job, found)
    grouped = findings(found, {card.id: (card.stage.number, card.title) for card in cards}, readings)
    packet = Packet(
        id=job.id,
        title=job.title or job.id,
        family=job.family,
        family_name=bench.family.name,
        variant=bench.variant.name if bench.variant is not None else "",
        marks=tuple(job.marks.items()),
        address=f"jobs/{job.id}",
        is_settled=judged.is_settled,
        sentence=_sentence(found, stages),
        progress=stages,
        cover=tuple(cover(grouped, stages, buy)),
        order=tuple(order(buy)),
        findings=grouped,
        queries=tuple(_queries(readings, speakers)),
        shells_out=tuple(_shells_out(buy)),
        purchases=buy,
        plugs=tuple(plug_counts(bench.family)),
        water_plugs=tuple(water_plug_counts(bench.family)),
        maps=tuple(bore_maps(speakers, found)),
        sheets=tuple(made for id in speakers if (made := sheet(id, speakers[id], asked)) is not None),
        befores=tuple(befores(speakers, readings)),
        rule=_rule(workshop.guard),
        measured_on=max((session.on for session in job.sessions), default=""),
    )
    return packet, judged


def _sentence(found: Sequence[Verdict], stages: Sequence[Progress]) -> str:
    """Whether it is settled, and if not, what is open."""
    close = sum(verdict.state == CLOSE and any(m.side == TOO_CLOSE for m in verdict.margins) for verdict in found)
    begun = {one.card for one in stages if one.state == BEGUN}
    wanting = sum(verdict.state in (WANTING, OPEN) and verdict.card in begun for verdict in found)
    waiting = sum(one.state == WAITING for one in stages)
    parts = []
    if close:
        parts.append("one verdict is too close to call" if close == 1 else f"{close} verdicts are too close to call")
    if wanting:
        parts.append("one waits for readings" if wanting == 1 else f"{wanting} wait for readings")
    if waiting:
        parts.append(f"{waiting} {'stage' if waiting == 1 else 'stages'} not begun")
    return f"Not settled: {', '.join(parts)}." if parts else "Settled: nothing is open."


def _queries(readings: Readings, speakers: Mapping[str, Speaker]) -> Iterator[str]:
    for reported in readings.all():
        if reported.session.card in speakers:
            scope = speakers[reported.session.card].first
            slip = slip_of(reported, scope.procedure.readings[reported.taken.reading], scope)
            if slip is not None:
                meant = f" Meant {slip.meant}?" if slip.meant else ""
                yield f"{slip.what} {slip.value}: not between {slip.low} and {slip.high}.{meant}"
    for speaker in speakers.values():
        for what, _ in less_than_nothing(speaker.first):
            yield f"{what}: comes out less than nothing. Were two readings exchanged?"


def _to_read(stages: Sequence[Progress]) -> Iterator[str]:
    """The cards that readings are taken for now: those begun, and the first that is not."""
    yield from (one.card for one in stages if one.state == BEGUN)
    first = next((one for one in stages if one.is_left), None)
    if first is not None and first.state == WAITING:
        yield first.card


def _shells_out(buy: Sequence[Purchase]) -> Iterator[str]:
    """What is replaced, and so must come out, wherever it lies."""
    found: dict[str, list[str]] = {}
    for one in buy:
        if "shell" in one.item and one.whose:
            found.setdefault(one.item.partition(",")[0], []).append(one.whose)
    for item, whose in found.items():
        yield f"{item}s: {together(whose)}"


def _rule(guard: float) -> str:
    share = "its expanded uncertainty U" if guard == 1 else f"{guard:g} times its expanded uncertainty U"
    return (
        f"A value keeps a limit where it lies inside by {share} (k = 2), breaks it where it lies outside by as much, "
        "and is too close to call between (ISO 14253-1). U of a value follows its readings to first order (JCGM 100): "
        "what differs from reading to reading adds by squares, what one gauge gets wrong at one setting adds as it "
        "stands; of a gauge that does not state the two apart, the larger of both ways counts. A largest size and a "
        "span of several readings read a little high. Sizes are as they were read: nothing is corrected for warmth."
    )
