"""A value against its limits: one line with a bar, for the worst of several members."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from functools import partial

from procgen.compose import figures
from procgen.compose.packet.members import called
from procgen.compose.readings import Readings, in_words
from procgen.model.card import Figure
from procgen.model.packet import Bar, Line
from procgen.model.verdict import INSIDE, OUTSIDE, TOO_CLOSE, Margin, Verdict
from procgen.units.printing import as_written
from procgen.units.quantity import Quantity

TICK = 0.78  # share of the bar at which a single limit stands
LOW, HIGH = 0.22, 0.78
NEAR = 60.0  # times the distance to its limit: a limit larger than that is not drawn from nought
_ORDER = (TOO_CLOSE, OUTSIDE, INSIDE)


def lines_of(verdicts: Sequence[Verdict], each: str, readings: Readings) -> tuple[Line, ...]:
    """The comparisons of alike verdicts, each title once, for its worst member; the most pressing first."""
    found: dict[str, list[tuple[str, tuple[Margin, ...]]]] = {}
    for verdict in verdicts:
        for title in dict.fromkeys(margin.title for margin in verdict.margins):
            own = tuple(margin for margin in verdict.margins if margin.title == title)
            found.setdefault(title, []).append((verdict.member, own))
    lines = [_worst(of, each, partial(_read, readings)) for of in found.values()]
    return tuple(sorted(lines, key=lambda line: _ORDER.index(line.side)))


def _worst(found: list[tuple[str, tuple[Margin, ...]]], each: str, read: Callable[[str], str]) -> Line:
    member, margins = min(found, key=lambda one: (_ORDER.index(_side(one[1])), min(map(_room, one[1]))))
    return line(margins, called(each, [member]), read)


def line(margins: Sequence[Margin], whose: str, read: Callable[[str], str]) -> Line:
    """All margins of one value of one member. `read`: what a reading of that name is called, with what was read."""
    nearest = min(margins, key=_room)
    least = [margin for margin in margins if margin.limit_is == "least"]
    most = [margin for margin in margins if margin.limit_is == "most"]
    low = max(least, key=lambda margin: margin.limit) if least else None
    high = min(most, key=lambda margin: margin.limit) if most else None
    return Line(
        title=nearest.title,
        whose=whose,
        value=_trimmed(_bare(nearest.value_text), nearest),
        limit=_limit(low, high),
        margin=nearest.margin_text,
        uncertainty=nearest.uncertainty_text,
        side=_side(margins),
        readings=tuple(map(read, nearest.readings)),
        bar=bar(nearest, None if low is None else low.limit, None if high is None else high.limit),
        blunt=any(margin.blunt for margin in margins),
        is_measured=nearest.uncertainty > 0,
    )


def bar(margin: Margin, least: float | None, most: float | None) -> Bar:
    """From nought to the limit, or where that would show nothing, the stretch round the limits."""
    value, whisker = margin.value, margin.uncertainty
    if least is not None and most is not None and least < most:
        unit, zero, nought = (most - least) / (HIGH - LOW), least, False
        start = LOW
    else:
        limit = most if most is not None else least
        assert limit is not None
        apart = max(abs(value - limit), whisker, 1e-9)
        nought = 0 < limit <= NEAR * apart
        at = TICK if most is not None else 1 - TICK
        if nought and most is not None:
            unit, zero, start = limit / at, limit, at
        else:
            unit, zero, start, nought = 3 * apart / TICK, limit, at, False

    def share(number: float) -> float:
        return start + (number - zero) / unit

    dot = share(value)
    return Bar(
        dot=round(min(max(dot, 0.0), 1.0), 4),
        low=round(min(max(share(value - whisker), 0.0), 1.0), 4),
        high=round(min(max(share(value + whisker), 0.0), 1.0), 4),
        least=None if least is None else round(share(least), 4),
        most=None if most is None else round(share(most), 4),
        beyond=not 0.0 <= dot <= 1.0,
        from_nought=nought,
    )


def _room(margin: Margin) -> float:
    """How far inside its limit, negative outside."""
    return margin.limit - margin.value if margin.limit_is == "most" else margin.value - margin.limit


def _side(margins: Sequence[Margin]) -> str:
    """Outside one limit is outside; too close to one is too close; else inside."""
    sides = {margin.side for margin in margins}
    return OUTSIDE if OUTSIDE in sides else TOO_CLOSE if TOO_CLOSE in sides else INSIDE


def _limit(low: Margin | None, high: Margin | None) -> str:
    if low is None or high is None:
        one = low or high
        assert one is not None
        return f"{'≥' if one.limit_is == 'least' else '≤'} {_trimmed(one.limit_text, one)}"
    return f"{_trimmed(_bare(low.limit_text), low)}–{_trimmed(high.limit_text, high)}"


def _trimmed(text: str, margin: Margin) -> str:
    """What is counted has no digits after the point."""
    return text if margin.uncertainty else re.sub(r"\.0+\Z", "", text)


def _read(readings: Readings, name: str) -> str:
    """A reading for a person, with what was read, in mm where no unit stands: "bore A1 12 thrust 98.498"."""
    value = readings.reported(name).taken.value
    if not isinstance(value, Quantity):
        return f"{in_words(name)} {value}"
    unit = "" if value.unit.symbol == "mm" else value.unit.printed
    return f"{in_words(name)} {figures.in_line(Figure(as_written(value), unit))}"


def _bare(text: str) -> str:
    """A figure without its unit."""
    return text.partition("\u202f")[0].removesuffix("°")
