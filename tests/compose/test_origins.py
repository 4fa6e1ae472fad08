"""Where a figure comes from: its formula, its source, the line it stands on, and the same of all that it is made of."""

from pathlib import Path

from small_shed import TEAL, card, card_file, shed, shop, speaker, teal

from procgen.compose.origins import origin, walk
from procgen.model.card import Origin
from procgen.model.workshop import Workshop

LOOK = card_file(
    "look",
    """
    values:
      half: {title: Half the stroke, formula: geometry.stroke / 2, show: 0.1 mm}
      share: {title: Share, formula: half / geometry.bore + most / half, show: 0.1 %}
      most: {title: Most, is: 0.2 mm, source: sleeve maker}
      wear: {title: Wear, each: cylinder, formula: size - geometry.bore, show: 0.01 mm}
    readings:
      size: {title: Size, each: cylinder, measure: length, with: bore_gauge, where: at the top}
    decisions:
      sort:
        title: Sort?
        branches:
          - {id: bore, when: max(size) > geometry.bore, then: Bore.}
        otherwise: {id: keep, then: Keep.}
    steps:
      - {id: x, do: Look., read: [size], show: [share, wear, geometry.bore, shop.wear_max], decide: [sort]}
    """,
)


def workshop(root: Path) -> Workshop:
    family = teal("limits:\n  cylinder_taper_max: {is: 0.02 mm, source: maker's book}\n")
    return shed(root, {**family, **LOOK, **shop("look, wear")})


def found(root: Path, name: str, card: str = "look") -> Origin:
    return origin(name, speaker(workshop(root), card))


def place(root: Path, path: str, line: str) -> str:
    """Path and line of the first line that begins so."""
    lines = (root / path).read_text(encoding="utf-8").splitlines()
    return f"{path}:{next(n for n, text in enumerate(lines, 1) if text.lstrip().startswith(line))}:"


def test_a_worked_out_figure_down_to_the_lines_of_yaml(tmp_path: Path) -> None:
    share = found(tmp_path, "share")
    assert (share.title, share.formula) == ("Share", "half / geometry.bore + most / half")
    assert share.place.startswith(place(tmp_path, "procedures/deck/look.yaml", "share:"))
    assert share.figure.text == "57.6"  # 40/70 + 0.2/40 = 0.5764…
    assert [(depth, one.name) for depth, one in walk(share)] == [
        (0, "share"),
        (1, "half"),
        (2, "geometry.stroke"),
        (1, "geometry.bore"),
        (1, "most"),
    ]


def test_sources(tmp_path: Path) -> None:
    assert found(tmp_path, "most").source == "sleeve maker"
    assert found(tmp_path, "shop.wear_max").source == "shop practice"
    assert found(tmp_path, "geometry.bore").source == "the family's own figure"
    assert found(tmp_path, "limits.cylinder_taper_max").source == "maker's book"
    assert found(tmp_path, "limits.cylinder_out_of_round_max").source == "not yet known"
    assert found(tmp_path, "size").source == "read at the stand: at the top"
    assert found(tmp_path, "sort").source == "decided on this card"
    assert found(tmp_path, "block.material").source == "stated by the family"
    assert found(tmp_path, "count.cylinder").source == "counted in the family"
    assert found(tmp_path, "passage.length").source.startswith("worked out from the layout: ")
    assert found(tmp_path, "engine.banks").source.startswith("concluded from the layout: ")


def test_places(tmp_path: Path) -> None:
    geometry = place(tmp_path, TEAL, "geometry:") if workshop(tmp_path) else ""
    assert found(tmp_path, "geometry.bore").place.startswith(geometry)
    assert found(tmp_path, "limits.cylinder_taper_max").place.startswith(place(tmp_path, TEAL, "cylinder_taper_max:"))
    assert found(tmp_path, "limits.cylinder_out_of_round_max").place.startswith(f"{TEAL}:")
    assert found(tmp_path, "shop.wear_max").place.startswith(place(tmp_path, "procedures/workshop.yaml", "wear_max:"))


def test_one_of_many_says_of_what_there_is_one_for_each(tmp_path: Path) -> None:
    assert found(tmp_path, "wear").figure.text == "one for each cylinder"
    assert origin("wear", speaker(workshop(tmp_path), "look"), {"cylinder": "2"}).figure.state == "wanting"


def test_another_cards_value_is_followed_with_that_cards_names(tmp_path: Path) -> None:
    share = found(tmp_path, "look.share", "wear")
    assert [one.name for _, one in walk(share)] == ["look.share", "half", "geometry.stroke", "geometry.bore", "most"]


def test_a_card_knows_the_origin_of_all_that_stands_in_its_rows(tmp_path: Path) -> None:
    made = card(workshop(tmp_path), "look")
    rows = {row.name for step in made.steps for row in step.rows}
    assert rows == {"share", "wear", "geometry.bore", "shop.wear_max"}
    assert rows <= made.origins.keys()
    assert {name: one.name for name, one in made.origins.items()} == {name: name for name in made.origins}
