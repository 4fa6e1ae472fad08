"""Each decision's proof is made for what can be there: its family's figures, and what earlier decisions can reach."""

from pathlib import Path

import pytest
from small_shed import card_file, made, shed, shop, teal

from procgen.compose import Proofs, Proven

CARDS = {
    **card_file(
        "first",
        """
        values:
          wear: {title: Wear, each: cylinder, formula: size - geometry.bore, show: 0.01 mm}
        readings:
          size: {title: Size, each: cylinder, measure: length, with: bore_gauge}
          wall: {title: Wall, each: cylinder, choices: {sound: is sound, scored: is scored}}
        decisions:
          sort:
            title: Sort?
            each: cylinder
            branches:
              - {id: scrap, when: wall is scored and block.material is aluminium, then: Scrap it.}
              - {id: bore, when: wear > shop.wear_max, then: Bore it.}
            otherwise: {id: keep, then: Keep it.}
        steps:
          - {id: x, do: Look., read: [size, wall], decide: [sort]}
        """,
    ),
    **card_file(
        "second",
        """
        readings:
          spare: {title: Spare, choices: {here: is here, gone: is gone}}
        decisions:
          whole:
            title: All of them?
            branches:
              - {id: all, when: all(first.sort is keep), then: Nothing.}
              - {id: some, when: any(first.sort is bore), then: Bore.}
              - {id: none, when: any(first.sort is scrap), then: Scrap.}
          next:
            title: What next?
            when: whole is some
            branches:
              - {id: order, when: spare is gone, then: Order.}
              - {id: go, when: spare is here and whole is some, then: Go.}
        steps:
          - {id: x, do: Look., read: [spare], decide: [whole, next]}
        """,
    ),
    **shop("first, second, wear"),
}


def proofs(root: Path, family: dict[str, str]) -> Proofs:
    return Proofs(made(shed(root, {**family, **CARDS}))[""])


def proven(proofs: Proofs, card: str, decision: str) -> tuple[Proven, ...]:
    scope = proofs.bench.card(card)
    return proofs.of(scope, scope.procedure.decisions[decision])


def outcomes(proofs: Proofs, card: str, decision: str) -> tuple[str, ...]:
    scope = proofs.bench.card(card)
    return proofs.outcomes(scope, scope.procedure.decisions[decision])


def test_a_proof_for_each_member(tmp_path: Path) -> None:
    found = proven(proofs(tmp_path, teal()), "first", "sort")
    assert [(one.member, one.proof.status) for one in found] == [
        ({"cylinder": "1"}, "proved"),
        ({"cylinder": "2"}, "proved"),
    ]
    assert found[0].proof is found[1].proof, "members that agree in all that is asked share one"


def test_what_a_trait_excludes_is_never_taken(tmp_path: Path) -> None:
    iron, unknown = teal(), {p: t.replace("traits: {block.material: iron}\n", "") for p, t in teal().items()}
    assert outcomes(proofs(tmp_path / "a", iron), "first", "sort") == ("bore", "keep")
    assert outcomes(proofs(tmp_path / "b", unknown), "first", "sort") == ("scrap", "bore", "keep")


def test_a_later_decision_meets_only_what_an_earlier_one_can_reach(tmp_path: Path) -> None:
    """No block of iron is scrapped, so what follows a scrapped one is never taken of it; another is."""
    iron, unknown = teal(), {p: t.replace("traits: {block.material: iron}\n", "") for p, t in teal().items()}
    assert outcomes(proofs(tmp_path / "a", iron), "second", "whole") == ("all", "some")
    assert outcomes(proofs(tmp_path / "b", unknown), "second", "whole") == ("all", "some", "none")
    assert [one.proof.status for one in proven(proofs(tmp_path / "c", iron), "second", "whole")] == ["proved"]


def test_what_brings_somebody_to_a_decision_is_taken_for_met(tmp_path: Path) -> None:
    """`next` asks again what it waits on itself: nothing is left over."""
    found = proven(proofs(tmp_path, teal()), "second", "next")
    assert [(one.proof.status, sorted(one.proof.taken)) for one in found] == [("proved", ["go", "order"])]


def test_a_gap_where_a_later_decision_forgets_what_an_earlier_one_reaches(tmp_path: Path) -> None:
    forgetful = {p: t.replace("any(first.sort is bore)", "any(first.sort is scrap)") for p, t in CARDS.items()}
    workshop = shed(tmp_path, {**teal(), **forgetful})
    (found,) = proven(Proofs(made(workshop)[""]), "second", "whole")
    assert found.proof.status == "gap"
    assert any("sort" in name for name in found.proof.example)


def test_a_figure_that_is_not_known_leaves_the_proof_open_only_if_it_matters(tmp_path: Path) -> None:
    """Which wear is bored does not matter to whether every wear has a branch."""
    found = proven(proofs(tmp_path, teal(geometry="stroke: 80.0")), "first", "sort")
    assert {one.proof.status for one in found} == {"proved"}


def test_what_a_member_has_not_in_common_with_another_is_proved_apart(tmp_path: Path) -> None:
    cam = """
        cam:
          clearance_max: 0.08
          bearings:
            every: {journal: 50.0, bore_installed: 50.05}
            1: {x: 40.0}
            2: {x: 90.0, bore_installed: 50.10}
            3: {x: 140.0}
        """
    parts = """
        values:
          play: {title: Play, each: cam_bearing, formula: bore - cam_bearing.journal, show: 0.01 mm}
          bore: {title: Bore, each: cam_bearing, formula: cam_bearing.bore_installed, show: 0.01 mm}
        decisions:
          fit:
            title: Fit?
            each: cam_bearing
            branches:
              - {id: good, when: play <= cam.clearance_max, then: Good.}
            otherwise: {id: loose, then: Loose.}
        steps:
          - {id: x, do: Look., decide: [fit]}
        """
    workshop = shed(tmp_path, {**teal(cam), **card_file("look", parts), **shop("look, wear")})
    found = proven(Proofs(made(workshop)[""]), "look", "fit")
    assert [sorted(one.proof.taken) for one in found] == [["good"], ["loose"], ["good"]]
    assert found[0].proof is found[2].proof


@pytest.mark.parametrize("stroke", ["60.0", "80.0"])
def test_for_whom_a_proof_was_made(tmp_path: Path, stroke: str) -> None:
    variants = f"""
        variants:
          teal-a: {{name: a, geometry: {{stroke: {stroke}}}}}
        """
    workshop = shed(tmp_path, {**teal(variants, "bore: 70.0"), **CARDS})
    (only,) = (Proofs(bench) for bench in made(workshop).values())
    assert {(one.card, one.decision.name, one.variant) for one in only.of_card("second")} == {
        ("second", "whole", "teal-a"),
        ("second", "next", "teal-a"),
    }
