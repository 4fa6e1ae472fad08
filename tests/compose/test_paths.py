"""Decisions on a card: what a family's layout settles, what is left to the person at the stand, and what waits."""

from pathlib import Path as Folder
from textwrap import dedent

from small_shed import Files, card, card_file, lines, shed, shop, teal

from procgen.compose import benches
from procgen.compose.card import speaker_for
from procgen.compose.paths import names_asked
from procgen.model.card import Arm, Card, Conclusion, Hold, Path, StepItem, plain
from tests import demo

CHOICES = """
    readings:
      size: {title: Size, each: cylinder, measure: length, with: bore_gauge}
      wall: {title: Wall, each: cylinder, choices: {sound: is sound, scored: is scored, cracked: is cracked}}
      rim: {title: Rim, choices: {whole: is whole, chipped: is chipped}}
    """


def look(root: Folder, parts: str, family: Files | None = None) -> Card:
    files = {**(family or teal()), **card_file("look", dedent(CHOICES) + dedent(parts)), **shop("look, wear")}
    return card(shed(root, files), "look")


def decided(card: Card, place: int = 0) -> Path | Conclusion:
    return [decision for step in card.steps for decision in step.decisions][place]


def arms(path: Path | Conclusion) -> list[tuple[str, str, str]]:
    assert isinstance(path, Path)
    return [(_said(arm), arm.action, plain(arm.detail)) for arm in path.arms]


def _said(arm: Arm) -> str:
    together = (" and ".join(map(plain, clauses)) for clauses in arm.conditions)
    return " or ".join(together).replace("\u202f", " ") or "otherwise"


READ = "- {id: x, do: Look., read: [size, wall, rim], decide: [sort]}"


def sort(branches: str, more: str = "", each: str = "") -> str:
    lines = "".join(f"          - {branch.strip()}\n" for branch in branches.strip().split("\n"))
    head = f"    decisions:\n      sort:\n        title: Sort?\n{each and f'        each: {each}' + chr(10)}{more}"
    return f"{head}        branches:\n{lines}    steps:\n      {READ}\n"


def test_arms_say_their_conditions_actions_and_details(tmp_path: Folder) -> None:
    parts = sort(
        """
        {id: bore, when: size > shop.wear_max or wall is scored, then: "Bore. It is worn, by {shop.wear_max}."}
        {id: keep, when: "wall in (sound, cracked) and size <= shop.wear_max", then: Keep}
        """,
        each="cylinder",
    )
    found = decided(look(tmp_path, parts))
    assert arms(found) == [
        ("size > 0.10 mm or wall is scored", "Bore", "It is worn, by 0.10\u202fmm."),
        ("wall is sound or is cracked and size ≤ 0.10 mm", "Keep", ""),
    ]
    assert isinstance(found, Path)
    assert (found.title, found.each, found.waits_for) == ("Sort?", "each cylinder", ())


def test_otherwise_has_haltcondition(tmp_path: Folder) -> None:
    parts = sort(
        "{id: chip, when: rim is chipped, then: Dress it.}", "        otherwise: {id: leave, then: Leave it.}\n"
    )
    assert arms(decided(look(tmp_path, parts))) == [("rim is chipped", "Dress it", ""), ("otherwise", "Leave it", "")]


FOLDED = sort(
    """
{id: alloy, when: block.material is aluminium and rim is chipped, then: Weld it.}
{id: iron, when: block.material is iron and rim is chipped, then: Braze it.}
{id: whole, when: rim is whole, then: Leave it.}
"""
)


def test_what_traits_settle_is_not_asked(tmp_path: Folder) -> None:
    assert arms(decided(look(tmp_path, FOLDED))) == [
        ("rim is chipped", "Braze it", ""),
        ("rim is whole", "Leave it", ""),
    ]


def test_a_trait_that_is_not_known_is_asked_and_named(tmp_path: Folder) -> None:
    family = {path: text.replace("traits: {block.material: iron}\n", "") for path, text in teal().items()}
    found = decided(look(tmp_path, FOLDED, family))
    assert isinstance(found, Path)
    assert [arm.id for arm in found.arms] == ["alloy", "iron", "whole"]
    assert found.waits_for == ("metal of the block",)


def test_a_figure_that_is_not_known_is_waited_for(tmp_path: Folder) -> None:
    parts = sort(
        "{id: big, when: size > geometry.bore, then: Sleeve.}\n{id: small, when: size <= geometry.bore, then: Bore.}",
        each="cylinder",
    )
    found = decided(look(tmp_path, parts, teal(geometry="stroke: 80.0")))
    assert isinstance(found, Path)
    assert found.waits_for == ("bore",)
    assert arms(found)[0][0] == "size over “bore”"


def test_what_the_layout_settles_is_a_conclusion_with_its_reason(tmp_path: Folder) -> None:
    parts = sort(
        """
{id: long, when: geometry.stroke > geometry.bore, then: "Take the long one. It is {geometry.stroke}."}
{id: short, when: geometry.stroke <= geometry.bore, then: Take the short one.}
"""
    )
    found = decided(look(tmp_path, parts))
    assert isinstance(found, Conclusion)
    assert (found.action, plain(found.detail)) == ("Take the long one", "It is 80.0\u202fmm.")
    assert found.because == "stroke > 70.0\u202fmm"


def test_of_alternatives_the_reason_is_the_one_that_holds(tmp_path: Folder) -> None:
    parts = sort(
        "{id: go, when: block.material is aluminium or geometry.stroke > geometry.bore, then: Go.}",
        "        otherwise: {id: halt, then: Stop.}\n",
    )
    found = decided(look(tmp_path, parts))
    assert isinstance(found, Conclusion)
    assert found.because == "stroke > 70.0\u202fmm"


def test_what_only_otherwise_takes_is_concluded_too(tmp_path: Folder) -> None:
    parts = sort(
        "{id: go, when: block.material is aluminium, then: Go.}", "        otherwise: {id: halt, then: Stop.}\n"
    )
    found = decided(look(tmp_path, parts))
    assert isinstance(found, Conclusion)
    assert (found.action, found.because) == ("Stop", "nothing else can hold for this family")


def test_a_decision_that_a_trait_excludes_is_not_on_the_card(tmp_path: Folder) -> None:
    parts = sort(
        "{id: go, when: rim is whole, then: Go.}\n{id: halt, when: rim is chipped, then: Stop.}",
        "        when: block.material is aluminium\n",
    )
    assert [step.decisions for step in look(tmp_path, parts).steps] == [()]


def test_variants_that_differ_are_asked_by_what_tells_them_apart(tmp_path: Folder) -> None:
    variants = """
        variants:
          teal-60: {name: short, geometry: {stroke: 60.0}}
          teal-80: {name: long, geometry: {stroke: 80.0}}
        """
    parts = sort(
        """
{id: long, when: geometry.stroke > geometry.bore, then: Take the long one.}
{id: short, when: geometry.stroke <= geometry.bore, then: Take the short one.}
"""
    )
    found = decided(look(tmp_path, parts, teal(variants, "bore: 70.0")))
    assert [arm[0] for arm in arms(found)] == ["stroke > 70.0 mm", "stroke ≤ 70.0 mm"]


LATER = """
    decisions:
      sort:
        title: Sort?
        branches:
          - {id: good, when: rim is whole, then: Leave it. It is whole.}
          - {id: bad, when: rim is chipped, then: "Dress it to {shop.wear_max}."}
      again:
        title: Again?
        when: sort is bad
        branches:
          - {id: go, when: any(wall is cracked), then: Go.}
        otherwise: {id: halt, then: Stop.}
    hold_point: {text: Both have looked., signers: 2, when: sort is bad}
    steps:
      - {id: x, do: Look., read: [rim, wall, size], decide: [sort, again]}
      - {id: y, do: Dress the rim., when: sort is bad}
      - {id: z, do: Wash it., when: sort is bad}
      - {id: v, do: Leave it., when: sort is not bad}
      - {id: w, do: Weld it., when: block.material is aluminium}
      - {id: end, do: Oil it.}
    """


def steps(card: Card) -> list[StepItem]:
    return list(card.steps)


def test_steps_say_what_they_wait_on_and_those_that_are_excluded_are_gone(tmp_path: Folder) -> None:
    said = [(step.number, plain(step.only_if), plain(step.action)) for step in steps(look(tmp_path, LATER))]
    assert [(number, only_if.replace("\u202f", " "), action) for number, only_if, action in said] == [
        (1, "", "Look."),
        (2, "If “dress it to 0.10 mm”:", "Dress the rim."),
        (3, "If so:", "Wash it."),
        (4, "If not “dress it to 0.10 mm”:", "Leave it."),
        (5, "", "Oil it."),
    ]


def test_a_decision_and_a_hold_say_what_they_wait_on(tmp_path: Folder) -> None:
    found = look(tmp_path, LATER)
    again = decided(found, 1)
    assert isinstance(again, Path)
    assert again.each == "if “dress it to 0.10\u202fmm”"
    assert isinstance(found.hold, Hold)
    assert plain(found.hold.text) == "If “dress it to 0.10\u202fmm”: Both have looked."
    assert found.hold.signers == ("fitter", "second")


def test_what_the_whole_step_waits_on_is_not_said_again_in_it(tmp_path: Folder) -> None:
    parts = LATER.replace("read: [rim, wall, size], decide: [sort, again]", "read: [rim, wall, size], decide: [sort]")
    parts = parts.replace(
        "{id: y, do: Dress the rim., when: sort is bad}",
        "{id: y, do: Dress the rim., when: sort is bad, decide: [again]}",
    )
    again = decided(look(tmp_path, parts), 1)
    assert isinstance(again, Path)
    assert again.each == ""


def test_a_reading_says_what_it_waits_on(tmp_path: Folder) -> None:
    parts = LATER.replace(
        "    decisions:\n",
        "      deep: {title: Depth, measure: length, with: depth_gauge, when: sort is bad}\n    decisions:\n",
        1,
    ).replace("size], decide: [sort, again]", "size, deep], decide: [sort, again]")
    assert "read Depth, if “dress it to 0.10\u202fmm” [mm]" in lines(look(tmp_path, parts))


def test_what_only_some_variants_need_says_which(tmp_path: Folder) -> None:
    variants = """
        variants:
          teal-60: {name: short stroke, geometry: {stroke: 60.0}}
          teal-80: {name: long stroke, geometry: {stroke: 80.0}}
        """
    parts = """
        steps:
          - {id: x, do: Look., read: [size, wall, rim]}
          - {id: y, do: Fit the spacer., when: geometry.stroke > geometry.bore}
          - {id: z, do: Mind the rim., when: geometry.stroke > geometry.bore and rim is chipped}
          - {id: none, do: Never., when: geometry.stroke > geometry.bore * 2}
        """
    found = look(tmp_path, parts, teal(variants, "bore: 70.0"))
    assert [plain(step.only_if) for step in steps(found)] == [
        "",
        "If it is the long stroke:",
        "If it is the long stroke and rim is chipped:",
    ]


def test_nothing_is_missing_of_a_decision_whose_names_are_all_stated() -> None:
    """So that what is left of its conditions need not be worked out to tell; held for all decisions of the demo."""
    workshop, stated = demo.workshop(), 0
    for family in workshop.families.values():
        made = dict(benches(workshop, family))
        for procedure in next(iter(made.values())).procedures.values():
            speaker = speaker_for(procedure.id, made)
            meanings = speaker.first.lexicon.meanings
            for decision in procedure.decisions.values():
                conditions = [branch.when for branch in decision.branches if branch.when is not None]
                asked = {name for when in conditions for name in speaker.first.names(when.tree) if meanings.get(name)}
                left = [name for name in names_asked(decision, speaker) if meanings.get(name)]
                assert {*left} <= asked
                if all(map(speaker.is_known, asked)):
                    assert speaker.not_yet_known(left) == ()
                    stated += 1
    assert stated > 100
