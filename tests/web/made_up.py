"""A small invented shop: its cards carry all that a page can, and text that would be mischief if it ran."""

from __future__ import annotations

from dataclasses import replace

from procgen.model.card import (
    Arm,
    Box,
    Card,
    Conclusion,
    Deck,
    FamilySheet,
    Figure,
    Grid,
    Hold,
    Origin,
    Panel,
    Path,
    Prose,
    Row,
    Run,
    Shop,
    Stage,
    StepItem,
)

MISCHIEF = '<script>alert("&amp;")</script><img src=x onerror=alert(1)> {{ shop }} {% raw %} </style>'

SHOP = Shop("The Mud Dock", "https://muddock.example/cards", "R. Ames", "2026-11-20")


def say(text: str) -> Prose:
    """Plain words, with figures between braces: "below {6.80 mm}"."""
    pieces = enumerate(text.replace("}", "{").split("{"))
    return tuple(Run(piece, figure=i % 2 == 1) for i, piece in pieces if piece)


def mm(text: str, relation: str = "", also: str = "", variant: str = "", note: str = "") -> Figure:
    return Figure(text, "mm", relation, also, "known", variant, note)


def panel(level: str, hazard: str) -> Panel:
    return Panel(
        level.lower(), level, ("W015",), hazard, f"What {level} leads to.", "Stand clear of it.", "the maker's word."
    )


DEPTH = Origin("depth", "Depth of the seat", mm("3.20"), "", "gauge block table, row 4", "families/teal.yaml:8:3")
TRAVEL = Origin(
    "travel",
    "Ring travel",
    mm("6.80"),
    "depth + depth",
    "",
    "deck/seats.yaml:9:5",
    (DEPTH, replace(DEPTH, name="again")),
)
WEAR = Origin(
    "wear", "Wear", Figure("one for each seat"), "travel - depth", "", "deck/seats.yaml:12:5", (TRAVEL, DEPTH)
)

SEATS = Card(
    id="seats",
    family="teal",
    family_name="Teal",
    family_describe="V4, iron block",
    title="Seats",
    question="Do the seats stay?",
    stage=Stage(9, "Measure", 20, "Threads", "Decide"),
    reason=say("A seat is judged before money is spent; see {6.80 mm}."),
    bring=("bore gauge", "lamp"),
    panels=(panel("DANGER", "The block will fall."), panel("NOTICE", "Hot caustic eats aluminium.")),
    steps=(
        StepItem(
            "look",
            1,
            say("Look at each seat."),
            say("Turn it to the light."),
            only_if=say("Only if any seat: out:"),
            right=say("The rim shows all round."),
            because=(Run("Rust hides "), Run("behind", emphasis=True), Run(" the rim.", strong=True)),
            panels=(panel("WARNING", "Chips fly."), panel("CAUTION", "Edges cut.")),
            rows=(
                Row("travel", "Ring travel", (mm("6.80", also="0.268 in", variant="6.2"), mm("7.10", variant="5.7"))),
                Row("travel", "Ring travel, limit", (mm("0.05", "≤", note="shop practice"),)),
                Row("depth", "Depth of the seat", (mm("3.20"),)),
                Row("blank", "Deepest seat", (Figure("", "mm", "≥", state="blank"),)),
                Row("none", "Second seat", (Figure("", state="none"),)),
            ),
            grids=(
                Grid(
                    ("seat", "hole, mm", "stands"),
                    (
                        ("MG-F", (mm("41.30"), Figure("front face"))),
                        ("MG-R", (Figure("", state="wanting"), Figure("rear"))),
                    ),
                    "Every seat",
                ),
            ),
            boxes=(
                Box(
                    "rim", "Rim", ("MG-F", "MG-R"), "seat", (("dry", "is dry"), ("wet", "is wet"), ("gone", "is gone"))
                ),
                Box(
                    "hole",
                    "Hole",
                    unit="mm",
                    gauge="bore gauge",
                    where="at the seat",
                    how="rock the gauge",
                    stations=("3", "12"),
                    stations_unit="mm",
                    axes=(("one", "one way across"), ("other", "square to it")),
                    expect="41.20 to 41.40 mm",
                ),
            ),
        ),
        StepItem(
            "decide",
            2,
            say("Decide for each seat."),
            (),
            decisions=(
                Path(
                    "stays",
                    "Does this seat stay?",
                    "each seat",
                    (
                        Arm(
                            "out",
                            ((say("rim is wet"),), (say("wear > {0.05 mm}"), say("rim is stained"))),
                            "Out",
                            say("Fit anew."),
                        ),
                        Arm("stays", (), "It stays", say("Mark it so.")),
                    ),
                    ("width of the groove",),
                ),
                Conclusion("metal", "Which metal?", "Iron", say("It rusts."), "The block is iron."),
            ),
        ),
    ),
    hold=Hold(say("Two people have counted."), ("fitter", "second")),
    record=("depth of each seat", "who looked"),
    revision="7KQ4M",
    address="teal/seats",
    origins={"travel": TRAVEL, "wear": WEAR},
    missing=("width of the groove",),
)

TAKEN = Arm("a", ((say("x"),),), MISCHIEF, (Run(MISCHIEF),), taken=True)

MISCHIEVOUS = Card(
    id="mischief",
    family="teal",
    family_name="Teal",
    family_describe="V4, iron block",
    title=MISCHIEF,
    question=MISCHIEF,
    stage=Stage(10, MISCHIEF, 20, "Measure", ""),
    reason=say(MISCHIEF.replace("{", "").replace("}", "")),
    bring=(MISCHIEF,),
    panels=(panel("WARNING", MISCHIEF),),
    steps=(
        StepItem(
            "run",
            1,
            (Run(MISCHIEF, strong=True),),
            (),
            rows=(Row("bad", MISCHIEF, (mm(MISCHIEF, also=MISCHIEF, variant=MISCHIEF),)),),
            grids=(Grid((MISCHIEF, MISCHIEF), ((MISCHIEF, (mm(MISCHIEF),)),)),),
            boxes=(Box("bad", MISCHIEF, (MISCHIEF,), MISCHIEF, (("a", MISCHIEF),)),),
            decisions=(
                Path("bad", MISCHIEF, MISCHIEF, (Arm("a", ((say("x"),),), MISCHIEF, (Run(MISCHIEF),), taken=True),)),
            ),
        ),
    ),
    hold=None,
    record=(),
    revision="P9WHC",
    address="teal/mischief",
    origins={"bad": Origin("bad", MISCHIEF, mm(MISCHIEF), MISCHIEF, MISCHIEF, MISCHIEF)},
)

TEAL = FamilySheet(
    id="teal",
    name="Teal",
    describe="V4, iron block",
    variants=(("teal-62", "6.2"), ("teal-57", "5.7")),
    sizes=(
        Row("bore", "Bore", (mm("98.40", also="3.874 in"),)),
        Row("stroke", "Stroke", (mm("91.60", variant="6.2"),)),
    ),
    traits=(
        ("Block", "grey iron", "stated"),
        ("Banks", "two banks, in a vee", "the cylinders stand in a vee"),
        ("Nose", "unseen", ""),
    ),
    missing=("Rod length",),
)
EIDER = FamilySheet("eider", "Eider", "inline three", (), (), (), ())

DECKS = (Deck(TEAL, (SEATS, MISCHIEVOUS)), Deck(EIDER, ()))
PRINTED = frozenset({"print/teal/deck.pdf", "print/teal/seats.pdf"})
GUIDE = (("no-such-name", "A name that nothing has", "Write a name that is there.\n\nOr take it out."),)
