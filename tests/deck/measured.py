"""Cards from the first wash to the decision, each with readings that find nothing wrong."""

from __future__ import annotations

from tests.deck.stand import Bores, Stand, Taken

FAMILIES = ("avocet", "bittern", "curlew", "dunlin", "plover")
WASHED: dict[str, Taken] = {"still_in": "iron", "bath": "mild", "paper": "neutral", "surface": "clean"}
WHOLE: dict[str, Taken] = {"method": "dye", "find": "none", "jacket_drop": 0.0, "map": "made", "wall_least": 6.0}
TRIED: dict[str, Taken] = {"plug_thread": "listed", "plug_flank": "whole", "plug_hand": "right",
                           "bolt_flank": "whole", "bolt_turns": 8.0}  # fmt: skip
TRUE_LINE: dict[str, Taken] = {
    "temp_gap": 0.0, "cap": "firm", "house_look": "grey", "house": 66.20, "near_passes": 0.01, "near_stops": 0.02,
    "far_passes": 0.03, "far_stops": 0.04, "lifter_bore": 21.84, "lifter_od": 21.80,
}  # fmt: skip
ORIGINAL: dict[str, Taken] = {"gear": "original", "ridge_seen": "there", "deck_cut": 0.0}
SAME: dict[str, Taken] = ORIGINAL | {
    "gear": "changed", "new_stroke": 84.20, "new_rod": 152.60, "new_height": 38.75, "crown_to_top": 5.60,
    "crown_to_oil": 23.90,
}  # fmt: skip
"""Other parts of a Bittern 5.1, in no size different from those that it had."""
LONGER_ROD = SAME | {"new_rod": 153.10}
SOUND: dict[str, Taken] = {
    "thumbnail": "passes", "shadow": "even", "wall": "sound", "hatch": "worn", "wear_side": "both", "ring_plan": "old",
}  # fmt: skip
FLAT: dict[str, Taken] = {
    "mark": "none", "near_passes": 0.03, "near_stops": 0.04, "whole_passes": 0.05, "whole_stops": 0.06, "corner": 0.0,
    "gone": 0.0,
}  # fmt: skip


def worn_evenly(ridge: float, size: float = 98.40) -> Bores:
    """A Bittern bore worn by `ridge` mm on diameter all the way down ring travel, so that only the ridge can tell."""
    worn, unworn = dict.fromkeys((8.0, 40.0, 75.0, 106.0), size + ridge), dict.fromkeys((3.0, 122.0), size)
    return {depth: (across, across) for depth, across in sorted((worn | unworn).items())}


def travel(parts: dict[str, Taken] = ORIGINAL, family: str = "bittern", **other: Taken) -> Stand:
    return Stand(family, "travel", parts | other)


def survey(bores: Bores, parts: dict[str, Taken] = ORIGINAL, **other: Taken) -> Stand:
    return Stand("bittern", "cylinder-survey", SOUND | other, bores, beside=travel(parts))


def decide(surveyed: Stand, walls: dict[str, Taken] = WHOLE, **other: Taken) -> Stand:
    """The whole engine, its walls mapped and its new pistons not yet ordered."""
    Stand("bittern", "cracks", walls, beside=surveyed)
    return Stand("bittern", "decide", {"pistons": "none"} | other, beside=surveyed)


def deck(**other: Taken) -> Stand:
    return Stand("bittern", "deck-face", FLAT | other, beside=travel())


def one_bad(good: str, bad: str) -> Taken:
    """A word for seven cylinders of a Bittern and another for one."""
    return dict.fromkeys(("A1", "A2", "A3", "A4", "B1", "B2", "B3", "B4"), good) | {"B4": bad}
