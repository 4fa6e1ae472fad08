"""What a view is given, and the few constructions that all views share."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from math import cos, radians, sin

from procgen.model.family import Family, Variant
from procgen.model.scene import Scene, Spot
from procgen.trade.galleys import natural
from procgen.units.printing import headed, show_in, shown
from procgen.units.quantity import parse_show
from procgen.units.table import Unit
from procgen.values import dataclass


@dataclass(frozen=True)
class Given:
    """One family in one variant; the shop's rules in base units, by name; the unit that lengths are shown in."""

    family: Family
    variant: Variant | None
    rules: Mapping[str, float]
    unit: Unit

    @property
    def unit_word(self) -> str:
        """The unit of lengths where it stands after words: "in" would be read as a word there."""
        return headed(self.unit.symbol)

    def size(self, name: str) -> float | None:
        """A stated figure (mm) of the variant or family, None while not yet known."""
        return self.family.millimetres(name, self.variant)

    def length(self, value: float, step: str = "0.1 mm", towards: str = "even") -> str:
        """A length (mm) as text in the unit shown, in steps as fine as `step`; a limit is rounded inward."""
        return shown(value, show_in(parse_show(step), self.unit), towards)

    def with_unit(self, value: float, step: str = "0.1 mm", towards: str = "even") -> str:
        return f"{self.length(value, step, towards)}\u202f{self.unit.symbol}"


Make = Callable[[Given], tuple[Scene, ...]]
"""Gives no scene where the family does not yet state what it needs."""


@dataclass(frozen=True, slots=True)
class View:
    """`each`: what a step may ask the view for each of; "" where there is one for the whole engine."""

    name: str
    make: Make
    each: str = ""


def around(centre: Spot, radius: float, clock: float) -> Spot:
    """The spot at a clock angle (deg) on a circle."""
    return centre[0] + radius * sin(radians(clock)), centre[1] + radius * cos(radians(clock))


def disc(centre: Spot, radius: float) -> tuple[Spot, ...]:
    """A circle as a polygon fine enough for hatching and for keeping labels off."""
    return tuple(around(centre, radius, angle) for angle in range(0, 360, 5))


def box(left: float, bottom: float, right: float, top: float) -> tuple[Spot, ...]:
    return (left, bottom), (left, top), (right, top), (right, bottom)


def numbers(found: Iterable[str]) -> str:
    """Names in order, runs of whole numbers drawn together: "1–5", "1, 3", "2–7, 10"."""
    parts: list[list[str]] = []
    for name in sorted(found, key=natural):
        last = parts[-1][-1] if parts else ""
        if name.isdigit() and last.isdigit() and int(name) == int(last) + 1:
            parts[-1].append(name)
        else:
            parts.append([name])
    said = []
    for run in parts:
        said += [f"{run[0]}–{run[-1]}"] if len(run) > 2 else run
    return ", ".join(said)
