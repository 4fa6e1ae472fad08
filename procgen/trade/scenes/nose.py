"""A galley plug in its hole, cut lengthwise: how deep its nose may reach before it shuts a crossing passage."""

from __future__ import annotations

from procgen.model.family import Plug
from procgen.model.scene import Area, Dimension, Label, Path, Scene, Shape
from procgen.trade.noses import Nose, nose
from procgen.trade.scenes.view import Given, box
from procgen.trade.threads import ThreadError, parse

WALL = 6.0  # mm of iron shown beside the hole


def plug_nose(given: Given) -> tuple[Scene, ...]:
    """The plug with the least room between where its nose comes and what it could shut."""
    tight: list[tuple[float, Plug, Nose]] = []
    for plug in given.family.plugs.values():
        found = nose(given.family, plug)
        if found is not None and found.most is not None and found.behind in given.family.passages:
            tight.append((found.room - found.most, plug, found))
    if not tight:
        return ()
    _, plug, found = min(tight, key=lambda each: (each[0], each[1].id))
    return _scene(given, plug, found)


def _scene(given: Given, plug: Plug, found: Nose) -> tuple[Scene, ...]:
    passage = given.family.passages[plug.closes[0]]
    crossing = given.family.passages[found.behind]
    try:
        thread = parse(plug.thread)
    except ThreadError:
        return ()
    bore, half, room = passage.diameter / 2, thread.major / 2, found.room
    foot = room + crossing.diameter + WALL
    nose_at = min(found.most if found.most is not None else room, room)
    edge = max(half, bore) + WALL
    taper = 1 / 32 if thread.is_taper else 0.0  # on each side
    tip = half - nose_at * taper
    body = ((-half, 0.0), (half, 0.0), (tip, -nose_at), (-tip, -nose_at))
    shapes: tuple[Shape, ...] = (
        Area(box(-edge, -foot, edge, 0.0), "hatch"),
        Area(body, "paper"),
        Area(box(-bore, -foot, bore, -nose_at), "paper"),
        Area(box(-edge, -room - crossing.diameter, edge, -room), "paper"),
        Area(body, "solid"),
        *(Path(((side * bore, -start), (side * bore, -end)), "outline") for side in (-1, 1)
          for start, end in ((nose_at, room), (room + crossing.diameter, foot))),
        *(Path(((side * bore, -depth), (side * edge, -depth)), "outline") for side in (-1, 1)
          for depth in (room, room + crossing.diameter)),
        *(Path(((side * half, 0.0), (side * edge, 0.0)), "deck") for side in (-1, 1)),
        Path(((-edge, -room), (edge, -room)), "limit"),
        Path(((tip, -nose_at), (-tip, -nose_at)), "accent"),
        Dimension((edge + 3, 0.0), (edge + 3, -room)),
    )  # fmt: skip
    labels = (
        Label((edge + 3, -room / 2), figure=given.length(room, towards="down"),
              words=(f"{given.unit_word} at most",), place="right", accent=True, leader=False),
        Label((-edge, 0.0), words=("face",), place="left", leader=False),
        Label((-tip, -nose_at), words=("nose",), place="left", dot=False),
        Label((-edge, -room - crossing.diameter / 2), words=(crossing.id,), place="left", leader=False),
    )  # fmt: skip
    return (
        Scene(
            id=f"plug-nose-{plug.id.lower()}",
            title=f"Plug {plug.id}, the tightest",
            view="hole cut lengthwise",
            describe=(
                f"Plug {plug.id} in its hole, cut lengthwise. {crossing.id} opens behind it, "
                f"{given.with_unit(room, towards='down')} below the face: the nose must stay above that."
            ),
            shapes=shapes,
            labels=labels,
            metal=(box(-edge, -foot, edge, 0.0),),
            largest=2.0,
        ),
    )
