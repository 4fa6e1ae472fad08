"""The drawings of the demo families, and geometry done another way than the code under test does it."""

from collections.abc import Iterator
from dataclasses import dataclass

from procgen.model.family import Family, Variant
from procgen.model.scene import Scene
from procgen.model.workshop import Workshop
from procgen.trade.scenes import VIEWS, Given
from procgen.units.table import UNITS

ROOMS = {
    "a6": (80.6, 13.85),
    "4x6in": (77.2, 13.85),
    "5x8in": (99.6, 13.85),
    "a5": (120.6, 13.85),
    "a5 large": (116.4, 19.05),
    "a4": (182.6, 13.85),
    "page": (150.0, 12.0),
}
"""Width there is (mm) and type (pt) on the stocks, steps read from 0.7 m."""


@dataclass(frozen=True)
class Drawn:
    family: Family
    variant: Variant | None
    view: str
    scene: Scene

    def __str__(self) -> str:
        return f"{self.family.id} {self.scene.id}"


def given(workshop: Workshop, family: Family, variant: Variant | None) -> Given:
    rules = {rule.name: rule.value.value for rule in workshop.rules.values()}
    return Given(family, variant, rules, UNITS[family.show.get("length", "mm")])


def all_scenes(workshop: Workshop) -> Iterator[Drawn]:
    """Every view of every family in every variant; what variants share once."""
    for family in workshop.families.values():
        seen: set[Scene] = set()
        for variant in family.variants or (None,):
            for name, view in VIEWS.items():
                for scene in view.make(given(workshop, family, variant)):
                    if scene not in seen:
                        seen.add(scene)
                        yield Drawn(family, variant, name, scene)
