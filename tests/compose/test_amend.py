"""What a family changes in a card, and that it changes nothing for any other family."""

from pathlib import Path

from small_shed import TEAL, card, lines, made, shed, teal

from procgen.compose.amend import amended
from procgen.model.card import plain
from procgen.model.workshop import Workshop


def changed(root: Path, amendment: str) -> Workshop:
    return shed(root, teal("amend:\n  wear:\n" + amendment))


def steps(workshop: Workshop, family: str = "teal") -> list[tuple[int, str, str]]:
    found = card(workshop, family=family).steps
    return [(step.number, step.id, plain(step.action)) for step in found]


def test_a_card_that_the_family_does_not_change_is_the_very_same(tmp_path: Path) -> None:
    workshop = changed(tmp_path, "    drop: {decide: It is decided elsewhere.}\n")
    wear = workshop.procedures["wear"]
    assert amended(wear, workshop.families["smew"]) is wear
    assert amended(wear, workshop.families["teal"]) is not wear
    assert steps(workshop, "smew") == [(1, "measure", "Measure the bore."), (2, "decide", "Decide for each cylinder.")]


def test_before_and_after_keep_their_order_and_all_steps_are_counted(tmp_path: Path) -> None:
    workshop = changed(
        tmp_path,
        """\
    before:
      measure: [{id: warm, do: Warm it.}, {id: wipe, do: Wipe it.}]
    after:
      measure: [{id: rest, do: Let it rest.}]
      decide: [{id: note, do: Write it down.}]
""",
    )
    assert steps(workshop) == [
        (1, "warm", "Warm it."),
        (2, "wipe", "Wipe it."),
        (3, "measure", "Measure the bore."),
        (4, "rest", "Let it rest."),
        (5, "decide", "Decide for each cylinder."),
        (6, "note", "Write it down."),
    ]


def test_a_dropped_step_is_gone_and_what_stands_round_it_stays(tmp_path: Path) -> None:
    workshop = changed(
        tmp_path,
        """\
    drop: {measure: The sleeves are new.}
    after: {measure: [{id: look, do: Look at the sleeves., read: [size, wall]}]}
""",
    )
    assert steps(workshop) == [(1, "look", "Look at the sleeves."), (2, "decide", "Decide for each cylinder.")]


def test_replace_changes_only_the_fields_that_it_names(tmp_path: Path) -> None:
    workshop = changed(tmp_path, "    replace: {measure: {do: Measure the sleeve. Do not mark it.}}\n")
    theirs, ours = (card(workshop, family=family).steps[0] for family in ("smew", "teal"))
    assert plain(ours.action) == "Measure the sleeve."
    assert plain(ours.detail) == "Do not mark it."
    assert ours.rows[0].label == theirs.rows[0].label == "Wear"
    assert [box.title for box in ours.boxes] == [box.title for box in theirs.boxes] == ["Size", "Wall"]


def test_cautions_are_added_to_those_that_a_step_has(tmp_path: Path) -> None:
    workshop = changed(
        tmp_path,
        """\
    replace: {decide: {cautions: [heat]}}
    cautions: {measure: [vapour], decide: [lifting]}
""",
    )
    measure, decide = card(workshop).steps
    assert [panel.id for panel in measure.panels] == ["vapour"]
    assert [panel.id for panel in decide.panels] == ["heat", "lifting"]
    assert all(panel.step == "decide" for panel in decide.panels)
    assert [step.panels for step in card(workshop, family="smew").steps] == [(), ()]


def test_a_step_that_the_family_adds_carries_its_cautions(tmp_path: Path) -> None:
    workshop = changed(
        tmp_path,
        """\
    before: {measure: [{id: warm, do: Warm it., cautions: [heat]}]}
    after: {decide: [{id: wash, do: Wash it.}]}
    cautions: {warm: [lifting], wash: [vapour]}
""",
    )
    found = {step.id: [panel.id for panel in step.panels] for step in card(workshop).steps}
    assert found == {"warm": ["heat", "lifting"], "measure": [], "decide": [], "wash": ["vapour"]}


def test_values(tmp_path: Path) -> None:
    """A value keeps what the family does not say anew; a new one may be shown."""
    workshop = changed(
        tmp_path,
        """\
    values:
      wear: {limits: {max: sleeve_wear_max}}
      sleeve_wear_max: {title: Most wear of a sleeve, is: 0.05 mm, source: sleeve maker}
    replace: {decide: {show: [sleeve_wear_max]}}
""",
    )
    said = lines(card(workshop))
    assert "Wear: ≤ 0.05 mm" in said
    assert "Most wear of a sleeve: 0.05 mm" in said
    assert "Wear: ≤ 0.10 mm" in lines(card(workshop, family="smew"))


def test_an_amended_value_counts_in_other_cards_too(tmp_path: Path) -> None:
    workshop = changed(tmp_path, "    values: {share: {formula: geometry.deck_clearance * 2 / geometry.stroke}}\n")
    ours, theirs = (made(workshop, family)[""].card("wear").whole("share").one for family in ("teal", "smew"))
    assert ours.number == 0.8 / 80
    assert theirs.number == 0.4 / 90


def test_a_change_is_found_in_the_revision(tmp_path: Path) -> None:
    before = card(shed(tmp_path / "a")).revision
    after = card(changed(tmp_path / "b", "    cautions: {measure: [vapour]}\n")).revision
    assert before != after
    assert (tmp_path / "b" / TEAL).exists()
