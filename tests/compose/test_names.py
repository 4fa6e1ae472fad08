"""What a name means on a card, and of which type it is."""

from pathlib import Path

import pytest
from small_shed import card_file, made, shed, shop, teal

from procgen.compose import Lexicon
from procgen.compose.names import Kind
from procgen.model.workshop import Workshop
from procgen.units.dimension import CLOCK, LENGTH, NUMBER, Dimension

ODD_BORES = card_file(
    "odd-bores",
    """
    values:
      largest: {title: Largest, each: cylinder, formula: "max(bore)", show: 0.001 mm}
      ratio: {title: Ratio, each: cylinder, formula: largest / geometry.bore, show: 0.1 %}
      is_large: {title: Is it large?, each: cylinder, formula: largest > geometry.bore}
      spare: {title: Spare, is: 0.2 mm, source: shop practice}
    readings:
      bore:
        title: Bore
        each: [cylinder, depth, axis]
        measure: length
        with: bore_gauge
        at: oversizes
        axis: {thrust: across, axial: along}
      wall: {title: Wall, each: cylinder, choices: {sound: sound, scored: scored}}
    decisions:
      sort:
        title: Sort?
        each: cylinder
        branches:
          - {id: good, when: wall is sound, then: Good.}
          - {id: bad, when: wall is scored, then: Bad.}
    steps:
      - {id: x, do: Look., read: [bore, wall], decide: [sort], show: [largest]}
    """,
)


@pytest.fixture
def workshop(tmp_path: Path) -> Workshop:
    more = "oversizes: [0.25, 0.50]\n"
    return shed(tmp_path, {**teal(more), **ODD_BORES, **shop("odd-bores, wear")})


def lexicon(workshop: Workshop, id: str) -> Lexicon:
    return made(workshop)[""].lexicons.card(id)


@pytest.mark.parametrize(
    ("name", "kind"),
    [
        ("largest", Kind.VALUE),
        ("bore", Kind.READING),
        ("sort", Kind.DECISION),
        ("geometry.bore", Kind.FACT),
        ("cam_bearing.journal", Kind.FACT),
        ("built.geometry.stroke", Kind.FACT),
        ("passage.length", Kind.DERIVED),
        ("block.material", Kind.TRAIT),
        ("shop.wear_max", Kind.RULE),
        ("count.plug", Kind.COUNT),
        ("depth", Kind.AXIS),
        ("wear.worn", Kind.DECISION),
    ],
)
def test_every_kind_of_name(workshop: Workshop, name: str, kind: Kind) -> None:
    names = lexicon(workshop, "odd-bores").meanings
    assert names[name].kind is kind
    assert name in set(names)


def test_only_what_belongs_to_a_card_names_it(workshop: Workshop) -> None:
    names = lexicon(workshop, "odd-bores").meanings
    assert {
        name for name in ("bore", "wear.worn", "geometry.bore", "shop.wear_max") if names[name].card is not None
    } == {
        "bore",
        "wear.worn",
    }


def test_other_cards_names_take_the_cards_id_in_front_with_underscores(workshop: Workshop) -> None:
    names = lexicon(workshop, "wear").meanings
    assert names["odd_bores.sort"].card is workshop.procedures["odd-bores"]
    assert names.get("odd-bores.sort") is None
    assert names.get("sort") is None, "another card's name alone means nothing"
    assert names.get("wear.worn") is None, "its own names go without"
    assert names.get("odd_bores.depth") is not None
    with pytest.raises(KeyError):
        names["odd_bores.sorted"]


def test_every_listed_name_has_its_meaning(workshop: Workshop) -> None:
    for id in workshop.procedures:
        found = lexicon(workshop, id)
        assert all(found.meanings.get(name) is not None for name in found.names())
        assert len(set(found.names())) == len(list(found.names()))


@pytest.mark.parametrize(
    ("name", "kind", "dimension", "axes"),
    [
        ("largest", "number", LENGTH, ("cylinder",)),
        ("ratio", "number", NUMBER, ("cylinder",)),
        ("is_large", "truth", NUMBER, ("cylinder",)),
        ("spare", "number", LENGTH, ()),
        ("bore", "number", LENGTH, ("cylinder", "depth", "axis")),
        ("wall", "choice", NUMBER, ("cylinder",)),
        ("sort", "choice", NUMBER, ("cylinder",)),
        ("oversizes", "list", LENGTH, ()),
        ("cam_bearing.block_hole_clock", "number", CLOCK, ("cam_bearing",)),
        ("mains.clearance_max", "number", LENGTH, ()),
        ("shop.wear_max", "number", LENGTH, ()),
        ("count.cylinder", "number", NUMBER, ()),
        ("depth", "number", LENGTH, ("depth",)),
        ("wear.wear", "number", LENGTH, ("cylinder",)),
        ("wear.share", "number", NUMBER, ()),
    ],
)
def test_types(workshop: Workshop, name: str, kind: str, dimension: Dimension, axes: tuple[str, ...]) -> None:
    found = lexicon(workshop, "odd-bores").type_of(name)
    assert found is not None
    assert (found.kind, found.axes) == (kind, axes)
    assert kind == "choice" or found.dimension == dimension


def test_the_words_of_a_choice(workshop: Workshop) -> None:
    found = lexicon(workshop, "odd-bores")
    words = {name: found.type_of(name) for name in ("wall", "sort", "block.material", "wear.worn")}
    assert {name: type.options for name, type in words.items() if type is not None} == {
        "wall": ("sound", "scored"),
        "sort": ("good", "bad"),
        "block.material": ("iron", "aluminium"),
        "wear.worn": ("bore", "keep"),
    }


def test_the_members_of_an_axis_of_readings(workshop: Workshop) -> None:
    found = lexicon(workshop, "odd-bores")
    assert found.members("axis") == ("thrust", "axial")
    assert found.members("cylinder") is None  # a family has a say in them
    assert lexicon(workshop, "wear").members("axis") is None


def test_a_circle_has_no_type_and_ends(tmp_path: Path) -> None:
    circle = """
        values:
          a: {title: A, formula: feel.b, show: 1 mm}
          c: {title: C, formula: geometry.bore, show: 1 mm}
        """
    back = "values:\n  b: {title: B, formula: look.a, show: 1 mm}\n"
    workshop = shed(tmp_path, {**card_file("look", circle), **card_file("feel", back), **shop("wear, look, feel")})
    found = lexicon(workshop, "look")
    assert found.type_of("a") is None
    assert found.type_of("feel.b") is None
    assert found.type_of("c") is not None
    assert found.type_of("nothing.of.the.kind") is None
