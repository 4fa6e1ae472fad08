"""Before and after: what the same place measured earlier, and what has been removed since."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from itertools import pairwise

from procgen.compose import figures
from procgen.compose.packet.maps import gauged, warmth
from procgen.compose.readings import Readings, Reported
from procgen.compose.spoken import Speaker, axis_word, default_show
from procgen.formula import known
from procgen.model.job import Index
from procgen.model.packet import Before, Change
from procgen.model.procedure import Reading
from procgen.units.dimension import NAMES
from procgen.units.quantity import Quantity

Pair = tuple[Reported, Reported]


def befores(speakers: Mapping[str, Speaker], readings: Readings) -> Iterator[Before]:
    """Each card that was measured again, and each whose cylinders an earlier card had gauged."""
    for id, speaker in speakers.items():
        pairs = {
            (key[1], key[2]): (earlier[-1], now)
            for key, earlier in readings.earlier.items()
            if key[0] == id and (now := readings.standing(*key)) is not None
        }
        yield from _before(speaker, pairs)
    cards = list(gauged(speakers))
    for (earlier, reading), (later, again) in pairwise(cards):
        if reading.name == again.name:
            yield from _before(later, dict(_across_cards(earlier, later, reading, readings)))


def _across_cards(
    earlier: Speaker, later: Speaker, reading: Reading, readings: Readings
) -> Iterator[tuple[tuple[str, Index], Pair]]:
    first, second = earlier.first.procedure.id, later.first.procedure.id
    for reported in readings.all():
        if reported.session.card == first and reported.taken.reading == reading.name:
            now = readings.standing(second, reading.name, reported.taken.index)
            if now is not None:
                yield (reading.name, reported.taken.index), (reported, now)


def _before(speaker: Speaker, pairs: Mapping[tuple[str, Index], Pair]) -> Iterator[Before]:
    groups: dict[tuple[str, str, Index], list[Pair]] = defaultdict(list)
    for (name, index), pair in pairs.items():
        groups[_session(pair[0]), name, index[:1]].append(pair)
    sessions: dict[str, list[Change]] = defaultdict(list)
    later = ""
    for (earlier, name, of), found in groups.items():
        reading = speaker.first.procedure.readings[name]
        change = _change(reading, of, found, speaker)
        if change is not None:
            sessions[earlier].append(change)
            later = _session(found[0][1])
    for earlier, changes in sessions.items():
        yield Before(speaker.first.procedure.title, earlier, later, tuple(changes))


def _change(reading: Reading, of: Index, pairs: list[Pair], speaker: Speaker) -> Change | None:
    """One row for all places of a member."""
    sizes = [tuple(_number(one) for one in pair) for pair in pairs]
    whole = [(was, now) for was, now in sizes if was is not None and now is not None]
    if not whole:
        return None
    whose = f"{axis_word(reading.each[0])} {of[0]}" if of else ""
    places = f", {len(whole)} places" if len(whole) > 1 else ""
    return Change(
        title=f"{reading.title}{places}",
        whose=whose,
        before=_range((was for was, _ in whole), reading, speaker),
        after=_range((now for _, now in whole), reading, speaker),
        removed=_range((now - was for was, now in whole), reading, speaker),
    )


def _range(numbers: Iterable[float], reading: Reading, speaker: Speaker) -> str:
    found = sorted(numbers)
    low, high = (_text(number, reading, speaker) for number in (found[0], found[-1]))
    return low if low == high else f"{low.partition(chr(0x202F))[0]}–{high}"


def _text(number: float, reading: Reading, speaker: Speaker) -> str:
    show = default_show(NAMES[reading.dimension])
    return figures.in_line(figures.computed(known(number), show, speaker.units))


def _number(reported: Reported) -> float | None:
    value = reported.taken.value
    return value.value if isinstance(value, Quantity) else None


def _session(reported: Reported) -> str:
    """Its id, day and warmth, as far as they are known."""
    session = reported.session
    return ", ".join(filter(None, (session.id, session.on, warmth(session))))
