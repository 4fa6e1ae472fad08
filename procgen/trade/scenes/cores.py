"""Core plugs in their seats, cut across: a cup is pressed in, a disc lies on a shoulder and is flattened there."""

from __future__ import annotations

from math import copysign

from procgen.model.family import WaterPlug
from procgen.model.scene import Area, Dimension, Label, Path, Scene, Shape, Spot
from procgen.trade.scenes.view import Given, box

EDGE = 9.0  # mm of iron shown beside the hole
THICK = 1.6  # mm of sheet as drawn; no family states it
CUP = 0.24  # of its bore: how deep a cup is drawn
SHOULDER = 2.0  # mm that a disc's seat is narrower each side, as drawn
DOME = 0.09  # of its bore: how high a disc stands before it is flattened


def core_plugs(given: Given) -> tuple[Scene, ...]:
    """One section for each kind that the family has, of its first plug of that kind."""
    found: dict[str, WaterPlug] = {}
    for plug in given.family.core_plugs.values():
        if plug.bore is not None and plug.kind in ("cup", "disc"):
            found.setdefault(plug.kind, plug)
    makers = {"cup": _cup, "disc": _disc}
    return tuple(makers[kind](given, plug, plug.bore) for kind, plug in found.items() if plug.bore is not None)


def _cup(given: Given, plug: WaterPlug, bore: float) -> Scene:
    half, below = bore / 2, plug.deepest or 2.0
    deep = below + CUP * bore + THICK
    outer = half, half - THICK
    shapes: tuple[Shape, ...] = (
        *_seat(half, deep + EDGE / 2, half),
        Area(_cup_outline(outer, below, deep), "solid"),
        *(Path(((side * half, -below), (side * half, -deep + THICK)), "accent") for side in (-1, 1)),
        *_face_and_depth(half, below),
    )
    return _scene(given, plug, "cup", shapes, half, below, deep + EDGE / 2, (
        Label((-half, -(below + deep) / 2), words=("press fit",), place="left", dot=True),
    ), "A cup with its open side out. It holds by its press fit.")  # fmt: skip


def _disc(given: Given, plug: WaterPlug, bore: float) -> Scene:
    half, below = bore / 2, plug.deepest or 2.0
    seat, deep = below + THICK, below + THICK + EDGE
    rise = DOME * bore
    dome = [(x, -seat + rise * (1 - (x / half) ** 2)) for x in (half * n / 12 for n in range(-12, 13))]
    under = [(x, y - THICK) for x, y in reversed(dome)]
    shapes: tuple[Shape, ...] = (
        *_seat(half, deep, half - SHOULDER, seat + THICK),
        Area((*dome, *under), "solid"),
        *(Path(((x, -seat - THICK), (x - copysign(SHOULDER, x), -seat - THICK)), "accent") for x in (-half, half)),
        *_face_and_depth(half, below),
    )
    return _scene(given, plug, "disc", shapes, half, below, deep, (
        Label((-half + SHOULDER / 2, -seat - THICK), words=("shoulder",), place="left", dot=True),
    ), "A disc with its dome out, on its shoulder. A blow on the dome flattens and widens it.")  # fmt: skip


def _cup_outline(outer: tuple[float, float], below: float, deep: float) -> tuple[Spot, ...]:
    out, inside = outer
    right = [(out, -below), (out, -deep), (-out, -deep), (-out, -below)]
    return (*right, (-inside, -below), (-inside, -deep + THICK), (inside, -deep + THICK), (inside, -below))


def _seat(half: float, deep: float, lower: float, step: float | None = None) -> tuple[Shape, ...]:
    """The block either side of the hole, narrower below `step`."""
    edge, at = half + EDGE, step if step is not None else deep
    found: list[Shape] = []
    for side in (-1, 1):
        hole = ((side * half, 0.0), (side * half, -at), (side * lower, -at), (side * lower, -deep))
        found.append(Area(((side * edge, 0.0), *hole, (side * edge, -deep)), "hatch"))
        found.append(Path(hole, "outline"))
    return tuple(found)


def _face_and_depth(half: float, below: float) -> tuple[Shape, ...]:
    x = half + EDGE + 3
    return (
        *(Path(((side * half, 0.0), (side * (half + EDGE), 0.0)), "deck") for side in (-1, 1)),
        Path(((half, -below), (x + 2, -below)), "behind"),
        Path(((half + EDGE, 0.0), (x + 2, 0.0)), "behind"),
        Dimension((x, 0.0), (x, -below)),
    )


def _scene(
    given: Given, plug: WaterPlug, kind: str, shapes: tuple[Shape, ...], half: float, below: float, deep: float,
    labels: tuple[Label, ...], words: str,
) -> Scene:  # fmt: skip
    least = given.rules.get("core_below_min")
    most = given.length(plug.deepest) if plug.deepest is not None else ""
    depth = f"{given.length(least)}–{most}" if least is not None and most else most
    size = given.with_unit(2 * half, "0.01 mm")
    beside, words_beside = (half + EDGE + 3, -below / 2), (f"{given.unit_word} below face",)
    shown = [Label(beside, depth, words_beside, place="right", accent=True, leader=False)] if depth else []
    return Scene(
        id=f"core-plug-{kind}",
        title=f"{kind.capitalize()} plug, hole {size}",
        view="cut across",
        describe=f"{words} Its hole is {size}; its rim lies {depth or 'a little'} {given.unit.symbol} below the face.",
        shapes=shapes,
        labels=(*shown, *labels),
        metal=(box(-half - EDGE, -deep, half + EDGE, 0.0),),
        largest=2.0,
    )
