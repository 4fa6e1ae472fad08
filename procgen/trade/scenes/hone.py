"""Honing: how far the stones run, and the angle of the scratches that they leave."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, radians, sin

from procgen.model.scene import Arc, Area, Dimension, Label, Path, Scene, Shape
from procgen.trade.honing import hone_stroke as stroke_of
from procgen.trade.scenes.view import Given, box

STONE = 9.0  # mm thick as drawn; no family states it
WALL = 7.0
PATCH = (64.0, 40.0)  # mm of bore wall shown
PITCH = 5.5  # mm between scratches as drawn


def hone_stroke(given: Given) -> tuple[Scene, ...]:
    """The stones at the top and at the bottom of their stroke, and how far they run out at each end."""
    bore, long = given.size("geometry.bore"), given.size("geometry.bore_bottom")
    stone, share = given.rules.get("hone_stone"), given.rules.get("hone_over_travel")
    if bore is None or long is None or stone is None or share is None:
        return ()
    over = share * stone
    try:
        stroke = stroke_of(long, over, stone)
    except ValueError:
        return ()
    side, edge = bore / 2, bore / 2 + WALL
    high = box(-side, over - stone, -side + STONE, over)
    low = box(side - STONE, -long - over, side, -long - over + stone)
    shapes: tuple[Shape, ...] = (
        Area(box(-edge, -long, -side, 0.0), "iron"),
        Area(box(side, -long, edge, 0.0), "iron"),
        *(Path(((x, 0.0), (x, -long)), "outline") for x in (-side, side)),
        *(Path(((start, depth), (end, depth)), "deck" if depth == 0 else "outline")
          for depth in (0.0, -long) for start, end in ((-edge, -side), (side, edge))),
        Area(high, "oil"), Area(low, "oil"),
        Path((high[0], high[1]), "accent"), Path((low[2], low[3]), "accent"),
        Dimension((0.0, over), (0.0, over - stroke)),
        Path(((-side + STONE, over), (side * 0.25, over)), "behind"),
        Path(((0.0, over - stroke), (side - STONE, over - stroke)), "behind"),
        Dimension((edge + 4, over), (edge + 4, 0.0)), Path(((side, over), (edge + 5, over)), "axis"),
        Dimension((-edge - 4, -long), (-edge - 4, -long - over)),
        Path(((-edge - 5, -long - over), (-side, -long - over)), "axis"),
    )  # fmt: skip
    run_out = given.with_unit(over, "1 mm")
    labels = (
        Label((0.0, over - stroke / 2), given.length(stroke, "1 mm"), ("stroke,", given.unit_word), accent=True,
              dot=False),
        Label((edge + 4, over / 2), words=(run_out, "out"), place="right", leader=False),
        Label((-edge - 4, -long - over / 2), words=(run_out, "out"), place="left", leader=False),
        Label((edge, 0.0), words=("deck",), place="right", leader=False),
    )  # fmt: skip
    return (
        Scene(
            id="hone-stroke",
            title=f"Stones of {given.with_unit(stone, '1 mm')}, at both ends of their stroke",
            view="bore cut lengthwise",
            describe=(
                f"The bore cut lengthwise, {given.with_unit(long, '1 mm')} long, with a stone at the top of its stroke "
                f"on the left and at the bottom on the right. The stroke is {given.with_unit(stroke, '1 mm')}; at each "
                f"end the stones run out by {run_out}."
            ),
            shapes=shapes,
            labels=labels,
            metal=(box(-edge, -long, -side, 0.0), box(side, -long, edge, 0.0)),
            largest=0.5,
        ),
    )


def hatch_angle(given: Given) -> tuple[Scene, ...]:
    """Two sets of scratches and the angle between them, which a line round the bore halves."""
    angle = given.rules.get("hatch_angle")
    if angle is None:
        return ()
    off = given.rules.get("hatch_tolerance")
    wide, high = PATCH
    edge = box(-wide / 2, -high / 2, wide / 2, high / 2)
    half = angle / 2
    cross = [(-wide * 0.5, 0.0), (wide * 0.5, 0.0)]
    shapes: list[Shape] = [Path(edge, "outline", closed=True)]
    shapes += [Path(line, "behind") for slope in (half, -half) for line in _scratches(slope, wide, high)]
    shapes += [Path(tuple(cross), "limit")]
    long = wide * 0.42
    tips = [(long * cos(radians(way)), long * sin(radians(way))) for way in (half, -half)]
    shapes += [Path(((0.0, 0.0), tip), "accent") for tip in tips]
    shapes.append(Arc((0.0, 0.0), long * 0.8, "accent", 90 - half, 90 + half))
    words = (f"±\u202f{off:g}°",) if off else ()
    return (
        Scene(
            id="hatch-angle",
            title="Hone marks on the bore’s wall",
            view="the wall rolled out flat, angle true",
            describe=(
                f"Hone marks on the bore’s wall rolled out flat: two sets of scratches that cross at {angle:g} "
                "degrees. The dotted line runs round the bore and halves the angle."
            ),
            shapes=tuple(shapes),
            labels=(
                Label((wide / 2, 4.0), figure=f"{angle:g}°", words=words, place="right", accent=True, leader=False),
                Label((-wide / 2, 0.0), words=("round", "the bore"), place="left", leader=False),
            ),
            metal=(edge,),
            to_scale=False,
        ),
    )


def _scratches(slope: float, wide: float, high: float) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
    """Parallel lines at `slope` degrees from level, cut to the patch about the origin."""
    dx, dy = cos(radians(slope)), sin(radians(slope))
    reach = wide + high
    count = int(reach / PITCH)
    for n in range(-count, count + 1):
        ox, oy = -dy * n * PITCH, dx * n * PITCH
        cuts = [(ox + t * dx, oy + t * dy) for t in _through(ox, dx, wide / 2, oy, dy, high / 2)]
        if len(cuts) == 2:
            yield cuts[0], cuts[1]


def _through(ox: float, dx: float, wide: float, oy: float, dy: float, high: float) -> tuple[float, ...]:
    """Where a line enters and leaves a rectangle about the origin, along the line; () where it misses."""
    spans = [sorted(((-wide - ox) / dx, (wide - ox) / dx)), sorted(((-high - oy) / dy, (high - oy) / dy))]
    enters, leaves = max(low for low, _ in spans), min(up for _, up in spans)
    return (enters, leaves) if leaves - enters > 1.0 else ()
