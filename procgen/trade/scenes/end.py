"""The family as its outline from the front: what people tell engines apart by."""

from __future__ import annotations

from procgen.model.scene import Path, Scene
from procgen.trade.scenes.outline import bearings, front_outline
from procgen.trade.scenes.view import Given


def end_view(given: Given) -> tuple[Scene, ...]:
    """Block, cam and main bearing on the crank's centreline; to be shown beside other families at one scale."""
    edge = front_outline(given)
    if edge is None:
        return ()
    across = max(abs(x) for x, _ in edge)
    family = given.family
    return (
        Scene(
            id="end-view",
            title=family.name,
            view="seen from the front",
            describe=f"{family.name}, {family.describe}: the outline of its block seen from the front.",
            shapes=(
                Path(((-across * 1.06, 0.0), (across * 1.06, 0.0)), "axis"),
                Path(edge, "outline", closed=True),
                *bearings(given, "front"),
            ),
            metal=(edge,),
        ),
    )
