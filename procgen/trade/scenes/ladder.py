"""The sizes that a bore can be taken to, as rungs of a ladder: each step true against the others."""

from __future__ import annotations

from procgen.model.scene import Label, Path, Scene
from procgen.trade.block import lengths
from procgen.trade.scenes.view import Given

FINE = "0.01 mm"
HIGH = 45.0  # mm that the ladder may take of the card


def size_ladder(given: Given) -> tuple[Scene, ...]:
    """The first size and every oversize on offer; above the last a sleeve."""
    bore, steps = given.size("geometry.bore"), lengths(given.family, "oversizes")
    if bore is None or not steps:
        return ()
    top = max(steps)
    rungs = [(0.0, given.length(bore, FINE), "first size")]
    rungs += [(step, given.length(bore + step, FINE), f"+{given.length(step, FINE)}") for step in sorted(steps)]
    wide, over = top * 0.7, top * 1.15
    shapes = [Path(((x, 0.0), (x, over)), "behind") for x in (0.0, wide)]
    shapes += [Path(((0.0, height), (wide, height)), "outline") for height, _, _ in rungs]
    sizes = [Label((wide, height), figure=size, place="right", dot=False) for height, size, _ in rungs]
    names = [Label((0.0, height), words=(name,), place="left", dot=False) for height, _, name in rungs]
    sleeve = Label((wide, over), words=("a sleeve",), place="right", dot=False)
    unit = given.unit.symbol
    said = ", ".join(f"{size} {unit} ({name})" for _, size, name in rungs)
    return (
        Scene(
            id="size-ladder",
            title=f"Bore sizes on offer, {given.unit_word}",
            view="steps in proportion",
            describe=f"Bore sizes on offer: {said}; then a sleeve.",
            shapes=tuple(shapes),
            labels=(*sizes, *names, sleeve),
            largest=HIGH / over,
            to_scale=False,
        ),
    )
