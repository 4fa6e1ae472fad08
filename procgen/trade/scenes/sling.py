"""The block on a two-leg sling: how steep its legs stand."""

from __future__ import annotations

from math import radians, tan

from procgen.model.scene import Area, Label, Mark, Path, Scene
from procgen.trade.lifting import leg_load
from procgen.trade.scenes.outline import outline
from procgen.trade.scenes.view import Given
from procgen.units.printing import show_in, shown
from procgen.units.quantity import parse_show
from procgen.units.table import UNITS

INSET = 0.06  # of the block's length, that the legs are fixed inside its ends


def stand_sling(given: Given) -> tuple[Scene, ...]:
    """Legs at the shop's good angle, and dotted at the flattest it allows; the pull as a share of the weight."""
    edge, mass = outline(given, "right"), given.size("block.mass")
    good, least = given.rules.get("sling_angle_good"), given.rules.get("sling_angle_min")
    if edge is None or good is None or least is None:
        return ()
    left, right = min(x for x, _ in edge), max(x for x, _ in edge)
    top = max(y for _, y in edge)
    start, end = left + INSET * (right - left), right - INSET * (right - left)
    middle, span = (start + end) / 2, (end - start) / 2
    hook, low = (middle, top + span * tan(radians(good))), (middle, top + span * tan(radians(least)))
    pulls = {angle: leg_load(1.0, 2, angle) for angle in (good, least)}
    words = [f"{_share(pulls[good])} of the weight", "in each leg"]
    centre = middle, (top + min(y for _, y in edge)) / 2
    weight = (Label(centre, figure=_mass(mass, given), place="on"),) if mass else ()
    return (
        Scene(
            id="stand-sling",
            title="Two-leg sling",
            view="seen from the side",
            describe=(
                f"The block on two sling legs at {good:g} degrees from the level; each then carries "
                f"{_share(pulls[good])} of the weight. Dotted: at {least:g} degrees, the flattest allowed, each "
                f"carries {_share(pulls[least])}."
            ),
            shapes=(
                Area(edge, "iron"),
                Path(edge, "outline", closed=True),
                Path(((start, top), low, (end, top)), "limit"),
                Path(((start, top), hook, (end, top)), "accent"),
                Mark((start, top), "dot"),
                Mark((end, top), "dot"),
                Mark(hook, "ring"),
            ),
            labels=(
                Label(((start + middle) / 2, (top + hook[1]) / 2), f"{good:g}° or more", tuple(words), accent=True,
                      dot=False),
                Label(((end + middle) / 2, (top + low[1]) / 2), f"{least:g}°",
                      (f"{_share(pulls[least])} of it,", "never flatter"), dot=False),
                *weight,
            ),
            metal=(edge,),
            largest=0.1,
        ),
    )  # fmt: skip


def _share(pull: float) -> str:
    return "all" if abs(pull - 1) < 0.005 else f"{pull * 100:.0f}\u202f%"


def _mass(mass: float, given: Given) -> str:
    """kg as text, in pounds where lengths are in inches."""
    unit = UNITS["lb" if given.unit.system == "inch" else "kg"]
    return f"{shown(mass, show_in(parse_show('1 kg'), unit))}\u202f{unit.symbol}"
