"""The workshop's own file: the shop's name, units, stock, gauges, rules, and the order of work."""

from __future__ import annotations

from pathlib import Path

from procgen.files.document import Cursor
from procgen.load.family import shown_units
from procgen.load.reader import Reader, entries, placed, word
from procgen.load.shared import distances
from procgen.model.workshop import Gauge, Rule, Sheets, Workshop
from procgen.units.quantity import Quantity
from procgen.units.spelling import a_thing
from procgen.units.table import COUNT

DEFAULT_STOCK = "a5"
FIGURES = ("step", "uncertainty", "difference_uncertainty")


def load_shop(root: Path, at: Cursor, reader: Reader) -> Workshop:
    """The workshop without what its other files hold."""
    approved = at.known("approved")
    guard = at.known("guard")
    return Workshop(
        root=root,
        name=word(at.get("name")),
        site=word(at.get("site")),
        show=shown_units(at.get("show"), reader),
        also=_also(at),
        stock=word(at.get("stock"), DEFAULT_STOCK),
        read_from=distances(at.known("read_from"), reader),
        deck=placed(at.get("deck")),
        approved_by=word(approved.get("by")) if approved else "",
        approved_on=reader.day(approved.get("on")) if approved else "",
        guard=1.0 if guard is None else float(guard.number()),
        place=at.place,
        gauges=load_gauges(at.get("gauges"), reader),
        rules=_rules(at.get("rules"), reader),
        theme=word(at.get("theme"), "colour"),
        sheets=_sheets(at.known("sheets")),
        awaits={trait: placed(words) for trait, words, _ in entries(at.get("awaits"))},
    )


def load_gauges(at: Cursor | None, reader: Reader) -> dict[str, Gauge]:
    found = {}
    for id, spec, place in entries(at):
        ends = reader.quantities(spec.get("range"), None)
        _fits(spec, ends, reader)
        found[id] = Gauge(
            id=id,
            kind=word(spec.get("kind")),
            step=reader.quantity(spec.get("step"), None),
            uncertainty=reader.quantity(spec.get("uncertainty"), None),
            range=(ends[0], ends[1]) if ends is not None else None,
            place=place,
            difference_uncertainty=reader.quantity(spec.get("difference_uncertainty"), None),
        )
    return found


def _fits(spec: Cursor, ends: tuple[Quantity, ...] | None, reader: Reader) -> None:
    """All figures of a gauge are of what it measures, and its range runs upward."""
    stated = [one for key in FIGURES if (one := reader.quantity(spec.known(key), None)) is not None]
    units = [one.unit.symbol for one in (*(ends or ()), *stated) if one.unit is not COUNT]
    if ends and units and COUNT in (end.unit for end in ends):
        hint = f"write it after both ends, for example [{', '.join(f'{end.text} {units[0]}' for end in ends)}]"
        reader.error("gauge-figures", "`range` has no unit", spec["range"].place, hint)
        return
    measured = ends[0] if ends else None
    for key in FIGURES:
        at = spec.known(key)
        found = None if at is None else reader.quantity(at, None)
        measured = measured or found
        if at is None or found is None or measured is None:
            continue
        if found.value <= 0:
            hint = "leave it empty until it is known"
            reader.error("gauge-figures", f"`{key}` must be more than nothing", at.place, hint)
        if found.dimension.difference != measured.dimension.difference:
            message = f"`{key}` is {a_thing(found.dimension)}; the gauge measures {a_thing(measured.dimension)}"
            reader.error("gauge-figures", message, at.place, "mend its unit")
    if ends and ends[0].dimension == ends[1].dimension and ends[0].value > ends[1].value:
        reader.error("gauge-figures", "`range` runs downward", spec["range"].place, "write the lower end first")


def _also(at: Cursor) -> bool:
    show = at.known("show")
    return show is not None and word(show.get("also")) == "in brackets"


def _sheets(at: Cursor | None) -> Sheets:
    return Sheets() if at is None else Sheets(word(at.get("paper")), word(at.get("duplex"), "long"))


def _rules(at: Cursor | None, reader: Reader) -> dict[str, Rule]:
    found = {}
    for name, spec, place in entries(at):
        value = reader.quantity(spec.get("is"), None)
        if value is not None:
            found[name] = Rule(name, word(spec.get("title")), value, word(spec.get("source"), "shop practice"), place)
    return found
