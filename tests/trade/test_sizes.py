"""Slips of the pen in a whole family: each is told once, at its own figure, and none of its echoes."""

from __future__ import annotations

from pathlib import Path

import pytest

from procgen.check import check, told_once
from procgen.files.problems import Severity
from procgen.load.workshop import load_workshop

FAMILIES = Path(__file__).parents[2] / "procedures" / "families"
FAR_BORE = "does not go with a `bore` of 98.40 mm"
TEN_LARGE = "ten times too large, or millimetres taken for inches: mend it, or the other one"
TEN_SMALL = "ten times too small, or inches taken for millimetres: mend it, or the other one"


def told(root: Path, family: str, old: str, new: str) -> list[str]:
    """What is said of a family of the demo with one thing changed: the text that stands there, and the message."""
    text = (FAMILIES / f"{family}.yaml").read_text(encoding="utf-8")
    assert old in text
    text = text.replace(old, new, 1).partition("\namend:")[0] + "\n"  # what it changes in cards is not here
    (root / "procedures/families").mkdir(parents=True)
    (root / "procedures/workshop.yaml").write_text("format: workshop/1\nname: Test shed\n", encoding="utf-8")
    (root / f"procedures/families/{family}.yaml").write_text(text, encoding="utf-8")
    loaded = load_workshop(root, Path.read_bytes)
    assert loaded.workshop is not None
    rows = text.splitlines()
    return [
        f"{rows[p.place.line - 1][p.place.column - 1 :].split(',')[0].split('  ')[0]} | {p.message} | {p.hint}"
        for p in told_once({*loaded.problems, *check(loaded.workshop)[1]})
        if p.severity is not Severity.NOTE
    ]


@pytest.mark.parametrize("family", ["avocet", "bittern", "curlew", "dunlin", "grebe", "plover"])
def test_sound_families_are(family: str, tmp_path: Path) -> None:
    assert told(tmp_path, family, "format", "format") == []


@pytest.mark.parametrize(
    ("old", "new", "said", "hint"),
    [
        ("bore: 98.40", "984.0", "`bore` of 984.00 mm does not go with a `stroke` of 90.20 mm", TEN_LARGE),
        ("bore: 98.40", "9.84", "`bore` of 9.84 mm does not go with a `rod_length` of 152.60 mm", TEN_SMALL),
        ("bore: 98.40", "3.874", "`bore` of 3.87 mm does not go with a `rod_length` of 152.60 mm", TEN_SMALL),
        ("stroke: 84.20", "842.0", f"`stroke` of 842.00 mm {FAR_BORE}", TEN_LARGE),
        ("rod_length: 152.60", "1526", f"`rod_length` of 1526.00 mm {FAR_BORE}", TEN_LARGE),
        ("rod_length: 152.60", "6.008", f"`rod_length` of 6.01 mm {FAR_BORE}", TEN_SMALL),
        ("block_height: 234.00", "2340", f"`block_height` of 2340.00 mm {FAR_BORE}", TEN_LARGE),
        ("block_height: 234.00", "23.4", f"`block_height` of 23.40 mm {FAR_BORE}", TEN_SMALL),
        ("journal: 62.0", "620", f"`main.journal` of 620.00 mm {FAR_BORE}", TEN_LARGE),
        ("journal: 52.5", "525", f"`rods.journal` of 525.00 mm {FAR_BORE}", TEN_LARGE),
        (
            "deck_clearance: 0.55", "55",
            "`deck_clearance` of 55.00 mm does not go with the other sizes", "0.55 mm would fill the block",
        ),
        (
            "length: 524", "52.4",
            "`length` of 52.40 mm ends the block before cylinder B4, which lies at x 434.00 mm",
            "mend it, or the cylinder's `x`",
        ),
        (
            "bore: 98.40", "112.0",
            "a bore of 112.00 mm leaves no metal between cylinders A1 and A2, 111.00 mm from centre to centre",
            "mend `bore`, or the cylinders' `x`",
        ),
        (
            "bore: 98.40", "108.5",
            "an oversize of 1.00 mm leaves 1.50 mm of metal between cylinders A1 and A2,"
            " 111.00 mm from centre to centre",
            "mend `oversizes`, or the cylinders' `x`",
        ),
    ],
)  # fmt: skip
def test_a_figure_off(old: str, new: str, said: str, hint: str, tmp_path: Path) -> None:
    found = told(tmp_path, "bittern", old, f"{old.partition(' ')[0]} {new}")
    at = "[0.25" if "oversize" in said else new
    assert found == [f"{at} | Bittern: {said} | {hint}"]


@pytest.mark.parametrize("x", ["78", "1890", "819"])
def test_a_cylinder_out_of_line(x: str, tmp_path: Path) -> None:
    assert told(tmp_path, "bittern", "A2: {bank: A, x: 189}", f"A2: {{bank: A, x: {x}}}") == [
        f"{x}}} | Bittern: cylinder A2 lies at x {x}.00 mm, by `bore_spacing` and the others at 189.00 mm"
        " | mend its `x`, or `bore_spacing`"
    ]


def test_the_layouts_own_figures(tmp_path: Path) -> None:
    assert told(tmp_path / "a", "bittern", "bank_angle: 90", "bank_angle: 900") == [
        "{kind: vee | Bittern: `bank_angle` of 900° is no angle between two banks"
        " | 90 in most engines of eight, 60 or 90 in six"
    ]
    assert told(tmp_path / "b", "bittern", "bore_spacing: 111", "bore_spacing: 1110") == [
        f"{{kind: vee | Bittern: `bore_spacing` of 1110.00 mm does not go with a `bore` of 98.40 mm | {TEN_LARGE}"
    ]


def test_a_file_in_another_unit(tmp_path: Path) -> None:
    """Nothing else is told, though hardly anything fits."""
    assert told(tmp_path, "bittern", "units: {length: mm", "units: {length: in") == [
        "90.20 | Bittern: `stroke` of 90.200 in is that of no engine"
        " | mend it, or `units` where the other sizes are off alike"
    ]


@pytest.mark.parametrize(
    ("bore", "says"),
    [("6", "is that of no engine"), ("12", "is that of a model"), ("30", ""), ("900", "of a ship")],
)
def test_engines_of_all_sizes(bore: str, says: str, tmp_path: Path) -> None:
    """Only what cannot be is refused. A model's bores begin at some 10 mm, the largest ship's are under 1000."""
    (tmp_path / "procedures/families").mkdir(parents=True)
    (tmp_path / "procedures/workshop.yaml").write_text("format: workshop/1\nname: Test shed\n")
    text = f"format: family/1\nid: teal\nname: Teal\ngeometry: {{bore: {bore}, stroke: {bore}}}\n"
    (tmp_path / "procedures/families/teal.yaml").write_text(text)
    loaded = load_workshop(tmp_path, Path.read_bytes)
    assert loaded.workshop is not None
    found = [p for p in check(loaded.workshop)[1] if p.severity is not Severity.NOTE]
    assert [says in p.message for p in found] == [True] * bool(says)
    assert [p.is_error for p in found] == [bore == "6"] * bool(says)


UNUSUAL = (
    ("bittern", "gap_min_per_bore: 0.004", "0.04", "0.0004"),
    ("bittern", "clearance_service_max: 0.090", "0.90", "0.0090"),
    ("curlew", "clearance_service_max: 0.0040", "0.040", "0.00040"),
    ("bittern", "shell_interference_max: 0.090", "0.90", None),
    ("bittern", "ring_side_clearance_max: 0.12", "1.2", None),
    ("curlew", "cylinder_taper_max: 0.0040", "0.040", "0.00040"),
    ("bittern", "cylinder_taper_max: 0.08", "0.8", "0.008"),
    ("bittern", "cylinder_out_of_round_max: 0.05", "0.5", "0.005"),
    ("bittern", "taper_after_hone_max: 0.013", "0.13", "0.0013"),
    ("dunlin", "out_of_round_after_hone_max: 0.008", "0.08", "0.0008"),
    ("bittern", "hone_stock_after_boring: 0.08", "0.8", "0.008"),
)
"""A limit of the demo, and the same ten times too large and too small. What is usual is common practice, no source."""


@pytest.mark.parametrize(
    ("family", "stands", "slip"),
    [(family, stands, slip) for family, stands, *slips in UNUSUAL for slip in slips if slip is not None],
)
def test_a_limit_ten_times_off_is_warned_of_at_its_line(family: str, stands: str, slip: str, tmp_path: Path) -> None:
    name, _, right = stands.partition(": ")
    (said,) = told(tmp_path, family, stands, f"{name}: {slip}")
    assert said.startswith(f"{slip} | ")
    assert f"`{name}` of" in said
    assert f"is unusually {'large' if float(slip) > float(right) else 'small'}" in said


def test_a_limit_that_names_its_source_is_not_asked_about(tmp_path: Path) -> None:
    source = "{is: 0.8, source: maker's manual}"
    assert told(tmp_path, "bittern", "cylinder_taper_max: 0.08", f"cylinder_taper_max: {source}") == []


def test_a_least_over_its_most_is_told_alone(tmp_path: Path) -> None:
    (said,) = told(tmp_path, "bittern", "ring_side_clearance_max: 0.12", "ring_side_clearance_max: 0.012")
    assert "`ring_side_clearance_min` is over" in said


def test_rings_that_lie_over_one_another(tmp_path: Path) -> None:
    (said,) = told(tmp_path, "bittern", "top_ring_width: 1.60", "top_ring_width: 16.0")
    assert said == (
        "23.90 | Bittern: crown to top ring and the rings' widths make 27.20 mm;"
        " the oil ring's lower side is 23.90 mm down"
        " | mend one of these figures of `ring_pack`"
    )


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("bore: 3 7/16 in", "bore: 34 7/16 in", "`bore` of 34.438 in does not go with a `rod_length` of 6.950 in"),
        (
            "deck_clearance: 0.016 ",
            "deck_clearance: 0.16 ",
            "`deck_clearance` of 0.160 in does not go with the other sizes",
        ),
        (
            "bore_spacing: 4.050",
            "bore_spacing: 40.50",
            "`bore_spacing` of 40.500 in does not go with a `bore` of 3.438 in",
        ),
        ("journal: 2.0470", "journal: 2.0300", "nominal clearance 0.01900 in is over the most, 0.00300 in"),
    ],
)
def test_a_family_in_inches_is_told_in_inches(old: str, new: str, message: str, tmp_path: Path) -> None:
    (said,) = told(tmp_path, "curlew", old, new)
    assert message in said
    assert " mm" not in said.partition("|")[2].replace("millimetres", "")
