"""A job's readings: slips, depths that are not there, gauges that say nothing of how sure they are."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.check.context import Context
from procgen.compose import CardScope, job_bench
from procgen.compose.readings import Reported
from procgen.compose.slips import less_than_nothing, slip_of
from procgen.files.problems import Problem, error, warning
from procgen.load.job import depth_of
from procgen.model.job import Job
from procgen.model.procedure import Reading
from procgen.units.quantity import Quantity
from procgen.units.table import UNITS

INCH = UNITS["in"]
SHALLOW = 0.05  # of a bore's length: who gauges it goes further down; common practice, no source


def slips(context: Context) -> Iterator[Problem]:
    """A reading far from what can be there: a digit too many, two digits exchanged, inches for millimetres. It counts
    for no verdict until it is mended, or confirmed as `{is: …, because: …}`.
    """
    for job, scope, reported, reading in _readings(context):
        slip = slip_of(reported, reading, scope)
        if slip is not None:
            message = f"{job.title or job.id}: {slip.what} {slip.value} is not between {slip.low} and {slip.high}"
            hint = f"meant {slip.meant}?" if slip.meant else "mend it, or confirm it as {is: …, because: …}"
            yield warning("slip", message, reported.taken.place, hint)


def depths(context: Context) -> Iterator[Problem]:
    """A depth below the end of the cylinder."""
    told = set()
    for _, scope, reported, reading in _readings(context):
        if "depth" not in reading.each:
            continue
        text = reported.taken.index[reading.each.index("depth")]
        depth, bottom = depth_of(text), scope.bench.family.millimetres("geometry.bore_bottom", scope.bench.variant)
        key = (reported.session.id, *reported.taken.index[: reading.each.index("depth") + 1])
        if depth is not None and bottom is not None and depth > bottom and key not in told:
            told.add(key)
            message = f"depth {text} mm lies below the end of the cylinder, at {bottom:g} mm"
            yield error("depth-below", message, reported.taken.place, "depths are counted down from the deck")


def depths_in_inches(context: Context) -> Iterator[Problem]:
    """Depths in inches, as the readings are: a bare depth is in mm, so all of them come to stand at the deck."""
    found: dict[tuple[str, str], list[tuple[float, float, Reported]]] = {}
    for job, scope, reported, reading in _readings(context):
        value = reported.taken.value
        if "depth" in reading.each and isinstance(value, Quantity) and value.unit == INCH:
            depth = depth_of(reported.taken.index[reading.each.index("depth")])
            bottom = scope.bench.family.millimetres("geometry.bore_bottom", scope.bench.variant)
            if depth is not None and bottom is not None:
                found.setdefault((job.id, reported.session.id), []).append((depth, bottom, reported))
    for read in found.values():
        deepest, bottom, _ = max(read, key=lambda one: one[0])
        if len({depth for depth, _, _ in read}) > 1 and deepest < SHALLOW * bottom:
            message = f"no depth lies more than {deepest:g} mm below the deck, of {bottom:g} mm; a depth is in mm"
            hint = f"were they inches? {deepest:g} in are {deepest * INCH.factor:g} mm"
            yield warning("depth-unit", message, read[0][2].taken.place, hint)


def gauges(context: Context) -> Iterator[Problem]:
    """A measured reading of which nobody knows the gauge, or a gauge that does not state its uncertainty: whether it
    keeps a limit could not be told.
    """
    told = set()
    for job, _, reported, reading in _readings(context):
        if reading.choices or not reading.gauge:
            continue
        gauge = reported.gauge
        key = (job.id, reported.session.id, reading.name) if gauge is None else (job.id, gauge.id, "")
        if key in told:
            continue
        told.add(key)
        named = reported.session.gauges.get(reading.name)
        if gauge is None:
            message = f"session `{reported.session.id}` does not say which gauge took `{reading.name}`"
            if named:
                message = (
                    f"session `{reported.session.id}` took `{reading.name}` with `{named}`, which no gauge is called"
                )
            hint = f"add `gauge: {{{reading.name}: …}}`, and the gauge to the job or the workshop"
            yield error("which-gauge", message, reported.session.place, hint)
        elif gauge.uncertainty is None:
            message = f"gauge `{gauge.id}` states no uncertainty"
            yield error(
                "no-uncertainty", message, gauge.place, "add `uncertainty: 0.004 mm` (k = 2), from its certificate"
            )


def below_nothing(context: Context) -> Iterator[Problem]:
    """A clearance or grip that comes out less than nothing: bore and journal may be exchanged, or one of them wrong."""
    for job in context.workshop.jobs.values():
        bench = job_bench(context.workshop, job)
        for scope in (bench.card(card) for card in context.whole_cards(bench)):
            for what, reported in less_than_nothing(scope):
                message = f"{job.title or job.id}: {what} comes out less than nothing"
                yield warning("below-nothing", message, reported.taken.place, "were two readings exchanged?")


def _readings(context: Context) -> Iterator[tuple[Job, CardScope, Reported, Reading]]:
    for job in context.workshop.jobs.values():
        bench = job_bench(context.workshop, job)
        assert bench.readings is not None
        for reported in bench.readings.all():
            if reported.session.card in bench.procedures and reported.session.card not in context.broken:
                scope = bench.card(reported.session.card)
                yield job, scope, reported, scope.procedure.readings[reported.taken.reading]
