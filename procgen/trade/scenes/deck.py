"""The deck face: the lines that a straightedge is laid along, and the corners that are measured."""

from __future__ import annotations

from itertools import pairwise

from procgen.model.scene import Arc, Area, Label, Path, Scene, Shape
from procgen.trade.block import cylinders
from procgen.trade.scenes.outline import half_bank
from procgen.trade.scenes.view import Given, box, disc

INSET = 0.045  # of the face's width, that lines run inside its edge


def deck_lines(given: Given) -> tuple[Scene, ...]:
    """One deck, for both of a vee: along both edges, across both ends, both diagonals; then between the bores."""
    long, half, bore = given.size("block.length"), half_bank(given), given.size("geometry.bore")
    bank = [cylinder for cylinder in cylinders(given.family) if cylinder.bank == "A"]
    if long is None or half is None or bore is None or not bank:
        return ()
    inset = 2 * half * INSET
    left, right, low, high = inset, long - inset, inset - half, half - inset
    lines = (
        ((left, high), (right, high)),
        ((left, low), (right, low)),
        ((left, low), (left, high)),
        ((right, low), (right, high)),
        ((left, low), (right, high)),
        ((left, high), (right, low)),
    )
    between = [(a.x + b.x) / 2 for a, b in pairwise(bank)]
    edge = box(0.0, -half, long, half)
    shapes: list[Shape] = [Area(edge, "iron"), *(Area(disc((c.x, 0.0), bore / 2), "paper") for c in bank)]
    shapes += [Path(edge, "outline", closed=True), *(Arc((c.x, 0.0), bore / 2, "behind") for c in bank)]
    shapes += [Path(((x, low), (x, high)), "limit") for x in between]
    shapes += [Path(line, "accent") for line in lines]
    corners = (("front left", 0.0, half, "above right"), ("rear left", long, half, "above left"),
               ("front right", 0.0, -half, "below right"), ("rear right", long, -half, "below left"))  # fmt: skip
    labels = [Label((x, y), words=(name,), place="beside", sides=(side,)) for name, x, y, side in corners]
    labels += [
        Label((c.x, _beside_diagonals(c.x - long / 2, high / (right - long / 2), bore / 2)), words=(c.id,), place="on",
              strong=True, optional=True)
        for c in bank
    ]  # fmt: skip
    which = "Deck, either bank alike" if given.family.layout.kind == "vee" else "Deck"
    return (
        Scene(
            id="deck-lines",
            title=which,
            view="seen from above, front end on the left",
            describe=(
                "The deck face with six lines for the straightedge: along both edges, across both ends, and both "
                "diagonals. Dotted: one more line across between every two cylinders. Its corners are named front "
                "left, rear left, front right and rear right, left and right as seen from the front."
            ),
            shapes=tuple(shapes),
            labels=tuple(labels),
            metal=(edge,),
        ),
    )


def _beside_diagonals(off: float, slope: float, radius: float) -> float:
    """Where in a bore its name stands, mm from its centre; `off`: the bore's from where the diagonals cross. In the
    middle, or halfway from a diagonal to the bore's edge: wherever it stands farther from both.
    """
    below = abs(off) * slope
    return 0.0 if below > radius / 3 else -(below + radius) / 2
