"""Slips of the pen in a family's sizes: ten times what it was, inches taken for millimetres, a cylinder out of line.

What is found here is a slip beyond doubt, so the figure then counts as not yet known: no other check tells its echoes.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Set
from dataclasses import replace
from itertools import pairwise
from statistics import median

from procgen.files.problems import Place
from procgen.model.family import Fact, Family
from procgen.trade.block import Cylinder, cylinders, lengths, variants_of
from procgen.trade.cylinder import stack_height
from procgen.trade.finding import Check, Finding, said
from procgen.trade.layout.stated import above_nothing, offered
from procgen.trade.layout.travel import STACK
from procgen.units.compare import at_most, less
from procgen.units.dimension import LENGTH
from procgen.units.quantity import Quantity

IN_BORES = {
    "bore": 1.0,
    "stroke": 1.0,
    "rod_length": 1.7,
    "compression_height": 0.4,
    "block_height": 2.4,
    "bore_bottom": 1.4,
}
"""How many bores long a part commonly is, in engines of cars, boats and tractors; common practice, no source."""

PARTS_IN_BORES = {
    ("main", "journal"): 0.65,
    ("main", "housing_bore"): 0.7,
    ("cam_bearing", "block_bore"): 0.5,
    ("cam_bearing", "journal"): 0.45,
    ("rods", "journal"): 0.55,
    ("rods", "housing_bore"): 0.6,
    ("lifters", "bore"): 0.23,
}
SPACING_IN_BORES = 1.2
FAR = 4.0  # times; long strokes and short rods stay within half of it
LARGE = "ten times too large, or millimetres taken for inches"
SMALL = "ten times too small, or inches taken for millimetres"
USUAL = 20.0, 400.0  # mm: bores of engines that people take apart with these tools
SMALLEST, LARGEST = 8.0, 1000.0  # mm: the bores of small models and of the largest ships; from memory, not checked
BETWEEN_CYLINDERS = 2.0  # mm at the largest oversize, where 4 and more are left; common practice, no source
OUT_OF_LINE = 0.5  # of the bore spacing: a wider gap at a middle bearing moves a cylinder by less

Slip = tuple[Finding, Place]
"""What is wrong, and the place of the figure that is: it counts as not yet known."""


def no_engine(family: Family) -> Finding | None:
    """Most of the sizes are of no engine: the file's unit is another than was meant, and nothing else needs telling. Or
    they are of a model or a ship, and only one who owns it can say whether that is so.
    """
    if not (measures := _measures(family)):
        return None
    name, fact, many = measures[len(measures) // 2]
    bore = _size(fact) / many
    if USUAL[0] <= bore <= USUAL[1]:
        return None
    size = f"`{name}` of {said(_size(fact), family)}"
    hint = "mend it, or `units` where the other sizes are off alike"
    if SMALLEST <= bore <= LARGEST:
        message = f"{size} is that of a {'model' if bore < USUAL[0] else 'ship’s engine'}"
        return Finding("unusual", message, (), f"{hint}; else leave it", fact.place, is_doubtful=True)
    return Finding("out-of-proportion", f"{size} is that of no engine", (), hint, fact.place)


def slips(family: Family) -> tuple[list[Finding], Family]:
    """What is a slip, and the family without those figures."""
    found: list[Finding] = []
    for look in (
        _placed(above_nothing),
        _out_of_proportion,
        _placed(offered),
        _out_of_angle,
        _out_of_line,
        _no_metal_between,
        _beyond_block,
        _gap_too_far,
    ):
        told = list(look(family))
        found += [finding for finding, _ in told]
        family = _without(family, {place for _, place in told})
    return found, family


def _placed(check: Check) -> Callable[[Family], Iterator[Slip]]:
    return lambda family: ((found, found.place) for found in check(family) if found.place is not None)


def _measures(family: Family) -> list[tuple[str, Fact, float]]:
    """The known sizes of the cylinder and its parts with how many bores each is, by the bore that each speaks for."""
    stated = [
        (name, fact, many)
        for own in (family.facts, *(variant.facts for variant in family.variants))
        for name, many in IN_BORES.items()
        if (fact := own.get(f"geometry.{name}")) is not None and _size(fact) > 0
    ]
    return sorted(stated, key=lambda one: _size(one[1]) / one[2])


def _out_of_proportion(family: Family) -> Iterator[Slip]:
    """Each size goes with most of the others, as an engine's sizes do, give or take `FAR`."""
    if not (measures := _measures(family)):
        return
    name, fact, many = measures[(len(measures) - 1) // 2]
    bore = _size(fact) / many  # what most of them make of it
    if (own := family.fact("geometry.bore")) is not None and not _is_far(_size(own) / bore):
        name, fact = "bore", own
    sizes = [(name, _size(fact), many, fact.place) for name, fact, many in (*measures, *_parts(family))]
    if (spacing := family.layout.bore_spacing) is not None:
        sizes.append(("bore_spacing", spacing, SPACING_IN_BORES, family.layout.place))
    for other, size, many, place in sizes:
        if size > 0 and _is_far(times := size / many / bore):
            beside = f"a `{name}` of {said(_size(fact), family)}"
            message = f"`{other}` of {said(size, family)} does not go with {beside}"
            hint = f"{LARGE if times > 1 else SMALL}: mend it, or the other one"
            yield Finding("out-of-proportion", message, (), hint, place), place


def _out_of_angle(family: Family) -> Iterator[Slip]:
    angle, place = family.layout.bank_angle, family.layout.place
    if angle is not None and not 0 < angle <= 180:
        message = f"`bank_angle` of {angle:g}° is no angle between two banks"
        yield Finding("out-of-proportion", message, (), "90 in most engines of eight, 60 or 90 in six", place), place


def _out_of_line(family: Family) -> Iterator[Slip]:
    """The cylinders of a bank, in the order in which the file names them, stand one bore spacing apart."""
    spacing = family.layout.bore_spacing
    if spacing is None:
        return
    for bank in _banks(family):
        step = spacing if bank[0].x <= bank[-1].x else -spacing  # counted from the front or the rear
        first = median(cylinder.x - step * n for n, cylinder in enumerate(bank))
        for n, cylinder in enumerate(bank):
            meant = first + step * n
            if abs(cylinder.x - meant) > OUT_OF_LINE * spacing:
                place = family.members["cylinder"][cylinder.id]["x"].place
                by_others = f"by `bore_spacing` and the others at {said(meant, family)}"
                message = f"cylinder {cylinder.id} lies at x {said(cylinder.x, family)}, {by_others}"
                yield Finding("out-of-line", message, (), "mend its `x`, or `bore_spacing`", place), place


def _no_metal_between(family: Family) -> Iterator[Slip]:
    """Neighbours in a bank leave metal between them, at the largest oversize too."""
    bore, sizes = family.fact("geometry.bore"), family.fact("oversizes")
    neighbours = [(b.x - a.x, a, b) for bank in _banks(family) for a, b in pairwise(sorted(bank, key=lambda c: c.x))]
    if bore is None or not neighbours or (size := _size(bore)) <= 0:
        return
    apart, one, other = min(neighbours, key=lambda pair: pair[0])
    largest = max(lengths(family, "oversizes"), default=0.0)
    for fact, cut, what in (
        (bore, size, f"a bore of {said(size, family)}"),
        (sizes, size + largest, f"an oversize of {said(largest, family)}"),
    ):
        if fact is not None and less(apart - cut, BETWEEN_CYLINDERS, LENGTH):
            left = f"{said(apart - cut, family)} of metal" if apart > cut else "no metal"
            message = (
                f"{what} leaves {left} between cylinders {one.id} and {other.id}, "
                f"{said(apart, family)} from centre to centre"
            )
            hint = f"mend `{'bore' if fact is bore else 'oversizes'}`, or the cylinders' `x`"
            yield Finding("no-metal-between", message, (), hint, fact.place), fact.place
            return


def _beyond_block(family: Family) -> Iterator[Slip]:
    """The block is long enough for its cylinders."""
    length, bore = family.fact("block.length"), family.millimetres("geometry.bore")
    placed = cylinders(family)
    if length is None or _size(length) <= 0 or bore is None or not placed:
        return
    last = max(placed, key=lambda cylinder: cylinder.x)
    if last.x + bore / 2 > _size(length):
        message = (
            f"`length` of {said(_size(length), family)} ends the block before cylinder {last.id}, "
            f"which lies at x {said(last.x, family)}"
        )
        yield Finding("out-of-proportion", message, (), "mend it, or the cylinder's `x`", length.place), length.place


def _gap_too_far(family: Family) -> Iterator[Slip]:
    """A deck clearance, too small to stand out by its size, that would fill the block with its point elsewhere."""
    for variant in variants_of(family):
        fact = family.fact("geometry.deck_clearance", variant)
        names = ("stroke", "rod_length", "compression_height", "block_height")
        stroke, rod, piston, height = (family.millimetres(f"geometry.{name}", variant) for name in names)
        if fact is None or stroke is None or rod is None or piston is None or height is None:
            continue
        fitting = height - stack_height(stroke, rod, piston, 0.0)
        if any(at_most(abs(_size(fact) * shift - fitting), STACK, LENGTH) for shift in (100, 10, 0.1, 0.01)):
            message = f"`deck_clearance` of {said(_size(fact), family)} does not go with the other sizes"
            hint = f"{said(fitting, family)} would fill the block"
            yield Finding("out-of-proportion", message, (), hint, fact.place), fact.place
            return


def _banks(family: Family) -> list[list[Cylinder]]:
    """The placed cylinders of each bank, as far as there are any."""
    banks: dict[str, list[Cylinder]] = {}
    for cylinder in cylinders(family):
        banks.setdefault(cylinder.bank, []).append(cylinder)
    return list(banks.values())


def _parts(family: Family) -> Iterator[tuple[str, Fact, float]]:
    """What stands in other sections, one fact a line of the file."""
    for (section, name), many in PARTS_IN_BORES.items():
        own = [facts[name] for facts in family.members.get(section, {}).values() if name in facts]
        alone = family.fact(f"{section}.{name}")
        for fact in {fact.place: fact for fact in (*own, *((alone,) if alone is not None else ()))}.values():
            yield f"{section}.{name}", fact, many


def _size(fact: Fact) -> float:
    """In mm; 0 while not yet known."""
    return fact.value.value if isinstance(fact.value, Quantity) else 0.0


def _is_far(times: float) -> bool:
    return not 1 / FAR < times < FAR


def _known(facts: Mapping[str, Fact], places: Set[Place]) -> dict[str, Fact]:
    return {name: replace(fact, value=None) if fact.place in places else fact for name, fact in facts.items()}


def _without(family: Family, places: Set[Place]) -> Family:
    """The family with the figures that stand there not yet known."""
    if not places:
        return family
    is_known = family.layout.place not in places
    layout = family.layout if is_known else replace(family.layout, bore_spacing=None, bank_angle=None)
    return replace(
        family,
        layout=layout,
        facts=_known(family.facts, places),
        variants=tuple(replace(variant, facts=_known(variant.facts, places)) for variant in family.variants),
        members={
            each: {id: _known(facts, places) for id, facts in members.items()}
            for each, members in family.members.items()
        },
    )
