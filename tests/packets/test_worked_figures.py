"""Worked figures of ring fits, bearings and gauging, end to end: readings in a job's file, formulas in a card's.

Sources: geometry; viscous flow through a narrow ring; short-bearing theory (Ocvirk); normal distribution, with inputs
that JCGM 106 has in its examples (from memory). Figures worked out apart from procgen, most of them two ways.
"""

from __future__ import annotations

import pytest

from tests.packets.shed import Stand, small

CARD = """
format: procedure/1
id: size
title: Figures
question: Does it run?
stage: Figures
reason: Figures decide.
values:
  warm_ring: {title: Ring warmer by, is: 180 Δ°C, source: given}
  warm_wall: {title: Wall warmer by, is: 100 Δ°C, source: given}
  iron: {title: Expansion of iron, is: 11.4e-6 1/K, source: table of grey iron}
  hot: {title: Hot gap, each: cylinder, formula: "hot_gap(gap, ring_bore, iron, warm_ring, iron, warm_wall)"}
  land: {title: Land, is: 9 mm, source: given}
  width: {title: Width, is: 22 mm, source: given}
  feed: {title: Feed pressure, is: 300 kPa, source: given}
  oil: {title: Oil, is: 10.5 mPa·s, source: given}
  speed: {title: Speed, is: 3000 rev/min, source: given}
  load: {title: Load, is: 12 kN, source: given}
  off: {title: Eccentricity, is: 0.6, source: given}
  clearance: {title: Clearance, each: cylinder, formula: housing - 2 * wall - journal, show: 0.001 mm}
  radial: {title: Radial clearance, each: cylinder, formula: clearance / 2}
  film: {title: Thinnest film, each: cylinder, formula: radial * (1 - off)}
  wall_under: {title: Wall for a ground journal, each: cylinder, formula: wall + ground / 2}
  flow: {title: Oil, each: cylinder, formula: "groove_flow(journal, radial, land, feed, oil, off)"}
  side: {title: Side flow, each: cylinder, formula: "side_flow(journal, speed, width, radial, off)"}
  carries: {title: Carries, each: cylinder, formula: "short_bearing_load(journal, speed, width, radial, oil, off)"}
  presses: {title: Presses, each: cylinder, formula: "projected_load(load, width, journal)"}
  low: {title: Low, is: 12.5 mm, source: given}
  high: {title: High, is: 16.3 mm, source: given}
  least: {title: Least, is: 490 mm, source: given}
  u: {title: u, is: 1.8 mm, source: given}
  u_least: {title: u, is: 8.6 mm, source: given}
  chance_two: {title: Chance, each: cylinder, formula: "chance_within(part, low, high, u)"}
  chance_one: {title: Chance, each: cylinder, formula: "chance_at_least(long_part, least, u_least)"}
readings:
  gap: {title: Gap, each: cylinder, measure: length, with: feelers}
  ring_bore: {title: Bore, each: cylinder, measure: length, with: bore_gauge}
  housing: {title: Housing, each: cylinder, measure: length, with: bore_gauge}
  wall: {title: Wall, each: cylinder, measure: length, with: outside_micrometer}
  journal: {title: Journal, each: cylinder, measure: length, with: outside_micrometer}
  ground: {title: Ground by, each: cylinder, measure: length, with: outside_micrometer}
  part: {title: Part, each: cylinder, measure: length, with: outside_micrometer}
  long_part: {title: Long part, each: cylinder, measure: length, with: outside_micrometer}
decisions:
  runs:
    title: Does it run?
    each: cylinder
    branches:
      - {id: butts, when: hot <= least - least, then: It butts.}
      - {id: runs, when: hot > least - least, then: It runs.}
steps:
  - {id: measure, do: Measure., read: [gap, ring_bore, housing, wall, journal, ground, part, long_part], decide: [runs]}
"""
FAMILY = """
format: family/1
id: teal
name: Teal
layout: {kind: inline, cylinders: 2}
geometry: {bore: 100 mm}
cylinders: {1: {bank: A}, 2: {bank: A}}
"""
JOB = """
format: job/1
id: one
family: teal
sessions:
  - id: first
    card: size
    cylinder:
      1:
        {gap: 0.40, ring_bore: 100, housing: 66.200, wall: 2.076, journal: 62.000, ground: 0.25,
         part: 13.6, long_part: 509.7}
      2: {gap: 0.28, ring_bore: 100, housing: 66.248, wall: 2.076, journal: 62.000}
"""
GAUGES = """
gauges:
  bore_1: {kind: bore_gauge, uncertainty: 0.004 mm}
  blades: {kind: feelers, uncertainty: 0.002 mm}
  micrometer: {kind: outside_micrometer, uncertainty: 0.003 mm}
"""


@pytest.fixture(scope="module")
def job(tmp_path_factory: pytest.TempPathFactory) -> Stand:
    return small(CARD, FAMILY, JOB, tmp_path_factory.mktemp("figures"), GAUGES)


@pytest.mark.parametrize(
    ("value", "expected", "in_base"),
    [
        ("hot", 0.11430755, 1.0),  # 0.40 less what 180 K on the ring and 100 K on the wall close, exact form
        ("clearance", 0.048, 1.0),  # 66.200 − 4.152 − 62.000
        ("film", 0.0096, 1.0),  # 0.024 × (1 − 0.6)
        ("wall_under", 2.201, 1.0),  # 2.076 + 0.25 / 2
        ("flow", 2.193987778e-6, 1e9),  # m³/s into mm³/s
        ("side", 3.085295313e-6, 1e9),
        ("carries", 2405.742388, 1e3),  # N into mN
        ("presses", 8.797653959, 1e3),  # MPa into kPa
        ("chance_two", 0.6626297865, 1.0),  # 12.5 to 16.3, 13.6, u 1.8
        ("chance_one", 0.9890095474, 1.0),  # at least 490, 509.7, u 8.6
    ],
)
def test_a_worked_figure(value: str, expected: float, in_base: float, job: Stand) -> None:
    assert job.value("size", value, "1") == pytest.approx(expected * in_base, rel=1e-8)


def test_twice_the_clearance_leaks_eight_times_as_much(job: Stand) -> None:
    assert job.value("size", "clearance", "2") == pytest.approx(0.096)
    assert job.value("size", "flow", "2") == pytest.approx(1.053114134e6 / 60, rel=1e-9)  # L/min into mm³/s


def test_a_cold_gap_that_closes_is_told(job: Stand) -> None:
    """0.28 less 0.2865 of closing: the ends butt. Of 0.40 is left 0.114."""
    assert job.outcome("size", "runs", "1") == "runs"
    assert job.outcome("size", "runs", "2") == "butts"
