"""What a card's page needs to judge readings by itself: the card's formulas as trees, with all that no reading touches
worked out beforehand, for each variant that a job may name.

The page's interpreter (templates/site/live) walks these trees as `formula.evaluate` walks the author's own.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from procgen.compose.bench import Bench
from procgen.compose.card import formulas_of
from procgen.compose.figures import units_for
from procgen.compose.margins import shown_as, title_of
from procgen.compose.names import BUILT, LOCAL_AXES
from procgen.compose.opened import OpenBench
from procgen.compose.paths import action_and_detail
from procgen.compose.shows import Shows
from procgen.compose.spoken import axis_word, default_show
from procgen.compose.trees import Marking, Trees, parts
from procgen.compose.verdicts import ask
from procgen.formula import State, formula_text, names
from procgen.model.card import plain
from procgen.model.formula import Compare, Formula
from procgen.model.procedure import Branch, Decision, Procedure, Reading, ValueSpec
from procgen.model.workshop import Gauge
from procgen.units.dimension import NAMES, NUMBER, name_of

Json = Any  # what json.dumps takes


def opened(benches: Mapping[str, Bench]) -> Mapping[str, OpenBench]:
    """A family's benches, open, by the id of the variant as found; "found>built" for one that is built as another."""
    found = {}
    for bench in benches.values():
        workshop, family, variant, common = bench.workshop, bench.family, bench.variant, bench.common
        name = "" if variant is None else variant.id
        found[name] = OpenBench(workshop, family, variant, common=common)
        for other in family.variants:
            if other.id != name:
                found[f"{name}>{other.id}"] = OpenBench(workshop, family, variant, built=other.facts, common=common)
    return found


def live(id: str, benches: Mapping[str, OpenBench]) -> str | None:
    """As JSON, of the card of that id, from the family's open benches; None where it reads and decides nothing."""
    bench = next(iter(benches.values()))
    procedure = bench.procedures[id]
    if not procedure.readings and not procedure.decisions:
        return None
    workshop, family, scope = bench.workshop, bench.family, bench.card(id)
    asks_built = any(name.startswith(BUILT) for f in _formulas(procedure) for name in scope.names(f.tree))
    benches = {name: one for name, one in benches.items() if asks_built or ">" not in name}
    shows = Shows()
    units = units_for(workshop, family)
    first, *others = (_Writer(Marking({"": one.card(id)}, units), shows) for one in benches.values())
    whole = first.all()
    kinds = {reading.gauge for reading in procedure.readings.values() if reading.gauge}
    data = {
        "title": procedure.title,
        "guard": workshop.guard,
        "gauges": {gauge.id: _gauge(gauge) for gauge in workshop.gauges.values() if gauge.kind in kinds},
        "shows": shows.written,
        "units": shows.units,
        "variants": dict(zip(benches, (whole, *(other.differing(first, whole) for other in others)), strict=True)),
    }
    return json.dumps(data, ensure_ascii=False, separators=(",", ":"))


def _formulas(card: Procedure) -> Iterator[Formula]:
    yield from formulas_of(card)
    for reading in card.readings.values():
        expected = None if reading.expect is None else reading.expect.near
        yield from (formula for formula in (reading.at, reading.when, expected) if formula is not None)


def _gauge(gauge: Gauge) -> Json:
    """Kind, what it is sure to, alone and for a difference at one setting, and what it reaches from and to."""
    figures = (gauge.uncertainty, gauge.difference_uncertainty, *(gauge.range or (None, None)))
    return [gauge.kind, *(None if one is None else one.value for one in figures)]


class _Writer:
    """Writes one card in one variant."""

    def __init__(self, speaker: Marking, shows: Shows) -> None:
        self.speaker = speaker
        self.scope = speaker.first
        self.card = speaker.first.procedure
        self.shows = shows
        self.trees = Trees(speaker.first)
        self.axes: dict[str, None] = {}

    def all(self) -> dict[str, Json]:
        written: dict[str, Json] = {
            "readings": {reading.name: self.reading(reading) for reading in self.card.readings.values()},
            "values": {value.name: self.value(value) for value in self.card.values.values() if self.is_live(value)},
            "decisions": {decision.name: self.decision(decision) for decision in self.card.decisions.values()},
            "steps": dict(self.steps()),
        }
        self.trees.needs.update(self.speaker.needs)
        asked = dict.fromkeys(
            [*self.card.readings, *(axis for axis in LOCAL_AXES if axis in self.axes), *self.trees.unknown]
        )
        for card in self.trees.needs:
            prefix = card.replace("-", "_")
            own = (*self.scope.bench.procedures[card].readings, *LOCAL_AXES)
            asked.update(dict.fromkeys(f"{prefix}.{name}" for name in own))
        members = {axis: list(self.scope.members(axis)) for axis in self.axes if axis != "depth"}
        return {
            "members": members,
            "words": {axis: axis_word(axis) for axis in self.axes},
            "marked": self.speaker.marked,
            "ask": self.ask(asked),
            **written,
        }

    def differing(self, first: _Writer, whole: Mapping[str, Json]) -> dict[str, Json]:
        """What is not as in the `whole` that the first variant's writer wrote, section by section."""
        alike = first.scope.agrees(self.scope)  # then what to ask for may differ, by the depths of other cards
        written = {"ask": self.ask(whole["ask"])} if alike else self.all()
        return {
            section: {name: entry for name, entry in entries.items() if whole[section].get(name) != entry}
            for section, entries in written.items()
            if whole[section] != entries
        }

    def ask(self, names: Iterable[str]) -> dict[str, Json]:
        return {name: ask(name, self.speaker) for name in names}

    def reading(self, reading: Reading) -> dict[str, Json]:
        self.axes.update(dict.fromkeys(reading.each))
        written: dict[str, Json] = {"title": reading.title, "each": reading.each}
        if reading.choices:
            written["choices"] = dict(reading.choices)
        else:
            dimension = NAMES.get(reading.dimension, NUMBER)
            written |= {"units": self.shows.entered(dimension, self.speaker.units), "gauge": reading.gauge}
            written["measures"] = name_of(dimension)
            written["show"] = self.shows.of(default_show(dimension), self.speaker.units)
            written |= self.counted(reading)
        if "axis" in reading.each:
            written["axis"] = dict(reading.axis)
        if reading.at is not None:
            written["stations"] = self.stations(reading.at)
        if reading.expect is not None:
            expect = reading.expect
            near = self.trees.written(expect.near, reading.each)
            written["expect"] = [near, expect.below.value, expect.above.value]
        if reading.least:
            written["least"] = dict(reading.least)
        return written | self.when(reading.when, reading.each)

    def stations(self, at: Formula) -> Json:
        cell = self.scope.cell(at, {})
        depths = cell.value if cell.state is State.KNOWN and isinstance(cell.value, tuple) else ()
        return [[f"{depth:g}", depth] for depth in depths]

    def counted(self, reading: Reading) -> dict[str, Json]:
        """What is counted one by one: `plug`, where a formula sets this number against count.plug; and the numbers of
        other cards that it sets aside, as of those that were left in.
        """
        if reading.dimension != "number" or reading.each:
            return {}
        for value in self.card.values.values():
            used = names(value.formula.tree) if value.formula is not None else ()
            others = [name for name in used if name != reading.name]
            counts = [name for name in others if name.startswith("count.")]
            aside = [self.trees.named(name) for name in others if name not in counts]
            if reading.name in used and len(counts) == 1 and all(tree[0] == "of" for tree in aside):
                axis = counts[0].partition(".")[2]
                self.axes[axis] = None
                return {"counts": axis, "aside": aside}
        return {}

    def is_live(self, value: ValueSpec) -> bool:
        asked = any(value.name in reading.least for reading in self.card.readings.values())
        return asked or self.trees.waits(value.name)

    def value(self, value: ValueSpec) -> dict[str, Json]:
        self.axes.update(dict.fromkeys(value.each))
        written: dict[str, Json] = {"title": value.title, "each": value.each}
        written["tree"] = None if value.formula is None else self.trees.written(value.formula, value.each)
        if value.fixed is not None:
            written["tree"] = ["value", value.fixed.value]
        if (found := self.scope.lexicon.type_of(value.name)) is not None and found.kind == "number":
            written["show"] = self.shows.of(self.speaker.show_of(value.name), self.speaker.units)
            if (side := self.speaker.side(value.name)) != "":
                written["side"] = side
        return written | self.when(value.when, value.each)

    def decision(self, decision: Decision) -> dict[str, Json]:
        self.axes.update(dict.fromkeys(decision.each))
        pairs: dict[frozenset[str], int] = {}
        branches = [self.branch(branch, decision, pairs) for branch in decision.branches]
        return {"title": decision.title, "each": decision.each, "branches": branches} | self.when(
            decision.when, decision.each
        )

    def branch(self, branch: Branch, decision: Decision, pairs: dict[frozenset[str], int]) -> dict[str, Json]:
        action, detail = action_and_detail(branch, self.speaker)
        written: dict[str, Json] = {"id": branch.id, "action": parts(action), "detail": parts(plain(detail))}
        if branch.when is not None:
            folded = self.trees.folded(branch.when, decision.each)
            written["tree"] = self.trees.inlined(folded)
            asks = {node.at: self.sides(node, decision, pairs) for node in self.scope.compares(branch.when.tree)}
            written["sides"] = [asks[node.at] for node in self.scope.compares(folded.tree)]
        return written

    def sides(self, tree: Compare, decision: Decision, pairs: dict[frozenset[str], int]) -> Json:
        """Which comparison of this decision it is, and how each side is called and printed."""
        pair = pairs.setdefault(frozenset((formula_text(tree.left), formula_text(tree.right))), len(pairs))
        dimension = self.trees.dimension(tree, decision.each)
        said = [
            [title_of(side, self.speaker), self.shows.of(shown_as(side, dimension, self.scope), self.speaker.units)]
            for side in (tree.left, tree.right)
        ]
        return [pair, *said]

    def steps(self) -> Iterator[tuple[str, Json]]:
        for step in self.card.steps:
            if step.when is not None and any(map(self.trees.waits, names(step.when.tree))):
                yield step.id, self.trees.written(step.when, ())

    def when(self, when: Formula | None, each: tuple[str, ...]) -> dict[str, Json]:
        return {} if when is None else {"when": self.trees.written(when, each)}
