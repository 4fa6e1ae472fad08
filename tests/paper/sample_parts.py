"""What sample cards are put together from: prose, figures, cautions, a drawing."""

from __future__ import annotations

from procgen.model.card import Figure, Panel, Prose, Run
from procgen.model.scene import Arc, Band, Label, Scene
from procgen.model.scene import Path as Lines


def say(text: str) -> Prose:
    """Plain words, with figures between braces: "below {6.80 mm}"."""
    runs = []
    for i, piece in enumerate(text.replace("}", "{").split("{")):
        if piece:
            runs.append(Run(piece, figure=i % 2 == 1))
    return tuple(runs)


def mm(text: str, relation: str = "", also: str = "", variant: str = "", note: str = "") -> Figure:
    return Figure(text, "mm", relation, also, "known", variant, note)


BLANK = Figure("", "mm", state="blank")
WANTING = Figure("", "mm", state="wanting")
NONE = Figure("", state="none")

STAND = Panel(
    "block-on-stand",
    "DANGER",
    ("W015",),
    "A block that slips off the stand will crush whoever is under it.",
    "It will kill or maim.",
    "Lock the stand before you let go. Nobody works under the block.",
    "the stand maker's rated load",
)
EYES = Panel(
    "eyes-chips",
    "CAUTION",
    ("M004",),
    "Chips and wire bristles fly out of the block.",
    "Eye injury.",
    "Wear goggles, and keep others out of the line of the hole.",
    "",
)
PRESSED = Panel(
    "pressed-parts",
    "WARNING",
    ("W024",),
    "Parts under press load can fly.",
    "They could blind you.",
    "Wear a face shield. Stand out of line with the screw.",
    "the press maker's instructions",
)
COVERED = Panel(
    "covered-groove",
    "NOTICE",
    (),
    "A shell off its place bleeds the oil away.",
    "The cam and the main below it run dry.",
    "Drive to the mark.",
    "",
)

GAP = Scene(
    "gap",
    "Ring gap",
    "seen from above",
    "A cylinder with a ring in it; the gap of the ring is at the top and is measured there.",
    (
        Band((0.0, 0.0), 49.2, 55.0, "hatch"),
        Arc((0.0, 0.0), 49.2, "outline"),
        Arc((0.0, 0.0), 47.0, "accent", 3.0, 357.0),
        Lines(((0.0, -49.2), (0.0, 49.2)), "axis"),
    ),
    (
        Label((0.0, 47.0), "0.40 mm", ("gap, at least",), accent=True),
        Label((-49.2, 0.0), "", ("cylinder wall",)),
    ),
)
