"""The drawings of a card: what a step asks for, as scenes of this family."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from procgen.compose.figures import Units
from procgen.compose.spoken import Speaker
from procgen.model.family import Family, Variant
from procgen.model.procedure import DrawingSpec, Step
from procgen.model.scene import Scene
from procgen.model.workshop import Workshop
from procgen.trade.scenes import VIEWS, Given
from procgen.units.table import UNITS


def scenes_of(drawing: DrawingSpec | None, speaker: Speaker) -> tuple[Scene, ...]:
    """The scenes of one view: those that all variants share once, the others one a variant with its name.

    None of what the family does not state enough for.
    """
    if drawing is None or drawing.view not in VIEWS:
        return ()
    drawn, asked = speaker.first.bench.drawn, (drawing.view, *speaker.scopes)
    if asked not in drawn:  # no card has a say in it
        drawn[asked] = _scenes(drawing.view, speaker)
    return drawn[asked]


def _scenes(view: str, speaker: Speaker) -> tuple[Scene, ...]:
    by_variant = {name: VIEWS[view].make(given) for name, given in _givens(speaker)}
    distinct = list(dict.fromkeys(by_variant.values()))
    if len(distinct) == 1:
        return distinct[0]
    return tuple(
        replace(scene, id=f"{scene.id}-{number}", title=f"{scene.title}, {name}")
        for number, (name, scenes) in enumerate(by_variant.items(), start=1)
        for scene in scenes
    )


def all_scenes(steps: Iterable[Step], speaker: Speaker) -> Mapping[str, Scene]:
    return {scene.id: scene for step in steps for scene in scenes_of(step.drawing, speaker)}


def dump_scene(scene: Scene) -> Iterator[str]:
    """What a drawing says, as lines of the card's plain text; lengths to a tenth of a millimetre."""
    yield f"  drawing {scene.title}, {scene.view}: {scene.describe}"
    for shape in scene.shapes:
        yield f"    {type(shape).__name__.lower()} {_rounded(_values(shape))}"
    for label in (*scene.labels, *scene.badges):
        yield f"    {type(label).__name__.lower()} {_rounded(_values(label))}"
    for entry in scene.legend:
        yield f"    {entry.figure} {entry.words}"


def _values(thing: object) -> tuple[object, ...]:
    return tuple(getattr(thing, name) for name in thing.__dataclass_fields__)  # type: ignore[attr-defined]


def _rounded(value: object) -> str:
    if isinstance(value, float):
        return f"{value:.1f}".replace("-0.0", "0.0")
    if isinstance(value, tuple):
        return " ".join([said for part in value if (said := _rounded(part))])
    return str(value) if value is not None else ""


def outline_of(workshop: Workshop, family: Family, units: Units) -> Scene | None:
    """The family as people tell it apart from others; None while its sizes are not yet known."""
    return next(iter(VIEWS["end_view"].make(_given(workshop, family, None, units))), None)


def _givens(speaker: Speaker) -> Iterator[tuple[str, Given]]:
    for name, scope in speaker.scopes.items():
        bench = scope.bench
        yield name, _given(bench.workshop, bench.family, bench.variant, speaker.units)


def _given(workshop: Workshop, family: Family, variant: Variant | None, units: Units) -> Given:
    rules = {rule.name: rule.value.value for rule in workshop.rules.values()}
    return Given(family, variant, rules, units.of(UNITS["mm"]))
