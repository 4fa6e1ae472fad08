"""A family's file into a Family: its facts by name, its layout, drillings and plugs, and what it changes in cards."""

from __future__ import annotations

from collections.abc import Mapping

from procgen.files.document import Cursor
from procgen.files.problems import Related
from procgen.load.amend import amendments
from procgen.load.facts import Members, facts, members
from procgen.load.oilways import core_plugs, drain_plugs, passages, plugs
from procgen.load.reader import Reader, entries, word
from procgen.model.family import Family, Layout, Variant
from procgen.model.procedure import Procedure
from procgen.model.workshop import Trait

COUNTS = ("", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")


def load_family(
    root: Cursor,
    reader: Reader,
    procedures: Mapping[str, Procedure],
    broken: frozenset[str],
    traits: Mapping[str, Trait],
) -> Family:
    """A family whose file has passed its schema.

    `procedures` are those that it may amend; amendments to a `broken` one are neither checked nor kept.
    """
    layout = _layout(root, reader)
    typed = {trait: (word(value), place) for trait, value, place in entries(root.get("traits")) if not value.is_empty}
    return Family(
        id=word(root.get("id")),
        name=word(root.get("name")),
        place=root["id"].place,
        layout=layout,
        traits=typed,
        facts=facts(root, reader),
        members=_with_cylinders(members(root, reader), layout),
        variants=_apart(tuple(_variant(id, spec, reader) for id, spec, _ in entries(root.get("variants"))), reader),
        passages=passages(root.get("passages"), reader),
        plugs=plugs(root.get("plugs"), reader),
        core_plugs=core_plugs(root.get("core_plugs"), reader),
        drain_plugs=drain_plugs(root.get("drain_plugs"), reader),
        amendments=amendments(root.get("amend"), reader, procedures, broken),
        show=shown_units(root.get("show"), reader),
        describe=word(root.get("describe")) or _described(layout, typed.get("block.material", ("",))[0], traits),
    )


def shown_units(at: Cursor | None, reader: Reader) -> dict[str, str]:
    """Units by the name of their dimension."""
    chosen = {name: reader.unit(unit, name) for name, unit, _ in entries(at) if name != "also" and not unit.is_empty}
    return {name: unit for name, unit in chosen.items() if unit}


def _layout(root: Cursor, reader: Reader) -> Layout:
    at = root.known("layout")
    if at is None:
        return Layout(None, None, None, None, root.place)
    cylinders = at.known("cylinders")
    return Layout(
        kind=word(at.get("kind")) or None,
        cylinders=None if cylinders is None else int(cylinders.number()),
        bank_angle=reader.value(at.get("bank_angle"), "angle"),
        bore_spacing=reader.value(at.get("bore_spacing"), "length"),
        place=at.place,
    )


def _with_cylinders(named: Members, layout: Layout) -> Members:
    """Cylinders that the family doesn't name are numbered; a bank is known wherever something stands in it."""
    if "cylinder" not in named and layout.cylinders is not None:
        named["cylinder"] = {str(number): {} for number in range(1, layout.cylinders + 1)}
    banks = {own["bank"].value: None for own in named.get("cylinder", {}).values() if "bank" in own}
    for bank in banks:
        if isinstance(bank, str):
            named.setdefault("bank", {}).setdefault(bank, {})
    return named


def _apart(variants: tuple[Variant, ...], reader: Reader) -> tuple[Variant, ...]:
    """Those that cards can tell apart: by their names."""
    first: dict[str, Variant] = {}
    for variant in variants:
        if (other := first.setdefault(variant.name, variant)) is not variant:
            related = (Related(other.place, "first called so here"),)
            message = f"two variants are called `{variant.name}`"
            reader.error("same-id", message, variant.place, "give one of them another `name`", related)
    return tuple(first.values())


def _variant(id: str, spec: Cursor, reader: Reader) -> Variant:
    return Variant(id, word(spec.get("name"), id), facts(spec, reader), spec.place)


def _described(layout: Layout, material: str, traits: Mapping[str, Trait]) -> str:
    """ "Inline four, iron block" from what is known: no more."""
    shape = {"vee": "V", "inline": "inline"}.get(layout.kind or "", "")
    if layout.cylinders is not None:
        number = COUNTS[layout.cylinders] if layout.cylinders < len(COUNTS) else str(layout.cylinders)
        unnamed = "one cylinder" if layout.cylinders == 1 else f"{number} cylinders"
        shape = {"V": f"V{layout.cylinders}", "inline": f"inline {number}"}.get(shape, unnamed)
    else:
        shape = {"V": "V engine", "inline": "inline engine"}.get(shape, "")
    known = traits.get("block.material")
    block = f"{material} block" if material and known is not None and material in known.values else ""
    said = ", ".join(part for part in (shape, block) if part)
    return said[:1].upper() + said[1:]
