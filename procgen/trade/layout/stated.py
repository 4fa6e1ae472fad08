"""Whether the figures that a family states can be, each by itself or beside its neighbour."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from procgen.model.family import Family
from procgen.trade.block import middle
from procgen.trade.finding import Finding, said
from procgen.units.compare import less
from procgen.units.dimension import LENGTH
from procgen.units.quantity import Quantity

SIZES = {
    "bore", "stroke", "rod_length", "compression_height", "block_height", "bore_bottom", "compression_ratio", "mass",
    "length", "width", "journal", "housing_bore", "shell_wall", "block_bore", "bore_installed", "diameter",
    "main_cap_torque", "rod_cap_torque",
}  # fmt: skip
"""The last words of names of what is more than nothing, whatever else it may be."""

LARGEST_STEP = 0.1  # of the size; parts are offered up to some 2 mm over or under: common practice, no source
OFFERED = {"oversizes": "geometry.bore", "mains.undersizes": "main.journal", "rods.undersizes": "rods.journal"}
"""What parts are offered in, each by how much it differs from which size."""


def above_nothing(family: Family) -> Iterator[Finding]:
    """A bore, a wall, a mass or a torque is more than nothing."""
    members = (facts for of_axis in family.members.values() for facts in of_axis.values())
    stated = (family.facts, *(variant.facts for variant in family.variants), *members)
    wrong = {
        fact.place: size
        for name, fact in (one for facts in stated for one in facts.items())
        if (size := name.rpartition(".")[2]) in SIZES and isinstance(fact.value, Quantity) and fact.value.value <= 0
    }
    for place, size in wrong.items():
        hint = "write the size, or leave it empty until it is known"
        yield Finding("not-a-size", f"`{size}` must be more than nothing", (), hint, place)


def offered(family: Family) -> Iterator[Finding]:
    """Over- and undersizes are steps from the standard size, the smallest first."""
    for name, of in OFFERED.items():
        fact, size = family.fact(name), middle(of, family)
        if fact is None or not isinstance(fact.value, tuple):
            continue
        steps, what = [step.value for step in fact.value], name.rpartition(".")[2]
        if any(step <= 0 for step in steps):
            hint = "write by how much each differs from the standard size, without a sign"
            yield Finding("not-a-size", f"each of `{what}` must be more than nothing", (), hint, fact.place)
        elif size is not None and max(steps, default=0.0) > LARGEST_STEP * size > 0:
            message = f"`{what}` of {said(max(steps), family)} does not go with a size of {said(size, family)}"
            hint = "write by how much each differs from the standard size, not the size itself"
            yield Finding("out-of-proportion", message, (), hint, fact.place)
        elif any(not less(one, other, LENGTH) for one, other in pairwise(steps)):
            hint = "write each once, the smallest first"
            yield Finding("out-of-order", f"`{what}` do not rise from one to the next", (), hint, fact.place)


def banks_as_laid_out(family: Family) -> Iterator[Finding]:
    """A vee has its cylinders in more than one bank, an engine in line in one."""
    kind = family.layout.kind
    banks = [facts["bank"].value for facts in family.members.get("cylinder", {}).values() if "bank" in facts]
    if kind and len(banks) > 1 and None not in banks and (kind == "vee") != (len(set(banks)) > 1):
        message = f"the layout is {kind}, and `cylinders` stand in {'one bank' if kind == 'vee' else 'several banks'}"
        yield Finding("cylinders-counted", message, (), "mend `kind`, or each cylinder's `bank`", family.layout.place)


def plugs_in_range(family: Family) -> Iterator[Finding]:
    """Of the two sizes between which a core plug may lie the smaller comes first."""
    for plug in family.core_plugs.values():
        if plug.od_min is not None and plug.od_max is not None and less(plug.od_max, plug.od_min, LENGTH):
            message = f"`plug_od` of {plug.id} runs downward"
            yield Finding("limits-crossed", message, (("core_plug", plug.id),), "write the smaller one first")


def right_way_round(family: Family) -> Iterator[Finding]:
    """Of two limits of one thing the least is not over the most."""
    for name, fact in family.facts.items():
        other = family.fact(f"{name.removesuffix('_min')}_max") if name.endswith("_min") else None
        if other is None or not (isinstance(fact.value, Quantity) and isinstance(other.value, Quantity)):
            continue
        if fact.value.value > other.value.value:
            least = name.rpartition(".")[2]
            message = f"`{least}` is over `{least.removesuffix('_min')}_max`: nothing could lie between them"
            yield Finding("limits-crossed", message, (), "exchange the two figures, or mend one", fact.place)


def as_many_cylinders(family: Family) -> Iterator[Finding]:
    """The cylinders that are named are as many as the layout says."""
    count, named = family.layout.cylinders, len(family.members.get("cylinder", {}))
    if count is not None and named != count:
        message = f"the layout has {count} cylinders, and `cylinders` names {named}"
        hint = "name each of them, or mend `layout`"
        yield Finding("cylinders-counted", message, (), hint, family.layout.place)
