"""How a card speaks of a name: one figure, or one a variant; titles, limits and words."""

from pathlib import Path

from small_shed import card as composed
from small_shed import card_file, lines, shed, shop, speaker, teal

from procgen.compose.spoken import Speaker, default_show
from procgen.formula import known
from procgen.model.card import Figure, plain
from procgen.units.dimension import LENGTH, NUMBER, PRESSURE, TEMPERATURE
from tests.demo import cards

VARIANTS = """
    variants:
      teal-80: {name: short, geometry: {stroke: 80.0}}
      teal-90: {name: long, geometry: {stroke: 90.0}}
    """
LOOK = card_file(
    "look",
    """
    values:
      tenth: {title: A tenth, formula: geometry.stroke / 10, show: 0.1 mm}
      seventh: {title: A seventh, formula: geometry.bore / 7, show: 0.1 mm}
      least: {title: Least, is: 0.0012 in, source: shop practice}
      most: {title: Most, is: 0.0030 in, source: shop practice}
      gap: {title: Gap, formula: size - geometry.bore, show: 0.01 mm, limits: {min: least, max: tenth}}
      both: {title: Both, formula: size - geometry.bore, show: 0.01 mm, limits: {min: least, max: most}}
      halved: {title: Halved, formula: size - geometry.bore, show: 0.01 mm, limits: {max: most / 2}}
      is_square: {title: Is it square?, formula: geometry.stroke <= geometry.bore}
    readings:
      size: {title: Size, measure: length, with: bore_gauge}
      wall: {title: Wall, choices: {sound: is sound, scored: is scored}}
    decisions:
      worn:
        title: Worn?
        branches:
          - {id: bore, when: wall is scored, then: "Bore to {seventh}. It is worn."}
        otherwise: {id: keep, then: Keep.}
      shape:
        title: Which shape?
        branches:
          - {id: tall, when: geometry.stroke > geometry.bore, then: Take the tall one.}
        otherwise: {id: flat, then: Take the flat one.}
    steps:
      - {id: x, do: "Look.", read: [size, wall], decide: [worn, shape]}
    """,
)


def of(root: Path, family: str = VARIANTS, geometry: str = "bore: 70.0") -> Speaker:
    return speaker(shed(root, {**teal(family, geometry), **LOOK, **shop("look, wear")}), "look")


def filled(speaker: Speaker, name: str) -> str:
    return plain(speaker.fill(name)).replace("\u202f", " ")


def test_one_figure_where_the_variants_agree_and_one_each_where_they_differ(tmp_path: Path) -> None:
    found = of(tmp_path)
    assert found.figures("seventh") == (Figure("10.0", "mm"),)
    assert found.figures("tenth") == (Figure("8.0", "mm", variant="short"), Figure("9.0", "mm", variant="long"))
    assert found.figures("geometry.stroke") == (
        Figure("80.0", "mm", variant="short"),
        Figure("90.0", "mm", variant="long"),
    )


def test_in_a_sentence_what_differs_is_said_with_or_and_each_once(tmp_path: Path) -> None:
    found = of(tmp_path)
    assert filled(found, "seventh") == "10.0 mm"
    assert filled(found, "tenth") == "8.0 mm or 9.0 mm"
    assert filled(found, "size") == "____ mm"
    assert filled(found, "shop.wear_max") == "0.10 mm"


def test_in_a_sentence_many_members_are_said_each_once(tmp_path: Path) -> None:
    cam = """
        cam:
          bearings:
            every: {journal: 50.0}
            1: {x: 40.0}
            2: {x: 90.0, journal: 48.0}
            3: {x: 140.0}
            4: {x: 190.0, journal: 46.0}
        drain_plugs: {}
        """
    found = of(tmp_path, cam)
    assert filled(found, "cam_bearing.journal") == "50.0 mm, 48.0 mm or 46.0 mm"
    assert filled(found, "drain_plug.where") == "–", "none there, so nothing to say"


def test_a_limit_of_two_sides_keeps_what_each_variant_says(tmp_path: Path) -> None:
    """0.0012 in is 0.03048 mm: the least goes up."""
    assert of(tmp_path).limit("gap", {}) == (
        Figure("0.031–8.0", "mm", variant="short"),
        Figure("0.031–9.0", "mm", variant="long"),
    )


def test_both_sides_in_brackets_say_the_authors_figures(tmp_path: Path) -> None:
    (found,) = of(tmp_path).limit("both", {})
    assert found == Figure("0.031–0.076", "mm", also="0.0012–0.0030 in")  # 0.0762


def test_a_side_that_is_not_yet_known_is_left_to_be_filled_in(tmp_path: Path) -> None:
    assert of(tmp_path, "").limit("gap", {}) == (Figure("0.031–____", "mm"),)


def test_a_limit_that_is_worked_out_prints_in_the_steps_of_its_value(tmp_path: Path) -> None:
    """Half of 0.0762 mm, to the hundredth, downwards."""
    assert of(tmp_path).limit("halved", {}) == (Figure("0.03", "mm", "≤"),)


def test_a_limit_goes_inward_wherever_it_prints(tmp_path: Path) -> None:
    found = of(tmp_path)
    assert filled(found, "least") == "0.031 mm"
    assert found.constant("most") == "0.076\u202fmm"


def test_what_a_limit_is_another_name_for_goes_inward_in_its_row_too() -> None:
    """0.055 mm is 0.00217 in, 0.030 mm is 0.00118 in."""
    rows = {row.label: row.figures[0].also for step in cards("bittern")["rings"].steps for row in step.rows}
    assert (rows["Piston clearance, most"], rows["Piston clearance, least"]) == ("0.0021 in", "0.0012 in")
    rows = {row.label: row.figures[0].also for step in cards("bittern")["line-deck"].steps for row in step.rows}
    assert rows["Main line, overall, most"] == "0.0019 in"  # 0.05 mm is 0.00197 in


def test_a_rule_that_branches_compare_with_goes_inward_too(tmp_path: Path) -> None:
    """0.10 mm is 0.003937 in; a rule compared with from both sides has no inward."""
    branches = "{id: a, when: size > shop.wear_max, then: A.}, {id: b, when: size <= shop.wear_max, then: B.}"
    most = f"{{title: Cut?, branches: [{branches}]}}"
    least = most.replace(">", "<", 1).replace("<=", ">=")
    both = most.replace("<=", ">=")
    for decision, said in ((most, "0.0039"), (least, "0.0040"), (both, "0.0039")):
        look = {id: text.replace("decisions:\n", f"decisions:\n  cut: {decision}\n", 1) for id, text in LOOK.items()}
        files = {**teal(VARIANTS, "bore: 70.0"), **look, **shop("look, wear", show="length: in")}
        assert speaker(shed(tmp_path, files), "look").constant("shop.wear_max") == f"{said}\u202fin"


def test_words_for_what_is_chosen_decided_or_true(tmp_path: Path) -> None:
    found = of(tmp_path)
    assert found.word("wall", "scored") == "is scored"
    assert found.word("block.material", "iron") == "grey iron"
    assert found.word("worn", "bore") == "bore to 10.0\u202fmm"
    assert found.figures("shape") == (Figure("take the tall one"),)
    assert found.figures("is_square") == (Figure("no"),)
    assert filled(found, "block.material") == "grey iron"
    assert found.in_words("geometry.bore", known(70.0)) == "70.000\u202fmm"


def test_another_cards_name_is_said_with_that_cards_words(tmp_path: Path) -> None:
    workshop = shed(tmp_path, {**teal(VARIANTS, "bore: 70.0"), **LOOK, **shop("look, wear")})
    found = speaker(workshop, "wear")
    assert found.word("look.worn", "bore") == "bore to 10.0\u202fmm"
    assert found.figures("look.tenth")[1] == Figure("9.0", "mm", variant="long")
    assert found.limit("look.both", {})[0].text == "0.031–0.076"


def test_a_figure_without_steps_prints_in_its_own_unit(tmp_path: Path) -> None:
    more = """
        values:
          half: {title: Half, formula: geometry.bore / 2}
          ratio: {title: Ratio, formula: geometry.bore / geometry.stroke}
          area: {title: Area, formula: geometry.bore * geometry.bore}
        steps:
          - {id: x, do: Look., show: [half, ratio, area]}
        """
    workshop = shed(tmp_path, {**teal(), **card_file("look", more), **shop("look")})
    said = lines(composed(workshop, "look"))
    assert said[-3:] == ["Half: 35.000 mm", "Ratio: 0.88", "Area: 4900.00 mm²"]  # 0.875, half to even


def test_the_usual_steps() -> None:
    shows = {dimension: default_show(dimension) for dimension in (LENGTH, NUMBER, PRESSURE, TEMPERATURE)}
    assert {d: (str(s.step), s.unit.symbol) for d, s in shows.items()} == {
        LENGTH: ("0.001", "mm"),
        NUMBER: ("0.01", ""),
        PRESSURE: ("0.01", "kPa"),
        TEMPERATURE: ("0.01", "°C"),
    }


def test_what_is_missing_is_called_by_what_the_family_would_state(tmp_path: Path) -> None:
    found = of(tmp_path)
    names = ["geometry.stroke", "cam_bearing.journal", "count.main", "gap", "size", "cam_bearing.bore_installed"]
    titles = ("stroke", "cam bearing (cam journal / bore with shell)", "number of main bearings")
    assert found.unstated(names) == titles
