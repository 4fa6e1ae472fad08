"""What hangs on a step: rows, tables, readings to take."""

from pathlib import Path

from small_shed import card, card_file, shed, shop, teal

from procgen.model.card import Box, Card, Figure, Grid, Row, StepItem

CAM = """
    cam:
      clearance_min: 0.03
      clearance_max: 0.08
      bearings:
        every: {journal: 50.0}
        1: {x: 40.0, bore_installed: 50.05}
        2: {x: 90.0, bore_installed: 50.06}
        3: {x: 140.0}
    """


def look(root: Path, parts: str, family: str = "", geometry: str = "bore: 70.0, stroke: 80.0") -> Card:
    files = {**teal(family, geometry), **card_file("look", parts), **shop("look, wear")}
    return card(shed(root, files), "look")


def step(card: Card) -> StepItem:
    (found,) = card.steps
    return found


VALUES = """
    values:
      half: {title: Half, formula: geometry.stroke / 2, show: 0.1 mm, limits: {max: geometry.bore}}
      wear: {title: Wear, each: cylinder, formula: size - geometry.bore, show: 0.01 mm, limits: {max: shop.wear_max}}
      grown: {title: Grown, formula: max(size), show: 0.1 mm}
      alloy: {title: Alloy, formula: geometry.bore, show: 1 mm, when: block.material is aluminium}
    readings:
      size: {title: Size, each: cylinder, measure: length, with: bore_gauge, where: at the top, how: Wipe it first}
    steps:
      - {id: x, do: Look., read: [size], show: [half, wear, grown, alloy, geometry.bore, shop.wear_max]}
    """


def test_rows(tmp_path: Path) -> None:
    """The figure where the family gives it; else the limit that a reading must keep, or a box; nothing excluded."""
    assert step(look(tmp_path, VALUES)).rows == (
        Row("half", "Half", (Figure("40.0", "mm"),)),
        Row("half", "Half, limit", (Figure("70.0", "mm", "≤"),)),
        Row("wear", "Wear", (Figure("0.10", "mm", "≤"),)),
        Row("grown", "Grown", (Figure("", "mm", state="wanting"),)),
        Row("geometry.bore", "Bore", (Figure("70.0", "mm"),)),
        Row("shop.wear_max", "Most wear", (Figure("0.10", "mm"),)),
    )


def test_members_that_share_a_limit_share_a_row(tmp_path: Path) -> None:
    parts = """
        values:
          play:
            title: Play
            each: cam_bearing
            formula: bore - cam_bearing.journal
            show: 0.001 mm
            limits: {max: cam_bearing.bore_installed}
        readings:
          bore: {title: Bore, each: cam_bearing, measure: length, with: bore_gauge}
        steps:
          - {id: x, do: Look., read: [bore], show: [play]}
        """
    family = CAM.replace("2: {x: 90.0, bore_installed: 50.06}", "2: {x: 90.0, bore_installed: 50.05}")
    rows = step(look(tmp_path, parts, family)).rows
    assert [(row.label, row.figures) for row in rows] == [
        ("Play, cam bearing 1, 2", (Figure("50.05", "mm", "≤"),)),
        ("Play, cam bearing 3", (Figure("", "mm", "≤", state="blank"),)),
    ]


TABLE = """
    steps:
      - id: x
        do: Look.
        table: {each: cam_bearing, show: [cam_bearing.journal, cam_bearing.bore_installed, geometry.bore]}
    """


def test_a_table_has_a_row_for_each_member_and_shared_units_in_its_head(tmp_path: Path) -> None:
    assert step(look(tmp_path, TABLE, CAM)).grids == (
        Grid(
            ("cam bearing", "cam journal, mm", "bore with shell, mm", "bore, mm"),
            (
                ("1", (Figure("50.0"), Figure("50.05"), Figure("70.0"))),
                ("2", (Figure("50.0"), Figure("50.06"), Figure("70.0"))),
                ("3", (Figure("50.0"), Figure("", state="blank"), Figure("70.0"))),
            ),
        ),
    )


def test_units_that_differ_within_a_column_stay_with_their_figures(tmp_path: Path) -> None:
    workshop = shed(
        tmp_path,
        {
            **teal(CAM.replace("bore_installed: 50.06", "bore_installed: 1.971 in")),
            **card_file("look", TABLE),
            **shop("look, wear", show="torque: N·m"),
        },
    )
    (grid,) = step(card(workshop, "look")).grids
    assert grid.head[2] == "bore with shell"
    assert [figures[1] for _, figures in grid.rows] == [
        Figure("50.05", "mm"),
        Figure("1.971", "in"),
        Figure("", "mm", state="blank"),
    ]


def test_a_table_of_what_is_not_named_yet_has_one_line_to_fill_in(tmp_path: Path) -> None:
    (grid,) = step(look(tmp_path, TABLE)).grids
    assert [name for name, _ in grid.rows] == ["____"]
    assert [figure.state for figure in grid.rows[0][1]] == ["blank", "blank", "known"]


def test_of_what_a_family_has_none_there_is_no_table_row_or_box(tmp_path: Path) -> None:
    parts = """
        values:
          deep: {title: Deep, each: drain_plug, formula: at - geometry.bore, show: 1 mm}
        readings:
          at: {title: Depth, each: drain_plug, measure: length, with: depth_gauge}
        decisions:
          sound:
            title: Sound?
            each: drain_plug
            branches:
              - {id: good, when: at > geometry.bore, then: Leave it.}
            otherwise: {id: bad, then: Change it.}
        steps:
          - id: x
            do: Look.
            read: [at]
            show: [deep, drain_plug.where]
            table: {each: drain_plug, show: [drain_plug.where]}
            decide: [sound]
        """
    found = step(look(tmp_path, parts, "drain_plugs: {}\n"))
    assert (found.rows, found.grids, found.boxes, found.decisions) == ((), (), (), ())


def test_boxes(tmp_path: Path) -> None:
    parts = """
        readings:
          size: {title: Size, each: cylinder, measure: length, with: bore_gauge, where: at the top, how: Wipe it}
          press: {title: Oil pressure, measure: pressure, with: pressure_gauge}
          wall: {title: Wall, each: cam_bearing, choices: {sound: is sound, scored: is scored}}
          turns: {title: Turns, measure: number}
          alloy: {title: Alloy, choices: {a: one, b: two}, when: block.material is aluminium}
        steps:
          - {id: x, do: Look., read: [size, press, wall, turns, alloy]}
        """
    assert step(look(tmp_path, parts)).boxes == (
        Box("size", "Size", ("1", "2"), "cylinder", unit="mm", gauge="bore gauge", where="at the top", how="Wipe it"),
        Box("press", "Oil pressure", unit="kPa", gauge="pressure gauge"),
        Box("wall", "Wall", (), "cam bearing", choices=(("sound", "is sound"), ("scored", "is scored"))),
        Box("turns", "Turns"),
    )


def depths(at: str) -> str:
    return f"""
        readings:
          bore:
            title: Bore
            each: [cylinder, depth, axis]
            measure: length
            with: bore_gauge
            at: {at}
            axis: {{thrust: across, axial: along}}
        steps:
          - {{id: x, do: Look., read: [bore]}}
        """


def test_stations(tmp_path: Path) -> None:
    """In the box where all variants share them; none where they are not yet known."""
    shared = step(look(tmp_path / "a", depths("oversizes"), "oversizes: [3, 12.5, 40]\n"))
    (box,) = shared.boxes
    assert (box.stations, box.stations_unit) == (("3.0", "12.5", "40.0"), "mm")
    assert box.axes == (("thrust", "across"), ("axial", "along"))
    assert (shared.rows, box.depths) == ((), 3)
    (unknown,) = step(look(tmp_path / "b", depths("oversizes"))).boxes
    assert (unknown.stations, unknown.stations_unit, unknown.depths) == ((), "", 0)


def test_stations_of_variants_that_differ_stand_in_a_row(tmp_path: Path) -> None:
    """Within travel: 2 mm inside each end and two evenly between, to the half millimetre."""
    variants = """
        variants:
          teal-80: {name: short, geometry: {stroke: 80.0}}
          teal-90: {name: long, geometry: {stroke: 92.0}}
        """
    at = depths("survey_stations(geometry.deck_clearance, geometry.stroke, geometry.bore_bottom)")
    found = step(look(tmp_path, at, variants, "deck_clearance: 8.0, bore_bottom: 130.0"))
    (row,) = found.rows
    assert row.label == "Bore: depths below the deck"
    inside = {figure.variant: figure.text.split(" · ")[1:5] for figure in row.figures}
    assert inside == {"short": ["10.0", "32.5", "55.5", "78.0"], "long": ["10.0", "36.5", "63.5", "90.0"]}
    assert (found.boxes[0].stations, found.boxes[0].depths) == ((), 6)


def test_in_a_table_variants_that_differ_stand_side_by_side_and_a_gap_stays_a_gap(tmp_path: Path) -> None:
    variants = """
        variants:
          teal-80: {name: short, geometry: {stroke: }}
          teal-90: {name: long, geometry: {stroke: 92.0}}
        """
    parts = "steps:\n  - {id: x, do: Look., table: {each: cylinder, show: [geometry.stroke]}}\n"
    (grid,) = step(look(tmp_path, parts, variants, "bore: 70.0")).grids
    assert grid.head == ("cylinder", "stroke, mm")
    assert [figures for _, figures in grid.rows] == [(Figure("____ / 92.0"),)] * 2
