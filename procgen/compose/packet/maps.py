"""A bore map for each cylinder that was gauged at depths, from the last card for which that was done."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from procgen.compose import figures
from procgen.compose.packet.grouping import actions
from procgen.compose.packet.lines import lines_of
from procgen.compose.readings import Reported
from procgen.compose.scope import CardScope
from procgen.compose.spoken import Speaker, default_show
from procgen.formula import State
from procgen.formula.words import lowered
from procgen.load.job import depth_of
from procgen.model.job import Session
from procgen.model.packet import BoreMap
from procgen.model.procedure import Reading, ValueSpec
from procgen.model.verdict import Verdict
from procgen.trade.scenes.bore import travel
from procgen.trade.scenes.bore_map import Profile, Station, bore_map
from procgen.trade.scenes.view import Given
from procgen.units.dimension import LENGTH
from procgen.units.printing import as_written
from procgen.units.quantity import Quantity
from procgen.units.table import UNITS

CYLINDER = "cylinder"
GAUGED = (CYLINDER, "depth", "axis")
UNWORN, TAPER, OVERSIZE, FOR_ALL = "unworn", "taper", "oversize", "oversize_all"
"""Values of a card, by the names that a map draws: the size wear is counted from, a limited taper, what cleans a
cylinder up, and what all are bored to.
"""
ENGINE = "engine"
"""The decision that one cylinder settles for all."""


def gauged(speakers: Mapping[str, Speaker]) -> Iterator[tuple[Speaker, Reading]]:
    """The cards that gauge cylinders at depths, each with that reading."""
    for speaker in speakers.values():
        for reading in speaker.first.procedure.readings.values():
            if reading.each == GAUGED and len(reading.axis) == 2:
                yield speaker, reading


def bore_maps(speakers: Mapping[str, Speaker], verdicts: Sequence[Verdict]) -> Iterator[BoreMap]:
    """Of each card that gauges cylinders, those that it has readings of."""
    earlier: tuple[Speaker, Reading] | None = None
    for speaker, reading in gauged(speakers):
        for cylinder in speaker.first.members(CYLINDER):
            before = () if earlier is None else tuple(stations(cylinder, earlier[1], earlier[0].first))
            made = _map(cylinder, reading, speaker, verdicts, before)
            if made is not None:
                yield made
        earlier = speaker, reading


def _map(
    cylinder: str, reading: Reading, speaker: Speaker, verdicts: Sequence[Verdict], before: tuple[Station, ...]
) -> BoreMap | None:
    """`before`: as an earlier card had gauged it."""
    scope = speaker.first
    bench = scope.bench
    unit = speaker.units.of(UNITS["mm"])
    rings = travel(Given(bench.family, bench.variant, {}, unit))
    if rings is None:
        return None
    warm = ", ".join(dict.fromkeys(warmth(session) for session in _sessions(cylinder, reading, scope)))
    profile = Profile(
        id=f"{scope.procedure.id}-{cylinder}",
        name=", ".join(filter(None, (f"Cylinder {cylinder}", scope.procedure.stage.lower(), warm))),
        travel=rings,
        stations=tuple(stations(cylinder, reading, scope)),
        unworn=_size(UNWORN, cylinder, scope),
        limit=_taper_limit(cylinder, reading, scope),
        clean=_cleans_up(cylinder, speaker),
        before=before,
    )
    scene = bore_map(profile, unit)
    if scene is None:
        return None
    own = [v for v in verdicts if v.card == scope.procedure.id and v.member == cylinder]
    assert bench.readings is not None
    lines = lines_of(own, "", bench.readings)
    barred = {line.title for line in lines}
    taken = next((v for v in verdicts if v.decision == ENGINE and not v.each and v.is_settled), None)
    return BoreMap(
        cylinder=cylinder,
        scene=scene,
        sizes=tuple((title, size) for title, size in _sizes(cylinder, speaker) if lowered(title) not in barred),
        lines=lines,
        verdict="; ".join(actions(v) if v.is_settled else v.state for v in own),
        engine="" if taken is None else actions(taken),
    )


def _sessions(cylinder: str, reading: Reading, scope: CardScope) -> Iterator[Session]:
    """Those that gauged the cylinder as it stands."""
    readings = scope.bench.readings
    assert readings is not None
    for reported in readings.all():
        of = (reported.session.card, reported.taken.reading, reported.taken.index[:1])
        if of == (scope.procedure.id, reading.name, (cylinder,)):
            yield reported.session


def warmth(session: Session) -> str:
    """How warm the block was, "" where nobody wrote it down."""
    warm = session.temperature
    return "" if warm is None else f"{as_written(warm)}\u202f{warm.unit.symbol}"


def stations(cylinder: str, reading: Reading, scope: CardScope) -> Iterator[Station]:
    """What was measured across and along the crank, at each depth below the deck (mm)."""
    readings = scope.bench.readings
    assert readings is not None
    across, along = reading.axis
    for depth in readings.depths(scope.procedure.id, (cylinder,)):
        pair = [
            _measured(readings.standing(scope.procedure.id, reading.name, (cylinder, depth, way)), reading, scope)
            for way in (across, along)
        ]
        mm = depth_of(depth)
        if mm is not None:
            yield Station(mm, *pair)


def _measured(reported: Reported | None, reading: Reading, scope: CardScope) -> float | None:
    """None also for what looks like a slip."""
    if reported is None or scope.queried(reading, reported.taken) is not None:
        return None
    value = reported.taken.value
    return value.value if isinstance(value, Quantity) else None


def _size(name: str, cylinder: str, scope: CardScope) -> float | None:
    if name not in scope.procedure.values or scope.procedure.values[name].each != (CYLINDER,):
        return None
    cell = scope.spread(name, {CYLINDER: cylinder}).one
    return cell.number if cell.state is State.KNOWN else None


def _taper_limit(cylinder: str, reading: Reading, scope: CardScope) -> tuple[str, float] | None:
    """Where a bore would be that tapers by all that is allowed: over the least size across, in ring travel."""
    spec = scope.procedure.values.get(TAPER)
    rings = travel(Given(scope.bench.family, scope.bench.variant, {}, UNITS["mm"]))
    if spec is None or spec.limits is None or spec.limits.max is None or rings is None:
        return None
    limit = scope.cell(spec.limits.max, {CYLINDER: cylinder})
    inside = [s.across for s in stations(cylinder, reading, scope) if rings.top <= s.depth <= rings.bottom]
    sizes = [size for size in inside if size is not None]
    return ("taper|limit", min(sizes) + limit.number) if sizes and limit.state is State.KNOWN else None


def _cleans_up(cylinder: str, speaker: Speaker) -> tuple[str, float] | None:
    """The oversize that cleans this cylinder up; else what all are bored to for the sake of another."""
    scope = speaker.first
    bore = scope.bench.family.millimetres("geometry.bore", scope.bench.variant)
    for name, words in ((OVERSIZE, "cleans up"), (FOR_ALL, "with all")):
        if name in scope.procedure.values and bore is not None:
            cell = scope.spread(name, {CYLINDER: cylinder}).one
            if cell.state is State.KNOWN:
                return f"+{speaker.in_words(name, cell)}|{words}", bore + cell.number
    return None


def _sizes(cylinder: str, speaker: Speaker) -> Iterator[tuple[str, str]]:
    """Every size of that cylinder that the card works out."""
    scope = speaker.first
    for spec in scope.procedure.values.values():
        if spec.each != (CYLINDER,) or not isinstance(spec, ValueSpec):
            continue
        spread = scope.whole(spec.name)
        cell = scope.spread(spec.name, {CYLINDER: cylinder}).one
        if cell.state is State.KNOWN and isinstance(cell.value, float) and spread.dimension == LENGTH:
            shown = figures.computed(cell, spec.show or default_show(LENGTH), speaker.units)
            yield spec.title, figures.in_line(shown)
