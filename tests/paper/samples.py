"""Cards built by hand, of invented families, with everything on them that a card can carry."""

from __future__ import annotations

from dataclasses import replace

from sample_parts import BLANK, COVERED, EYES, GAP, NONE, PRESSED, STAND, WANTING, mm, say

from procgen.files.problems import Place
from procgen.model.card import (
    Arm,
    Box,
    Card,
    Conclusion,
    Figure,
    Grid,
    Hold,
    Path,
    Row,
    Shop,
    Stage,
    StepItem,
)
from procgen.model.workshop import Hole, ReadFrom, Stock

SHOP = Shop("The Saltings Shed", "https://saltings.example/cards", "R. Ames", "2026-11-20")
READ_FROM = ReadFrom()
NEAR = ReadFrom(steps=500.0, values=700.0, title=1000.0, hand=500.0)

_HERE = Place("shared/stocks.yaml")


def _stock(id: str, width: float, height: float) -> Stock:
    return Stock(
        id, id, width, height, 5.0, 4.0, Hole("round", 7.0, (width / 2, 9.0), 4.0), "size by definition", _HERE
    )


STOCKS = {
    stock.id: stock
    for stock in (
        _stock("a6", 105.0, 148.0),
        _stock("a5", 148.0, 210.0),
        _stock("half-letter", 139.7, 215.9),
        _stock("letter", 215.9, 279.4),
    )
}


_HONE = (
    (
        say("thumbnail slides over"),
        say("ring shadow same width all round"),
        say("ridge ≤ {0.152 mm}"),
        say("out-of-round ≤ {0.050 mm}"),
        say("taper ≤ {0.080 mm}"),
    ),
)

SURVEY = Card(
    id="cylinder-survey",
    family="avocet",
    family_name="Avocet",
    family_describe="V8, aluminium block",
    title="Cylinder survey",
    question="Hone or bore?",
    stage=Stage(9, "Measure", 20, "Threads", "Decide"),
    reason=say(
        "Rings wear a bore only where they run, and never evenly. A hone follows the shape it finds; a bore that is "
        "nearly true loses life and pistons if it is bored."
    ),
    bring=("bore gauge", "setting ring", "inspection light", "depth stop"),
    panels=(STAND,),
    steps=(
        StepItem("stand", 1, say("Turn the block so that this deck is level and lock the stand."), ()),
        StepItem(
            "thumbnail",
            2,
            say("Draw a thumbnail up the wall to the ridge,"),
            say("all round."),
            panels=(EYES,),
            boxes=(
                Box(
                    "thumbnail",
                    "Thumbnail drawn up to the ridge",
                    ("A1", "A2", "A3", "A4", "B1", "B2", "B3", "B4"),
                    "cylinder",
                    (("passes", "slides over"), ("catches", "stops")),
                ),
            ),
        ),
        StepItem(
            "light",
            3,
            say("Hold a light low and look for the ring shadow."),
            (),
            right=say("You can follow the edge of the shadow all round without losing it."),
        ),
        StepItem(
            "bore",
            4,
            say("Set the gauge in its ring."),
            say("Measure each station across the crank and along it."),
            because=say("A worn bore is true in two places only, above ring travel ({6.80 mm}) and below it."),
            rows=(
                Row("travel_top", "Top ring, highest point, below the deck", (mm("6.80", also="0.268 in"),)),
                Row(
                    "travel_bottom",
                    "Oil ring, lowest point, below the deck",
                    (mm("118.20", variant="6.2"), mm("109.80", variant="5.7")),
                ),
                Row("bore", "Bore, as made", (mm("104.20"),)),
            ),
            boxes=(
                Box(
                    "bore",
                    "Bore",
                    ("A1", "A2", "A3", "A4", "B1", "B2", "B3", "B4"),
                    "cylinder",
                    unit="mm",
                    gauge="bore gauge",
                    where="at each station below the deck",
                    how="note the depth you used",
                    stations=("3", "12", "35", "60", "85", "130"),
                    stations_unit="mm",
                    axes=(("thrust", "across the crank"), ("axial", "along the crank")),
                    expect="104.00 to 106.70 mm",
                ),
            ),
        ),
        StepItem(
            "limits",
            5,
            say("Work out each bore"),
            say("and mark the worst."),
            rows=(
                Row("out_of_round", "Out-of-round (two-point, on diameter)", (mm("0.05", "≤", note="shop practice"),)),
                Row("taper", "Taper within ring travel", (mm("0.08", "≤", note="shop practice"),)),
                Row("wear", "Wear", (WANTING,)),
            ),
        ),
        StepItem(
            "decide",
            6,
            say("Decide for every cylinder on its own,"),
            say("then for the engine."),
            decisions=(
                Path(
                    "hone_or_bore",
                    "Hone this cylinder or bore it?",
                    "each cylinder",
                    (
                        Arm("hone", _HONE, "Hone", say("Stones must cover all of ring travel and the unworn bands.")),
                        Arm(
                            "bore",
                            ((say("finished size ≤ {105.70 mm}"),),),
                            "Bore to the next oversize",
                            say("Pistons in the shop and measured first."),
                        ),
                        Arm("sleeve", (), "Sleeve it", say("or reject the block. No oversize on offer cleans it up.")),
                    ),
                ),
                Path(
                    "engine",
                    "And the engine?",
                    "",
                    (
                        Arm(
                            "sleeve",
                            ((say("any cylinder to be sleeved"),),),
                            "Price sleeves",
                            say("before other work."),
                        ),
                        Arm(
                            "bore_all", ((say("any cylinder to be bored"),),), "Bore all", say("so the pistons match.")
                        ),
                        Arm("hone_all", (), "Hone all", ()),
                    ),
                ),
            ),
        ),
    ),
    hold=Hold(say("Every cylinder measured at every station before anything is ordered."), ("fitter", "second")),
    record=("depths used", "bore sizes", "what was decided"),
    revision="7KQ4M",
    address="avocet/cylinder-survey",
)

CAM = Card(
    id="cam-bearings",
    family="avocet",
    family_name="Avocet",
    family_describe="V8, aluminium block",
    title="Cam bearings",
    question="Do the cam bearings stay, and is every oil hole open?",
    stage=Stage(16, "Cam shells", 20, "Wash", "Plugs in"),
    reason=say(
        "A hole that is half covered, or grit left behind a shell, ruins bearing and camshaft in the first minutes."
    ),
    bring=("inspection light", "probe rod", "small-bore gauge"),
    panels=(),
    steps=(
        StepItem(
            "mark",
            1,
            say("Number every shell on its edge from the front and photograph it."),
            say("Note each hole clock as seen from the front."),
            grids=(
                Grid(
                    ("Cam bearing", "Hole in block", "Hole in shell", "Block bore"),
                    tuple(
                        (str(i), (Figure(clock), Figure("4:30"), mm(bore)))
                        for i, (clock, bore) in enumerate(
                            (
                                ("12:00", "57.00"),
                                ("1:30", "56.75"),
                                ("12:00", "56.50"),
                                ("1:30", "56.25"),
                                ("6:00", "56.00"),
                            ),
                            start=1,
                        )
                    ),
                    "Five positions, no two alike",
                ),
            ),
        ),
        StepItem(
            "settled",
            2,
            say("Replace every shell."),
            (),
            decisions=(
                Conclusion(
                    "keep_or_replace",
                    "Keep this shell or replace it?",
                    "Replace",
                    say("It comes out to clean, and a pulled shell never goes back."),
                    "Oil runs behind the shells of this family.",
                ),
            ),
        ),
        StepItem(
            "press",
            3,
            say("Press each new shell in square"),
            say("with its oil hole at the clock shown, seen from the front."),
            right=say("The probe rod drops through shell and block without touching."),
            panels=(PRESSED, COVERED),
            rows=(
                Row("slack", "Side play of the hole in its groove", (mm("0.8"),)),
                Row("clearance", "Running clearance", (mm("0.030–0.080"),)),
            ),
        ),
        StepItem(
            "turn",
            4,
            say("Oil the bearings, slide the camshaft in and turn it by hand."),
            (),
            boxes=(Box("turns", "Camshaft end float", unit="mm", gauge="dial indicator"),),
        ),
    ),
    hold=Hold(say("A second person has looked through every oil hole with a light."), ("fitter", "second")),
    record=(),
    revision="M3XDT",
    address="avocet/cam-bearings",
)

PARTIAL = Card(
    id="count-plugs",
    family="dunlin",
    family_name="Dunlin",
    family_describe="inline four, iron block",
    title="Plugs out",
    question="How many plugs, and where?",
    stage=Stage(1, "Plugs", 20, "", "Strip"),
    reason=say("A plug left in hides grit that no washing reaches."),
    bring=("tray with numbered cups",),
    panels=(),
    steps=(
        StepItem(
            "count",
            1,
            say("Take out every galley plug"),
            say("and lay it in its cup."),
            rows=(
                Row("plugs", "Galley plugs", (Figure("", "", state="blank"),)),
                Row("depth", "Deepest a core plug may go", (BLANK,)),
                Row("second", "Second hole", (NONE,)),
            ),
            decisions=(
                Path(
                    "all_out",
                    "Are they all out?",
                    "",
                    (
                        Arm(
                            "yes",
                            ((say("plugs out are {12}"),), (say("drawing says fewer"), say("owner agrees"))),
                            "Go on",
                            (),
                        ),
                        Arm("no", (), "Stop", say("Look again behind the front cover.")),
                    ),
                    ("number of galley plugs",),
                ),
            ),
        ),
    ),
    hold=None,
    record=("count out",),
    revision="P9WHC",
    address="dunlin/count-plugs",
    missing=("number of galley plugs", "deepest seat of the core plugs"),
)


def _size(most: str, action: str, detail: str, taken: bool | None = None) -> Arm:
    return Arm(action, ((say(f"largest ≤ {{{most}}}"),),), action, say(detail), taken)


CHOICE = Card(
    id="hone-or-bore",
    family="bittern",
    family_name="Bittern",
    family_describe="V8, iron block",
    title="Hone or bore",
    question="Cylinder survey, all eight bores",
    stage=Stage(9, "Measure", 20, "Threads", "Decide"),
    reason=say("Wear sets the oversize, the oversize sets the pistons. Know both before money is spent."),
    bring=("bore gauge", "setting ring", "job sheet"),
    panels=(),
    steps=(
        StepItem(
            "branch",
            1,
            say("Take the first branch that holds."),
            say("Sizes in mm."),
            decisions=(
                Path(
                    "size",
                    "Which size?",
                    "",
                    (
                        Arm("hone", ((say("all eight inside limits"),),), "Hone", say("at standard size")),
                        _size("98.54", "Bore +0.25", "to 98.57, hone 98.65"),
                        _size("98.79", "Bore +0.50", "to 98.82, hone 98.90"),
                        _size("99.04", "Bore +0.75", "to 99.07, hone 99.15"),
                        Arm("sleeve", (), "Sleeve", say("or reject; ask the owner")),
                    ),
                ),
            ),
        ),
    ),
    hold=Hold(say("Pistons in the shop and measured before any boring."), ("fitter", "second")),
    record=(),
    revision="X2ND8",
    address="bittern/hone-or-bore",
)


def taken(card: Card, arm: str) -> Card:
    """The card as a job settles it: one arm of its only decision taken."""
    (step,) = card.steps
    (path,) = step.decisions
    assert isinstance(path, Path)
    arms = tuple(replace(one, taken=one.id == arm) for one in path.arms)
    return replace(card, steps=(replace(step, decisions=(replace(path, arms=arms),)),))


TAKEN = taken(replace(CHOICE, id="hone-or-bore-settled", address="bittern/hone-or-bore-settled"), "Bore +0.50")

DRAWN = replace(
    PARTIAL,
    id="ring-gap",
    family="bittern",
    family_name="Bittern",
    title="Ring gaps",
    question="Does each ring have room?",
    address="bittern/ring-gap",
    missing=(),
    record=(),
    steps=(
        StepItem("square", 1, say("Push the ring square into its bore"), say("with a piston."), drawings=("gap",)),
        StepItem("feel", 2, say("Feel the gap."), say("The blade drags at {0.40 mm} and will not enter at {0.60 mm}.")),
    ),
    scenes={"gap": GAP},
)

CARDS = (SURVEY, CAM, PARTIAL, CHOICE, TAKEN, DRAWN)
