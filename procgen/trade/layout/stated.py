"""Whether the figures that a family states can be, each by itself or beside its neighbour."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.model.family import Family
from procgen.trade.finding import Finding
from procgen.units.quantity import Quantity

SIZES = ("bore", "stroke", "rod_length", "compression_height", "block_height", "bore_bottom")


def above_nothing(family: Family) -> Iterator[Finding]:
    """A bore, a stroke or a rod is longer than nothing."""
    for own in (family.facts, *(variant.facts for variant in family.variants)):
        for size in SIZES:
            fact = own.get(f"geometry.{size}")
            if fact is not None and isinstance(fact.value, Quantity) and fact.value.value <= 0:
                yield Finding(
                    "not-a-size",
                    f"`{size}` must be more than nothing",
                    (),
                    "write the size, or leave it empty until it is known",
                    fact.place,
                )


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
