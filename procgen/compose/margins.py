"""How far each comparison of a job's readings lies from its limit, and what would settle one that is too close."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from procgen.compose import figures
from procgen.compose.readings import Readings
from procgen.compose.scope import CardScope
from procgen.compose.spoken import Bound, Speaker, default_show
from procgen.formula import Cell, State, evaluate, formula_text, known, nodes
from procgen.formula.words import lowered
from procgen.model.formula import Compare, Expr, Logic, Name
from procgen.model.procedure import Decision, ValueSpec
from procgen.model.verdict import INSIDE, OUTSIDE, TOO_CLOSE, Margin
from procgen.units.compare import at_most, less
from procgen.units.dimension import Dimension
from procgen.units.quantity import Show

_DIGIT = re.compile("[1-9]")
_TURNED = {"<": ">", "<=": ">=", ">": "<", ">=": "<="}


def margins(decision: Decision, bound: Bound, last: str, speaker: Speaker) -> Iterator[Margin]:
    """Every comparison of readings that had a say, in order, up to the branch `last`; each pair of sides once."""
    seen: set[frozenset[str]] = set()
    for branch in decision.branches:
        for tree in () if branch.when is None else _heard(branch.when.tree, bound, speaker.first):
            if isinstance(tree, Compare):
                sides = frozenset((formula_text(tree.left), formula_text(tree.right)))
                margin = None if sides in seen else _margin(tree, bound, speaker)
                seen.add(sides)
                if margin is not None:
                    yield margin
        if branch.id == last:
            return


def _heard(tree: Expr, bound: Bound, scope: CardScope) -> Iterator[Expr]:
    """All parts of a condition, but those that something beside them rules out, such as the kind of a plug."""
    if isinstance(tree, Logic):
        measured = [any(isinstance(node, Compare) for node in nodes(term)) for term in tree.terms]
        others = [term for term, is_measured in zip(tree.terms, measured, strict=True) if not is_measured]
        if tree.operator == "and" and any(evaluate(term, scope, bound).one.value is False for term in others):
            return
        for term in tree.terms:
            yield from _heard(term, bound, scope)
    else:
        yield from nodes(tree)


def settles(found: Iterable[Margin], readings: Readings) -> str:
    """What would settle those that are too close: what to measure again, and with how fine a gauge."""
    close = [margin for margin in found if margin.side == TOO_CLOSE]
    if not close:
        return ""
    on_limit = next((margin for margin in close if not any(digit in "123456789" for digit in margin.margin_text)), None)
    if on_limit is not None:
        return f"{on_limit.title} lies on its limit: a named person decides"
    again = f"measure {' and '.join(dict.fromkeys(margin.title for margin in close))} again"
    fine = sorted(set(close[0].settled_by).intersection(*(margin.settled_by for margin in close)))
    if fine:
        return f"{again}, with {' or '.join(map(_called, fine))}"
    gauges = {readings.reported(name).gauge for margin in close for name in margin.readings}
    names = " and ".join(sorted(_called(gauge.id) for gauge in gauges if gauge is not None))
    nearest = min(close, key=lambda one: abs(one.value - one.limit))
    return f"{again}, more finely than with {names}: U of {nearest.title} must be under {_size(nearest)}"


def _called(gauge: str) -> str:
    return gauge.replace("_", " ")


def _size(margin: Margin) -> str:
    return margin.margin_text.lstrip("−")


def _margin(tree: Compare, bound: Bound, speaker: Speaker) -> Margin | None:
    scope = speaker.first
    spreads = [evaluate(side, scope, bound) for side in (tree.left, tree.right)]
    (left, right), operator, value = (spread.one for spread in spreads), tree.operator, tree.left
    if left.state is not State.KNOWN or right.state is not State.KNOWN or not (left.partials or right.partials):
        return None
    if not left.partials:
        left, right, value, operator = right, left, tree.right, _TURNED[operator]
    dimension = next((s.dimension for s in spreads if not s.dimension.is_number), spreads[0].dimension)
    return _judged(value, left, right, operator in ("<=", ">"), dimension, speaker)


def _judged(value: Expr, left: Cell, right: Cell, most: bool, dimension: Dimension, speaker: Speaker) -> Margin:
    """`most`: the limit is an upper one, as in `x <= limit` and in `x > limit`, which refuses what lies above."""
    scope = speaker.first
    difference = known(left.number - right.number, _less(left.partials, right.partials))
    readings = _readings(scope)
    uncertainty, guard = readings.uncertainty(difference), readings.guard(difference)
    over = difference.number if most else -difference.number

    def called(guard: float) -> str:
        return INSIDE if at_most(over, -guard, dimension) else OUTSIDE if less(guard, over, dimension) else TOO_CLOSE

    show = shown_as(value, dimension, scope)
    others = () if called(guard) != TOO_CLOSE else readings.others(difference)
    fine = (gauge.id for gauge in others if called(readings.guard(difference, gauge)) != TOO_CLOSE)

    def text(number: float, show: Show = show) -> str:
        return figures.in_line(figures.computed(known(number), show, speaker.units))

    def sure(show: Show) -> str:
        """Fine enough not to read as nought."""
        said = text(uncertainty, show)
        is_told = _DIGIT.search(said) or not less(0.0, uncertainty, dimension)
        return said if is_told else sure(Show(show.step.scaleb(-1), show.unit))

    return Margin(
        title=title_of(value, speaker),
        value=left.number,
        limit=right.number,
        uncertainty=uncertainty,
        guard=guard,
        limit_is="most" if most else "least",
        side=called(guard),
        value_text=text(left.number),
        limit_text=text(right.number),
        margin_text=text(-over),
        uncertainty_text=sure(show),
        readings=tuple(sorted(difference.partials)),
        settled_by=tuple(sorted(fine)),
    )


def blunt(found: tuple[Margin, ...]) -> tuple[Margin, ...]:
    """The margins, marked where two limits of one value lie so near that the gauge could never accept anything."""

    def is_blunt(margin: Margin) -> bool:
        others = (other for other in found if other.title == margin.title and other.limit_is != margin.limit_is)
        return any(abs(other.limit - margin.limit) < margin.guard + other.guard for other in others)

    return tuple(replace(margin, blunt=True) if is_blunt(margin) else margin for margin in found)


def _less(left: Mapping[str, float], right: Mapping[str, float]) -> dict[str, float]:
    return {name: left.get(name, 0.0) - right.get(name, 0.0) for name in (*left, *right)}


def title_of(tree: Expr, speaker: Speaker) -> str:
    """What one side of a comparison is called."""
    return lowered(speaker.title(tree.name)) if isinstance(tree, Name) else formula_text(tree)


def shown_as(tree: Expr, dimension: Dimension, scope: CardScope) -> Show:
    """How one side of a comparison prints."""
    meaning = scope.lexicon.meanings.get(tree.name) if isinstance(tree, Name) else None
    if meaning is not None and isinstance(meaning.spec, ValueSpec) and meaning.spec.show is not None:
        return meaning.spec.show
    return default_show(dimension)


def _readings(scope: CardScope) -> Readings:
    assert scope.bench.readings is not None
    return scope.bench.readings
