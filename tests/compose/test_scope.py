"""The numbers behind a card's names: the four states, many members, what is left out, what the layout gives."""

from pathlib import Path

from small_shed import Files, card_file, made, shed, shop, teal

from procgen.compose import Bench, CardScope
from procgen.formula import Cell, State

LOOK = card_file(
    "look",
    """
    values:
      half: {title: Half the stroke, formula: geometry.stroke / 2, show: 0.1 mm}
      wear: {title: Wear, each: cylinder, formula: size - geometry.bore, show: 0.01 mm}
      worst: {title: Worst, formula: max(wear), show: 0.01 mm}
      limit: {title: Limit, is: 0.1 mm, source: shop practice}
      iron_only: {title: Of iron, formula: geometry.bore, show: 1 mm, when: block.material is iron}
      alloy_only: {title: Of alloy, formula: geometry.bore, show: 1 mm, when: block.material is aluminium}
      after_alloy: {title: After that, formula: alloy_only + limit, show: 1 mm}
      bigger: {title: The bigger, formula: "max(alloy_only, iron_only)", show: 1 mm}
      big: {title: Is it big?, formula: geometry.bore > limit}
      journal: {title: Journal, each: cam_bearing, formula: cam_bearing.journal + limit, show: 0.01 mm}
    readings:
      size: {title: Size, each: cylinder, measure: length, with: bore_gauge}
    decisions:
      way:
        title: Which way?
        branches:
          - {id: long, when: geometry.stroke > geometry.bore, then: Long.}
          - {id: short, when: geometry.stroke <= geometry.bore, then: Short.}
      worn:
        title: Worn?
        each: cylinder
        branches:
          - {id: bore, when: wear > limit, then: Bore.}
        otherwise: {id: keep, then: Keep.}
    """,
)


def bench(root: Path, files: Files) -> Bench:
    return made(shed(root, {**files, **LOOK, **shop("look, wear")}))[""]


def one(scope: CardScope, name: str) -> Cell:
    return scope.whole(name).one


def cells(scope: CardScope, name: str) -> dict[tuple[str, ...], Cell]:
    return dict(scope.whole(name).cells)


def test_known_figures_and_what_follows_from_them(tmp_path: Path) -> None:
    scope = bench(tmp_path, teal()).card("look")
    assert one(scope, "geometry.stroke").number == 80.0
    assert one(scope, "half").number == 40.0
    assert one(scope, "limit").number == 0.1
    assert one(scope, "big").holds
    assert one(scope, "block.material").value == "iron"
    assert one(scope, "shop.wear_max").number == 0.1
    assert one(scope, "count.cylinder").number == 2.0
    assert one(scope, "way").value == "long"


def test_what_the_family_does_not_state_is_not_yet_known_and_says_so(tmp_path: Path) -> None:
    scope = bench(tmp_path, teal(geometry="bore: 70.0, deck_clearance: 0.4, stroke: ")).card("look")
    for name in ("geometry.stroke", "half", "way"):
        assert one(scope, name).state is State.UNKNOWN
        assert one(scope, name).because == {"geometry.stroke"}
    assert one(scope, "built.geometry.stroke").because == {"geometry.stroke"}


def test_what_is_read_at_the_stand_is_wanting(tmp_path: Path) -> None:
    scope = bench(tmp_path, teal()).card("look")
    assert {key: cell.state for key, cell in cells(scope, "size").items()} == {
        ("1",): State.WANTING,
        ("2",): State.WANTING,
    }
    assert one(scope, "worst").because == {"size"}
    assert {cell.state for cell in cells(scope, "worn").values()} == {State.WANTING}


def test_not_yet_known_goes_before_wanting(tmp_path: Path) -> None:
    """A reading can't be judged before the family says what to judge it by."""
    scope = bench(tmp_path, teal(geometry="stroke: 80.0")).card("look")
    assert {cell.state for cell in cells(scope, "wear").values()} == {State.UNKNOWN}
    assert one(scope, "worst").because >= {"geometry.bore"}


def test_what_a_trait_excludes_does_not_apply(tmp_path: Path) -> None:
    scope = bench(tmp_path, teal()).card("look")
    assert one(scope, "iron_only").number == 70.0
    assert one(scope, "alloy_only").state is State.NONE
    assert one(scope, "after_alloy").state is State.NONE


def test_a_trait_that_is_not_yet_known_excludes_nothing(tmp_path: Path) -> None:
    family = {path: text.replace("traits: {block.material: iron}\n", "") for path, text in teal().items()}
    scope = bench(tmp_path, family).card("look")
    assert one(scope, "block.material").because == {"block.material"}
    assert one(scope, "alloy_only").state is not State.NONE
    assert one(scope, "iron_only").state is not State.NONE


CAM = """
cam:
  bearings:
    every: {journal: 50.0}
    1: {x: 40.0}
    2: {x: 90.0, journal: 48.0}
    3: {x: 140.0, journal: }
"""


def test_the_figures_of_members(tmp_path: Path) -> None:
    found = bench(tmp_path, teal(CAM))
    journals = cells(found.card("look"), "journal")
    assert found.members("cam_bearing") == ("1", "2", "3")
    assert [journals[key,].number for key in "12"] == [50.1, 48.1]
    assert journals["3",].because == {"cam_bearing.journal"}
    assert one(found.card("look"), "count.cam_bearing").number == 3.0


def test_members_that_the_family_does_not_name_yet_stand_under_one_empty_name(tmp_path: Path) -> None:
    found = bench(tmp_path, teal())
    assert found.members("cam_bearing") == ("",)
    assert {key: cell.state for key, cell in cells(found.card("look"), "journal").items()} == {("",): State.UNKNOWN}
    assert one(found.card("look"), "count.cam_bearing").because == {"count.cam_bearing"}


def test_a_family_may_have_none_of_something(tmp_path: Path) -> None:
    """An engine without drain plugs has none; one whose drain plugs are not listed may have any number."""
    found = bench(tmp_path, teal("drain_plugs: {}\n"))
    assert found.members("drain_plug") == ()
    assert one(found.card("look"), "count.drain_plug").number == 0.0
    assert cells(found.card("look"), "drain_plug.where") == {}


def test_the_cylinders_may_be_counted_before_they_are_placed(tmp_path: Path) -> None:
    found = bench(tmp_path, teal())
    assert found.members("cylinder") == ("1", "2")
    empty = {path: text.replace(", cylinders: 2", "") for path, text in teal().items()}
    unnamed = bench(tmp_path / "b", empty)
    assert unnamed.members("cylinder") == ("",)
    assert one(unnamed.card("look"), "count.cylinder").because == {"count.cylinder"}


def test_other_cards_names_give_the_same_cells(tmp_path: Path) -> None:
    found = bench(tmp_path, teal())
    assert found.card("wear").whole("look.half") == found.card("look").whole("half")
    wanting = cells(found.card("wear"), "look.size")["1",]
    assert (wanting.state, wanting.because) == (State.WANTING, {"look.size"}), "called as this card calls it"


def test_figures_from_the_layout(tmp_path: Path) -> None:
    """A drilling from (0, 0, 0) to (300, 400, 0) is 500 long (3, 4, 5)."""
    layout = """
        passages:
          MG: {from: [0, 0, 0], to: [300, 400, 0], diameter: 12, opens: [plug MG-F, plug MG-R]}
          Q: {from: [0, 0, 0], to: [0, 0, 30], diameter: 12, opens: [open, open]}
        """
    scope = bench(tmp_path, teal(layout)).card("look")
    assert {key: cell.number for key, cell in cells(scope, "passage.length").items()} == {("MG",): 500.0, ("Q",): 30.0}


def test_only_decisions_that_can_still_go_either_way_wait(tmp_path: Path) -> None:
    found = bench(tmp_path, teal())
    scope = found.card("look")
    decisions = scope.procedure.decisions
    assert scope.possible(decisions["way"], {}) == (("long",), ())
    branches, waits = scope.possible(decisions["worn"], {"cylinder": "1"})
    assert branches == ("bore", "keep")
    assert [cell.state for cell in waits] == [State.WANTING]


def test_the_variants_figures_go_before_the_familys(tmp_path: Path) -> None:
    variants = """
        variants:
          teal-80: {name: short, geometry: {stroke: 60.0}}
          teal-90: {name: long, geometry: {}}
        """
    found = made(shed(tmp_path, {**teal(variants), **LOOK, **shop("look, wear")}))
    assert {name: one(bench.card("look"), "half").number for name, bench in found.items()} == {
        "short": 30.0,
        "long": 40.0,
    }
    assert one(found["short"].card("look"), "way").value == "short"
