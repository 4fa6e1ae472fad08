"""The published tables in shared/ against the formulas of their standards, and against other published rows.

Tables are typed by hand from published copies, and copies hold misprints: each row is held to what its standard
computes.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from fractions import Fraction
from pathlib import Path

import pytest
import yaml

from procgen.trade.drills import DRILLS
from procgen.trade.thread_tables import ISO7, NPT
from procgen.units.dimension import NAMES
from procgen.units.quantity import parse_quantity
from procgen.units.spelling import find_unit

FILE = Path(__file__).parents[2] / "shared" / "tables.yaml"
TABLES = yaml.load(FILE.read_text(encoding="utf-8"), yaml.CBaseLoader)["tables"]
INCH = 25.4


def rows(table: str) -> Mapping[str, Mapping[str, float]]:
    """Rows of a table in base units (mm, mm², kPa, 1/K)."""
    columns = TABLES[table]["columns"]

    def cell(column: str, text: str) -> float:
        spec = columns[column]
        unit = find_unit(spec["unit"]) if "unit" in spec else None
        return parse_quantity(text, NAMES[spec["quantity"]], unit).value

    return {
        id: {column: cell(column, text) for column, text in row.items()} for id, row in TABLES[table]["rows"].items()
    }


def every(table: str) -> pytest.MarkDecorator:
    return pytest.mark.parametrize(("id", "row"), [pytest.param(id, row, id=id) for id, row in rows(table).items()])


def test_every_table_has_a_source_and_whole_rows() -> None:
    assert len(TABLES) == 10
    for name, table in TABLES.items():
        assert table["source"], name
        for id, row in table["rows"].items():
            assert set(row) == set(table["columns"]), f"{name}, {id}"


@every("npt")
def test_npt(id: str, row: Mapping[str, float]) -> None:
    """ASME B1.20.1: E0 = D - (0.05 D + 1.1) p, E1 = E0 + L1/16, L2 = (0.80 D + 6.8) p, inches."""
    major, pitch = row["major"] / INCH, 1 / row["per_inch"]
    small_end = major - (0.05 * major + 1.1) * pitch
    assert row["small_end"] / INCH == pytest.approx(small_end, abs=1e-5)
    assert row["gauge_plane"] / INCH == pytest.approx(small_end + row["hand_tight"] / INCH / 16, abs=1.5e-5)
    assert row["effective"] / INCH == pytest.approx((0.80 * major + 6.8) * pitch, abs=6e-5)
    # between the small end's pitch diameter and the root of a thread 0.8 p deep
    assert small_end - 0.8 * pitch < row["tap_drill"] / INCH < small_end


def test_npt_hand_tight_in_turns() -> None:
    """The standard prints L1 in turns too: 4.32, 4.36, 4.10, 4.32, 4.48, 4.75, 4.60 from 1/16 to 1 in."""
    turns = [row["hand_tight"] / INCH * row["per_inch"] for row in rows("npt").values()]
    assert turns == pytest.approx([4.32, 4.36, 4.10, 4.32, 4.48, 4.75, 4.60], abs=0.006)


@every("iso7")
def test_iso_7(id: str, row: Mapping[str, float]) -> None:
    """ISO 7-1: h = 0.640327 P, d2 = d - h, d1 = d - 2h; its own table is up to 0.001 mm off."""
    depth = 0.640327 * INCH / row["per_inch"]
    assert row["pitch_diameter"] == pytest.approx(row["major"] - depth, abs=1.1e-3)
    assert row["minor"] == pytest.approx(row["major"] - 2 * depth, abs=1.1e-3)
    assert row["minor"] < row["tap_drill"] < row["pitch_diameter"]
    assert row["gauge_length"] < row["useful"]


@every("metric_plugs")
def test_metric_fine(id: str, row: Mapping[str, float]) -> None:
    """ISO 724: D2 = D - 0.649519 P, D1 = D - 1.082532 P. M10x1 is printed as 9.350 and 8.917."""
    assert id == f"M{row['major']:g}x{row['pitch']:g}"
    assert row["pitch_diameter"] == pytest.approx(row["major"] - 0.649519 * row["pitch"], abs=5.1e-4)
    assert row["minor"] == pytest.approx(row["major"] - 1.082532 * row["pitch"], abs=5.1e-4)
    assert row["tap_drill"] == pytest.approx(row["major"] - row["pitch"])


@every("inch_bolts")
def test_inch_stress_area(id: str, row: Mapping[str, float]) -> None:
    """ASME B1.1: A = pi/4 (D - 0.9743/n)². Its table is cut to four places, or to three from 9/16 in on."""
    size, per_inch = id.split("-")
    assert row["major"] == pytest.approx(float(Fraction(size)) * INCH)
    assert row["per_inch"] == float(per_inch)
    area = math.pi / 4 * (row["major"] / INCH - 0.9743 / row["per_inch"]) ** 2
    assert row["stress_area"] / INCH**2 == pytest.approx(area, abs=1e-4 if row["major"] < 14 else 6e-4)


@every("metric_bolts")
def test_metric_stress_area(id: str, row: Mapping[str, float]) -> None:
    """ISO 898-1: A = pi/4 (d - 0.938194 P)², printed to three figures."""
    assert id == f"M{row['major']:g}x{row['pitch']:g}"
    area = math.pi / 4 * (row["major"] - 0.938194 * row["pitch"]) ** 2
    assert row["stress_area"] == pytest.approx(area, abs=0.05 if area < 100 else 0.5)


def test_drills_fall_and_rise() -> None:
    numbers = [row["size"] for row in rows("number_drills").values()]
    letters = [row["size"] for row in rows("letter_drills").values()]
    assert list(rows("number_drills")) == [f"#{n}" for n in range(1, 81)]
    assert "".join(rows("letter_drills")) == "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
    assert numbers == sorted(numbers, reverse=True)
    assert letters == sorted(letters)
    assert numbers[0] < letters[0]
    assert len({*numbers, *letters}) == 80 + 26
    assert rows("letter_drills")["E"]["size"] == INCH / 4


@pytest.mark.parametrize(
    ("major", "per_inch", "drill"),
    # Tap drills for three quarters of full thread, ASME B1.1 sizes, as every tap-drill chart prints them.
    [
        (0.112, 40, "#43"), (0.138, 32, "#36"), (0.164, 32, "#29"), (0.190, 24, "#25"), (0.190, 32, "#21"),
        (0.250, 20, "#7"), (0.250, 28, "#3"), (0.3125, 18, "F"), (0.3125, 24, "I"), (0.375, 24, "Q"), (0.4375, 14, "U"),
    ],
)  # fmt: skip
def test_tap_drills_pick_out_number_and_letter_drills(major: float, per_inch: int, drill: str) -> None:
    """The drill nearest to D - 0.75 x 1.299/n is the one that tap-drill charts name."""
    sizes = {id: row["size"] / INCH for table in ("number_drills", "letter_drills") for id, row in rows(table).items()}
    wanted = major - 0.75 * 1.299038 / per_inch
    assert min(sizes, key=lambda id: abs(sizes[id] - wanted)) == drill


@every("metric_classes")
def test_metric_property_classes(id: str, row: Mapping[str, float]) -> None:
    """ISO 898-1: the class says nominal strength (x 100 MPa) and yield ratio; proof over yield is 0.91 to 0.88.

    The ratios are from memory, not checked against the standard.
    """
    first, second = id.removesuffix("-large").split(".")
    nominal = int(first) * 100_000  # kPa
    assert nominal <= row["tensile"] <= 1.04 * nominal
    assert row["yield_strength"] == pytest.approx(nominal * int(second) / 10, rel=0.045)
    assert round(row["proof"] / row["yield_strength"], 2) == {8: 0.91, 9: 0.90, 10: 0.88, 12: 0.88}[int(first)]


def test_inch_grades() -> None:
    """SAE J429 in metric, as ISO comparisons print it: grade 5 is about class 8.8, grade 8 about 10.9."""
    grades, classes = rows("inch_grades"), rows("metric_classes")
    assert grades["grade-5"]["proof"] == pytest.approx(classes["8.8"]["proof"], rel=0.02)
    assert grades["grade-8"]["proof"] == pytest.approx(classes["10.9"]["proof"], rel=0.01)
    for grade in grades.values():
        assert grade["over"] < grade["up_to"]
        assert 0.5 < grade["proof"] / grade["tensile"] < 0.85


def test_a_published_chart_of_bolt_torque() -> None:
    """A bolt maker's chart prints 4,940 lb for 3/8-16 grade 5 at 75 % of proof."""
    area = rows("inch_bolts")["3/8-16"]["stress_area"] / INCH**2
    psi = 6.894757293168361  # kPa
    assert 0.75 * area * rows("inch_grades")["grade-5"]["proof"] / psi == pytest.approx(4940, abs=5)


def test_metals() -> None:
    """Handbooks: class 30 iron 14.5 x 10⁶ psi; rigidity of steel, E / 2(1 + nu), 77 GPa."""
    metals = rows("metals")
    assert metals["grey-iron"]["modulus"] == pytest.approx(14.5e6 * 6.894757293168361, rel=0.001)
    assert metals["steel"]["modulus"] / (2 * (1 + metals["steel"]["poisson"])) == pytest.approx(77e6, rel=0.01)
    expansions = [metals[name]["expansion"] for name in ("grey-iron", "steel", "bronze", "brass", "aluminium")]
    assert expansions == sorted(expansions)


def test_trade_computes_with_the_same_rows() -> None:
    """The trade room has these sizes too; both are typed from the standards and must say the same."""
    for id, row in rows("npt").items():
        size = NPT[id.split("-")[0]]
        assert (row["major"], row["per_inch"]) == pytest.approx((size.major, size.per_inch)), id
        assert (row["hand_tight"], row["tap_drill"]) == pytest.approx((size.hand_tight, size.drill)), id
    for id, row in rows("iso7").items():
        size = ISO7[id.removeprefix("R ")]
        found = (row["major"], row["per_inch"], row["gauge_length"], row["tap_drill"], row["useful"])
        assert found == pytest.approx((size.major, size.per_inch, size.hand_tight, size.drill, size.useful)), id
    drills = {drill.name: drill.size for drill in DRILLS}
    for table in ("number_drills", "letter_drills"):
        for id, row in rows(table).items():
            assert row["size"] == pytest.approx(drills["1/4" if id == "E" else id]), id
