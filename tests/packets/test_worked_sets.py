"""Worked sets from the trade, end to end: YAML in, the figure or the branch out.

Source of each expected figure: worked by hand with exact decimals beside it; geometry unless said otherwise.
"""

from __future__ import annotations

from decimal import Decimal as D
from pathlib import Path

import pytest

from procgen.compose import Bench
from tests.packets.shed import Stand, small, stand, workshop

WORN = """
format: job/1
id: worn
family: bittern
variant: bittern-51
sessions:
  - id: travel-1
    card: travel
    gauge: {deck_cut: depth_gauge_1}
    gear: original
    ridge_seen: there
    deck_cut: 0
  - id: survey-1
    card: cylinder-survey
    gauge: {bore: bore_gauge_1}
    ring_plan: new
    cylinder:
      A1:
        shadow: even
        wall: sound
        hatch: worn
        thumbnail: passes
        wear_side: SIDE
        bore:
          3:   {thrust: 98.412, axial: 98.410}
          12:  {thrust: 98.498, axial: 98.462}
          40:  {thrust: 98.470, axial: 98.448}
          75:  {thrust: 98.446, axial: 98.436}
          105: {thrust: 98.430, axial: 98.424}
          120: {thrust: 98.408, axial: 98.408}
"""


def worn(folder: Path, side: str = "both", at_12: str = "98.498", thumbnail: str = "passes") -> Stand:
    text = WORN.replace("SIDE", side).replace("98.498", at_12).replace("passes", thumbnail)
    return stand(text, folder)


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        ("out_of_round", D("98.498") - D("98.462")),  # at 12, the greatest of 0.036, 0.022, 0.010 and 0.006
        ("taper", D("98.498") - D("98.430")),  # across, ring travel only; all six depths would give 0.090
        ("unworn", D("98.408")),
        ("wear", D("98.498") - D("98.408")),
        ("ridge", D("98.498") - D("98.412")),
        ("need", D("98.498") + D("0.030") + D("0.080")),  # clean-up margin and hone stock
    ],
)
def test_a_worn_bore(value: str, expected: D, tmp_path: Path) -> None:
    assert worn(tmp_path).value("cylinder-survey", value, "A1") == pytest.approx(float(expected), abs=1e-9)


def test_it_is_honed_clear_of_every_limit(tmp_path: Path) -> None:
    verdict = worn(tmp_path).verdict("cylinder-survey", "hone_or_bore", "A1")
    assert (verdict.state, verdict.outcomes) == ("clear", (("hone", "Hone"),))
    assert {m.title: (m.value_text, m.side) for m in verdict.margins} == {
        "ridge, on diameter": ("0.086\u202fmm", "INSIDE"),
        "out-of-round": ("0.036\u202fmm", "INSIDE"),
        "taper": ("0.068\u202fmm", "INSIDE"),
        "wear": ("0.090\u202fmm", "OUTSIDE"),
    }


@pytest.mark.parametrize(
    ("side", "at_12", "oversize"),
    [
        ("both", "98.498", 0.25),  # 98.608 needed, +0.25 gives 98.650
        ("one", "98.498", 0.50),  # 98.408 + 2 × 0.090 + 0.110 = 98.698
        ("both", "98.720", 0.50),  # 98.830
    ],
)
def test_the_oversize_that_cleans_it_up(side: str, at_12: str, oversize: float, tmp_path: Path) -> None:
    job = worn(tmp_path, side, at_12, thumbnail="catches")
    assert job.outcome("cylinder-survey", "hone_or_bore", "A1") == "bore"
    assert job.value("cylinder-survey", "oversize", "A1") == pytest.approx(oversize)
    assert job.outcome("decide", "oversize_or_sleeve", "A1") == "oversize"


def test_a_bore_that_no_offer_cleans_up_is_sleeved(tmp_path: Path) -> None:
    job = worn(tmp_path, "both", "99.350", thumbnail="catches")  # 99.460 needed, 99.400 is the largest
    assert job.outcome("decide", "oversize_or_sleeve", "A1") == "sleeve"


PISTONS = """
  - id: pistons
    card: decide
    gauge: {new_piston: micrometer_100}
    pistons: here
    cylinder: {A1: {new_piston: 98.612}}
"""


def test_the_size_to_bore_to_follows_from_the_piston_in_hand(tmp_path: Path) -> None:
    """Finish 98.650: piston 98.620 and 0.030 of clearance; less 0.080 for the hone, 98.570."""
    gauge = "gauges: {micrometer_100: {kind: outside_micrometer, uncertainty: 0.004 mm}}\nsessions:"
    cylinders = workshop().families["bittern"].members["cylinder"]
    members = "{" + ", ".join(f"{cylinder}: {{new_piston: 98.620}}" for cylinder in cylinders) + "}"
    text = (WORN + PISTONS).replace("SIDE", "both").replace("sessions:", gauge).replace("passes", "catches")
    job = stand(text.replace("{A1: {new_piston: 98.612}}", members), tmp_path)
    assert job.value("decide", "finish") == pytest.approx(98.650)
    assert job.value("decide", "bore_to") == pytest.approx(98.570)


# Ring travel of other parts: what lies over the built variant moves both ends. Source: H = S/2 + L + h_c + δ.


@pytest.mark.parametrize(
    ("build", "changes", "rise", "drop", "outcome"),
    [
        ("bittern-51", "{}", 0.0, 0.0, "returns"),
        ("bittern-55", "{}", 0.0, 6.0, "clear_low"),  # S 90.2, h_c 35.75: runs 6.0 further down
        ("bittern-51", "{rods: {rod_length: 153.1}}", 0.5, -0.5, "meets"),
        ("bittern-51", "{geometry: {compression_height: 38.25}}", -0.5, 0.5, "clear_low"),
        ("bittern-51", "{geometry: {stroke: 87.2}}", 1.5, 1.5, "meets"),
    ],
)
def test_other_parts_move_the_rings(
    build: str, changes: str, rise: float, drop: float, outcome: str, tmp_path: Path
) -> None:
    text = WORN.replace("SIDE", "both").replace("sessions:", f"build: {build}\nchanges: {changes}\nsessions:")
    job = stand(text, tmp_path)
    assert job.value("travel", "rise") == pytest.approx(rise, abs=1e-9)
    assert job.value("travel", "drop") == pytest.approx(drop, abs=1e-9)
    assert job.outcome("travel", "ridge_met") == outcome
    crown = 0.55 - rise  # under the deck, where at least 0.30 is asked for
    assert job.outcome("travel", "parts_fit") == ("fit" if crown >= 0.30 else "crown")


def test_without_a_job_built_is_as_found() -> None:
    shop = workshop()
    family = shop.families["bittern"]
    for variant in family.variants:
        card = Bench(shop, family, variant).card("travel")
        for name in ("geometry.stroke", "geometry.rod_length", "ring_pack.crown_to_top_ring_upper"):
            found = [card.fact(spec, {}) for spec in (card.lexicon.meanings[n].spec for n in (name, f"built.{name}"))]
            assert found[0] == found[1]


# Piston rings. Source: geometry, a gap grows by π times the bore's growth; 0.004 of the bore is common practice.

RINGS = """
format: procedure/1
id: size
title: Rings
question: Do the gaps do?
stage: Rings
reason: A ring needs room.
values:
  least: {title: Least gap, each: cylinder, formula: ring_pack.gap_min_per_bore * bore_low, show: 0.0001 mm}
  grown: {title: Grown, each: cylinder, formula: gap_growth(bore_high - bore_low), show: 0.0001 mm}
  higher: {title: Gap higher up, each: cylinder, formula: "gap_elsewhere(gap, bore_low, bore_high)", show: 0.0001 mm}
readings:
  bore_low: {title: Bore low, each: cylinder, measure: length, with: bore_gauge}
  bore_high: {title: Bore high, each: cylinder, measure: length, with: bore_gauge}
  gap: {title: Gap, each: cylinder, measure: length, with: feelers}
decisions:
  gap_does:
    title: Does it do?
    each: cylinder
    branches:
      - {id: file, when: gap < least, then: File it.}
      - {id: fits, when: gap >= least, then: It fits.}
steps:
  - {id: measure, do: Measure., read: [bore_low, bore_high, gap], show: [least, grown, higher], decide: [gap_does]}
"""
TEAL = """
format: family/1
id: teal
name: Teal
layout: {kind: inline, cylinders: 2}
geometry: {bore: 98.4 mm}
ring_pack: {gap_min_per_bore: 0.004}
cylinders: {1: {bank: A}, 2: {bank: A}}
"""
GAPS = """
format: job/1
id: one
family: teal
sessions:
  - id: first
    card: size
    cylinder:
      1: {bore_low: 98.65, bore_high: 99.15, gap: 0.40}
      2: {bore_low: 98.427, bore_high: 98.480, gap: 0.392}
"""
GAUGES = "gauges: {bore_1: {kind: bore_gauge, uncertainty: 0.004 mm}, blades: {kind: feelers, uncertainty: 0.002 mm}}"


def test_ring_gaps(tmp_path: Path) -> None:
    job = small(RINGS, TEAL, GAPS, tmp_path, GAUGES)
    assert job.value("size", "least", "1") == pytest.approx(0.3946)  # 0.004 × 98.65
    assert job.value("size", "grown", "1") == pytest.approx(1.570796327)  # π × 0.50
    assert job.value("size", "higher", "2") == pytest.approx(0.392 + 0.1665044106)  # π × 0.053
    assert job.outcome("size", "gap_does", "1") == "fits"
    assert job.verdict("size", "gap_does", "2").state == "too close to call"  # 0.392 of 0.3937, and blades 0.002


# Bearings. Source: geometry, a clearance is bore less journal; uncertainties of two gauges by squares (JCGM 100).

SHELLS = """
format: job/1
id: shells-in
family: bittern
variant: bittern-51
gauges:
  bore_u4: {kind: small_bore_gauge, uncertainty: 0.004 mm}
  journal_u45: {kind: outside_micrometer, uncertainty: 0.0045 mm}
sessions:
  - id: in-1
    card: shells
    gauge: {main_bore: bore_u4, main_journal: journal_u45}
    journal_round: round
    shell_place: known
    main:
      1: {main_look: even, main_bore: 62.048, main_journal: 62.000}
      2: {main_look: even, main_bore: 62.095, main_journal: 61.999}
  - id: cam-1
    card: cam-bearings
    gauge: {cam_bore: bore_u4, cam_journal: journal_u45}
    cam_bearing:
      1: {shell_face: clean, shell_seat: tight, cam_bore: 48.550, cam_journal: 48.500}
"""


def test_bearing_clearances(tmp_path: Path) -> None:
    job = stand(SHELLS, tmp_path)
    assert job.value("shells", "main_clearance", "1") == pytest.approx(0.048)  # 66.200 − 4.152 − 62.000
    assert job.value("cam-bearings", "clearance", "1") == pytest.approx(0.050)  # 54.000 − 2 × 2.725 − 48.500
    assert job.outcome("shells", "main_shell", "1") == "stays"
    margin = next(m for m in job.verdict("shells", "main_shell", "1").margins if m.limit_is == "most")
    assert margin.uncertainty == pytest.approx(0.0060208, abs=1e-7)  # √(0.004² + 0.0045²)
    worn = job.verdict("shells", "main_shell", "2")
    assert worn.state == "too close to call"  # 0.096 of 0.090, and U 0.00602
