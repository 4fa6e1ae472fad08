"""A job's file into a Job. What its readings are is said by the cards that they are for, and by its family."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping

from procgen.files.document import Cursor
from procgen.files.problems import Place, Related
from procgen.load.facts import facts
from procgen.load.reader import Reader, entries, items, word
from procgen.load.shop import load_gauges
from procgen.model.family import Fact, Family
from procgen.model.job import Job, Override, Part, Session, Taken
from procgen.model.procedure import Procedure, Reading
from procgen.model.workshop import Workshop
from procgen.units.compare import equal
from procgen.units.dimension import LENGTH, NAMES
from procgen.units.nearest import did_you_mean
from procgen.units.quantity import Quantity, UnitError, parse_quantity
from procgen.units.table import UNITS

RESERVED = ("id", "card", "on", "by", "temperature", "gauge", "continues")
WITHIN = ("depth", "axis")
"""Axes that stand below the reading's name; all others stand above it."""


def load_job(
    at: Cursor, reader: Reader, workshop: Workshop, more: Iterable[Cursor] = (), lost: Collection[str] = ()
) -> Job | None:
    """The job, with `more` sessions that come from elsewhere; those of cards that are `lost` are left out.

    None where it names no family that is there: then none of its readings can be understood.
    """
    family_at = at.known("family")
    if family_at is None:
        return None
    family = workshop.families.get(word(family_at))
    if family is None and word(family_at) in lost:
        return None
    if family is None:
        hint = did_you_mean(word(family_at), workshop.families)
        reader.error("no-family", f"there is no family `{word(family_at)}`", family_at.place, hint)
        return None
    found = _variant(at, "variant", family, reader)
    gauges = {**workshop.gauges, **load_gauges(at.get("gauges"), reader)}
    return Job(
        id=word(at.get("id")),
        title=word(at.get("title")),
        family=family.id,
        found=found,
        built=_variant(at, "build", family, reader) or found,
        place=at["id"].place,
        marks={name: word(mark) for name, mark, _ in entries(at.known("marks"))},
        changes=_changes(at.known("changes"), reader),
        gauges=gauges,
        sessions=tuple(_sessions((*items(at.known("sessions")), *more), reader, workshop, family, lost)),
        shelf={name: _part(name, part, place, reader) for name, part, place in entries(at.known("shelf"))},
        overrides=tuple(_overrides(at, reader, workshop, lost)),
    )


def _variant(at: Cursor, key: str, family: Family, reader: Reader) -> str:
    given = at.known(key)
    known = [variant.id for variant in family.variants]
    if given is not None and word(given) not in known:
        message = f"the {family.name} has no variant `{word(given)}`"
        reader.error("no-variant", message, given.place, did_you_mean(word(given), known))
        return ""
    return word(given)


def _changes(at: Cursor | None, reader: Reader) -> Mapping[str, Fact]:
    """By the names of the family's figures; `rods: {rod_length: …}` is the engine's geometry too."""
    if at is None:
        return {}
    found = facts(at, reader)
    rods = at.known("rods")
    length = None if rods is None else rods.known("rod_length")
    if length is not None:
        found["geometry.rod_length"] = Fact(reader.quantity(length, LENGTH), length.place)
    return found


def _sessions(
    found: Iterable[Cursor], reader: Reader, workshop: Workshop, family: Family, lost: Collection[str]
) -> Iterator[Session]:
    earlier: dict[str, str] = {}
    for one in found:
        goes_on = one.known("continues")
        if goes_on is not None and word(goes_on) not in earlier:
            message = f"there is no session `{word(goes_on)}` before this one"
            reader.error("no-session", message, goes_on.place, did_you_mean(word(goes_on), earlier))
        card = workshop.procedures.get(word(one.get("card")))
        if card is None and word(one.get("card")) in lost:
            continue
        if card is None:
            place = one["card"].place
            hint = did_you_mean(word(one.get("card")), workshop.procedures)
            reader.error("no-card", f"there is no card `{word(one.get('card'))}`", place, hint)
            continue
        if earlier.get(word(one.get("id"))) == card.id:
            message = f"two sessions for `{card.id}` are called `{word(one.get('id'))}`"
            reader.error("same-id", message, one["id"].place, "give one of them another id")
        earlier[word(one.get("id"))] = card.id
        yield Session(
            id=word(one.get("id")),
            card=card.id,
            on=reader.day(one.get("on")),
            by=word(one.get("by")),
            temperature=reader.quantity(one.get("temperature"), NAMES["temperature"]),
            gauges={name: word(gauge) for name, gauge, _ in entries(one.known("gauge"))},
            taken=tuple(_Taking(reader, card, family).all(one)),
            place=one["id"].place,
            continues=word(goes_on),
        )


class _Taking:
    """Reads one session's readings for one card and family."""

    def __init__(self, reader: Reader, card: Procedure, family: Family) -> None:
        self.reader, self.card, self.family = reader, card, family

    def all(self, session: Cursor) -> Iterator[Taken]:
        above = {axis for reading in self.card.readings.values() for axis in reading.each if axis not in WITHIN}
        for key, content, place in entries(session):
            if key in RESERVED:
                continue
            if key in above:
                yield from self.members(key, content)
            else:
                yield from self.named(key, (), content, place)

    def members(self, axis: str, content: Cursor) -> Iterator[Taken]:
        known = self.family.members.get(axis, {})
        for member, readings, place in entries(content):
            if member not in known:
                word_ = axis.replace("_", " ")
                message = f"the {self.family.name} has no {word_} `{member}`"
                hint = did_you_mean(member, known) or f"it has {', '.join(known)}"
                self.reader.error("no-member", message, place, hint)
                continue
            if not (readings.is_map or readings.is_empty):
                message = f"what was read of `{member}` goes by its name; this is a value alone"
                self.reader.error("wrong-type", message, readings.place, self.for_example(axis))
                continue
            for name, value, name_place in entries(readings):
                yield from self.named(name, (member,), value, name_place)

    def for_example(self, axis: str) -> str:
        name = next((one.name for one in self.card.readings.values() if axis in one.each), "reading")
        return f"write {{{name}: …}}"

    def named(self, name: str, members: tuple[str, ...], content: Cursor, place: Place) -> Iterator[Taken]:
        reading = self.card.readings.get(name)
        above = () if reading is None else tuple(axis for axis in reading.each if axis not in WITHIN)
        if reading is None or len(above) != len(members):
            fitting = [
                r.name for r in self.card.readings.values() if len(members) == sum(a not in WITHIN for a in r.each)
            ]
            message = f"the card `{self.card.id}` takes no reading `{name}` here"
            self.reader.error("no-reading", message, place, did_you_mean(name, fitting))
            return
        below = tuple(axis for axis in reading.each if axis in WITHIN)
        yield from self.within(reading, members, below, content)

    def within(self, reading: Reading, index: tuple[str, ...], axes: tuple[str, ...], at: Cursor) -> Iterator[Taken]:
        if not axes:
            because = ""
            confirmed = at.get("is") if at.is_map else None
            if confirmed is not None:  # {is: …, because: …}
                because, at = word(at.get("because")), confirmed
            yield Taken(reading.name, index, self.value(reading, at), at.place, because)
            return
        if not (at.is_map or at.is_empty):
            first = next(iter(reading.axis), "way") if axes[0] == "axis" else "12"
            message = f"`{reading.name}` is read more than once; this is a value alone"
            self.reader.error("wrong-type", message, at.place, f"say where each was read, as in {{{first}: …}}")
            return
        seen: dict[float, Place] = {}
        for member, content, place in entries(at):
            if axes[0] == "axis" and member not in reading.axis:
                hint = did_you_mean(member, reading.axis)
                self.reader.error("no-member", f"`{reading.name}` is not read `{member}`", place, hint)
                continue
            if axes[0] == "depth" and not self.is_depth(member, place, seen):
                continue
            yield from self.within(reading, (*index, member), axes[1:], content)

    def is_depth(self, text: str, place: Place, seen: dict[float, Place]) -> bool:
        depth = depth_of(text)
        if depth is None:
            self.reader.error("depth", f"`{text}` is no depth below the deck", place, "write it in mm, as in 12")
            return False
        same = next((other for other in seen if equal(other, depth, LENGTH)), None)
        if same is not None:
            first = (Related(seen[same], "first read here"),)
            self.reader.error("read-twice", f"depth {text} was read already", place, "keep one of the two", first)
            return False
        seen[depth] = place
        return True

    def value(self, reading: Reading, at: Cursor) -> Quantity | str | None:
        if at.is_empty:
            return None
        if at.is_map or at.is_list:
            message = f"`{reading.name}` is read once here; this is {'a map (`key: value`)' if at.is_map else 'a list'}"
            self.reader.error("wrong-type", message, at.place, "write what was read, alone")
            return None
        if not reading.choices:
            return self.reader.quantity(at, NAMES[reading.dimension])
        if word(at) not in reading.choices:
            hint = did_you_mean(word(at), reading.choices)
            self.reader.error("unknown-word", f"`{reading.name}` is never `{word(at)}`", at.place, hint)
            return None
        return word(at)


def depth_of(text: str) -> float | None:
    """A depth as a key: a bare number is in mm."""
    try:
        return parse_quantity(text, LENGTH, UNITS["mm"]).value
    except UnitError:
        return None


def _part(name: str, at: Cursor, place: Place, reader: Reader) -> Part:
    count = at.known("count")
    return Part(
        name=name,
        kind=word(at.get("kind"), name),
        oversize=reader.quantity(at.get("oversize"), LENGTH),
        undersize=reader.quantity(at.get("undersize"), LENGTH),
        count=None if count is None else int(count.number()),
        measured=reader.quantities(at.get("measured"), LENGTH) or (),
        note=word(at.get("note")),
        place=place,
        size=reader.quantity(at.get("size"), LENGTH),
    )


def _overrides(at: Cursor, reader: Reader, workshop: Workshop, lost: Collection[str]) -> Iterator[Override]:
    for one in items(at.known("overrides")):
        card_id, _, name = word(one.get("decision")).partition("/")
        card = workshop.procedures.get(card_id)
        decision = card.decisions.get(name) if card is not None else None
        if card is None and card_id in lost:
            continue
        if decision is None:
            known = [f"{p.id}/{d}" for p in workshop.procedures.values() for d in p.decisions]
            hint = did_you_mean(word(one.get("decision")), known)
            reader.error(
                "no-decision", f"there is no decision `{word(one.get('decision'))}`", one["decision"].place, hint
            )
            continue
        branches: Mapping[str, object] = {branch.id: branch for branch in decision.branches}
        if word(one.get("branch")) not in branches:
            hint = did_you_mean(word(one.get("branch")), branches)
            message = f"`{name}` has no branch `{word(one.get('branch'))}`"
            reader.error("no-branch", message, one["branch"].place, hint)
            continue
        yield Override(
            card=card_id,
            decision=name,
            member={axis: word(one.get(axis)) for axis in decision.each},
            branch=word(one.get("branch")),
            by=word(one.get("by")),
            on=reader.day(one.get("on")),
            reason=word(one.get("reason")),
            place=one.place,
        )
