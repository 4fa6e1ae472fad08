"""Between two texts: which value, step, caution or drawing changed, in words."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from small_shed import WEAR, card, shed, text_of

from procgen.compose.revision import said
from procgen.ledger.change import Change
from procgen.ledger.changes import changes

OLD = """\
Teal, two in line
Wear: Is the bore worn out?
stage 3 of 9 Measure
reason: A worn bore burns oil.
bring: bore gauge
WARNING W024: A block rolls over. Crushed hand. Pin it. (the stand maker's instructions)
1 Turn the deck level. Wipe it dry.
  right: Nothing moves.
  because: Oil is cold.
  Wear, most: ≤ 0.05 mm
  Depths: long: 3.0 · 8.0 mm; short: 4.0 · 9.0 mm
  | plug | turns | where
  | CP1 | 5 | side
  read Size [mm]
    bore gauge
    each cylinder: 1, 2
  drawing Bore (drawn: 1, once), 5.1, cut lengthwise: The bore. Rings run from 6.1 mm.
    line 0.0 1.0 outline
2 Decide for each by itself.
  decide Worn out? each cylinder
    wear > 0.05 mm or wall is scored -> Bore It is worn.
    wear ≤ 0.05 mm and wall is sound -> Keep It will do.
  concluded Sleeves: no sleeves here (the block is iron)
HOLD All are measured. [fitter]
record: each size
not yet known: Stroke"""

CASES = [
    ("≤ 0.05 mm\n  Depths", "≤ 0.06 mm\n  Depths", "Wear, most: ≤ 0.05 → 0.06 mm"),
    ("short: 4.0", "short: 4.5", "Depths: long: short: 4.0 · 9.0 mm → short: 4.5 · 9.0 mm"),
    ("| CP1 | 5 |", "| CP1 | 6 |", "plug CP1: 5 → 6"),
    ("  | CP1 | 5 | side\n", "", "plug CP1, gone: 5 | side"),
    ("Crushed hand.", "Crushed arm.", "WARNING “A block rolls over.”: Crushed hand. → Crushed arm."),
    ("WARNING W024", "DANGER W024", "caution “A block rolls over.”: WARNING → DANGER"),
    ("Wipe it dry.", "Wipe it wet.", "step “Turn the deck level.”: Wipe it dry. → Wipe it wet."),
    ("Turn the deck level.", "Turn the deck up.", "step: Turn the deck level. → Turn the deck up."),
    ("2 Decide for", "2 Measure once more with care.\n3 Decide for", "step, new: Measure once more with care."),
    ("  right: Nothing moves.\n", "", "how to know it is right, gone: Nothing moves."),
    ("Oil is cold", "Oil is warm", "why: Oil is cold. → Oil is warm."),
    ("bore gauge\n    each", "calliper\n    each", "reading “Size”: bore gauge → calliper"),
    ("line 0.0 1.0", "line 0.0 1.5", "drawing “Bore (drawn: 1, once)”: drawn otherwise"),
    ("from 6.1", "from 6.2", "drawing “Bore (drawn: 1, once)”: drawn otherwise"),
    ("wear > 0.05 mm", "wear > 0.06 mm", "wear: > 0.05 → 0.06 mm"),
    (" or wall is scored", "", "decision “Worn out?”, “Bore”, gone: wall is scored"),
    (" and wall is sound", "",
     "decision “Worn out?”, “Keep”: wear ≤ 0.05 mm and wall is sound → wear ≤ 0.05 mm"),
    ("-> Keep It", "-> Leave it It",
     "decision “Worn out?”, wear ≤ 0.05 mm and wall is sound: Keep It will do. → Leave it It will do."),
    ("no sleeves", "sleeves",
     "conclusion “Sleeves”: no sleeves here (the block is iron) → sleeves here (the block is iron)"),
    ("All are measured", "Each is measured", "hold point: All are measured. → Each is measured."),
    ("record: each size", "record: each size, by whom", "what to write down: each size → each size, by whom"),
    ("\nnot yet known: Stroke", "", "not yet known, gone: Stroke"),
    ("3 of 9", "4 of 10", "cards in the deck: 9 → 10"),
    ("3 of 9", "4 of 9", "order of the deck: another"),
    ("of 9 Measure", "of 9 Look", "stage: Measure → Look"),
    ("Teal, two", "Teal, three", "the family: Teal, two in line → Teal, three in line"),
    ("out?\nstage", "through?\nstage",
     "title and question: Wear: Is the bore worn out? → Wear: Is the bore worn through?"),
    ("bring: bore gauge", "bring: bore gauge, lamp", "what to bring: bore gauge → bore gauge, lamp"),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "told"), CASES)
def test_one_change_is_told_as_one(old: str, new: str, told: str) -> None:
    assert OLD.count(old) == 1
    assert [change.said for change in changes(OLD, OLD.replace(old, new))] == [told]


def test_variants_do_not_part_what_belongs_together() -> None:
    """Two engines side by side: their variants have other names, the value and its drawing are the same."""
    other = OLD.replace("long: 3.0 · 8.0 mm; short: 4.0 · 9.0 mm", "2.0 · 7.0 mm").replace(", 5.1,", ", large,")
    assert [change.said for change in changes(OLD, other)] == [
        "Depths: long: 3.0 · 8.0 mm; short: 4.0 · 9.0 mm → 2.0 · 7.0 mm",
        "drawing “Bore (drawn: 1, once)”: drawn otherwise",
    ]


def test_nothing_for_the_same() -> None:
    assert changes(OLD, OLD) == ()


def test_two_steps_that_change_places() -> None:
    lines = "Teal, two\nWear: Out?\nstage 3 of 9 Measure\n{}"
    one, other = "1 Wipe it.\n2 Turn it.", "1 Turn it.\n2 Wipe it."
    (change,) = changes(lines.format(one), lines.format(other))
    assert change.said in ("step “Wipe it.”: in another place", "step “Turn it.”: in another place")


@settings(max_examples=200)
@given(st.data())
def test_whatever_differs_something_is_told(data: st.DataObject) -> None:
    """Lines dropped, doubled, exchanged or spoilt anywhere: a superseded card never goes without a reason."""
    lines = OLD.split("\n")
    for _ in range(data.draw(st.integers(1, 4))):
        i, j = (data.draw(st.integers(0, len(lines) - 1)) for _ in range(2))
        match data.draw(st.sampled_from(["drop", "double", "exchange", "spoil"])):
            case "drop" if len(lines) > 1:
                del lines[i]
            case "double":
                lines.insert(j, lines[i])
            case "exchange":
                lines[i], lines[j] = lines[j], lines[i]
            case _:
                lines[i] += data.draw(st.text(max_size=3))
    new = "\n".join(lines)
    assert bool(changes(OLD, new)) == (new != OLD)
    assert bool(changes(new, OLD)) == (new != OLD)


def test_figures_alone_are_told_from_words() -> None:
    assert Change("", "", "wear > 0.05 mm (0.002 in)", "wear > 0.06 mm (0.002 in)").figures == {("0.05", "0.06")}
    assert not Change("", "", "wear > 0.05 mm", "wear ≥ 0.06 mm").figures
    assert not Change("", "", "", "0.06 mm").figures


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("formula: geometry.deck_clearance / geometry.stroke", "formula: geometry.deck_clearance / geometry.bore",
         ["Share of the stroke: 0 → 1 %"]),  # 0.4 / 80.0 and 0.4 / 70.0
        ("is scored}", "has scores}", None),
        ("Wipe it first.", "Wipe it dry.", ["step “Measure the bore.”: Wipe it first. → Wipe it dry."]),
    ],
)  # fmt: skip
def test_on_a_card_as_composed(tmp_path: Path, old: str, new: str, told: list[str] | None) -> None:
    before = said(card(shed(tmp_path / "a")))
    after = said(card(shed(tmp_path / "b", {WEAR: text_of(WEAR).replace(old, new)})))
    found = [change.said for change in changes(before, after)]
    assert bool(found) == (before != after)
    if told is not None and before != after:
        assert found == told
