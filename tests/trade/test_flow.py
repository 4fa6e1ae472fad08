"""Flow and pressure against worked cases, and against the film and its pressure added up piece by piece."""

from __future__ import annotations

import re
from math import pi

import numpy as np
import pytest

from procgen.trade import flow
from procgen.units.table import UNITS

MPA_S, L_MIN, KPA, N = (float(UNITS[symbol].factor) for symbol in ("mPa·s", "L/min", "kPa", "N"))
KG_M3 = 1e-9  # in kg/mm³
JOURNAL = {"diameter": 62.0, "radial_clearance": 0.024, "viscosity": 10.5 * MPA_S}


def test_units() -> None:
    """1 Pa·s is 1e-3 kg/(mm·s) and 1 kPa is 1 kg/(mm·s²), so that nothing needs a factor inside."""
    assert pytest.approx((1e-6, 1e6 / 60, 1.0, 1000.0)) == (MPA_S, L_MIN, KPA, N)


# worked out apart from this code: 62 mm journal, 9 mm lands, 300 kPa, 10.5 mPa·s; litres a minute
@pytest.mark.parametrize(
    ("clearance", "eccentricity", "litres"),
    [(0.024, 0.6, 0.1316392667), (0.024, 0.0, 0.08548004331), (0.048, 0.6, 1.053114134)],
)
def test_oil_past_a_grooved_bearing(clearance: float, eccentricity: float, litres: float) -> None:
    found = flow.groove_flow(62, clearance, 9, 300 * KPA, 10.5 * MPA_S, eccentricity)
    assert found / L_MIN == pytest.approx(litres, rel=1e-9)


@pytest.mark.parametrize("eccentricity", [0.0, 0.3, 0.6, 0.9, 1.0])
def test_oil_past_a_land_by_adding_up_the_film(eccentricity: float) -> None:
    """A film of thickness h passes h³ Δp / (12 μ l) for each width of it; h = c (1 + ε cos θ) round the journal."""
    theta = np.linspace(0, 2 * np.pi, 20001)
    film = 0.024 * (1 + eccentricity * np.cos(theta))
    summed = float(np.trapezoid(film**3, theta)) * 31 * 300 / (12 * 10.5e-6 * 9)
    assert flow.annular_flow(62, 0.024, 9, 300, 10.5e-6, eccentricity) == pytest.approx(summed, rel=1e-9)


def test_oil_driven_out_at_the_sides() -> None:
    """3000 a minute, 22 mm wide; worked out apart from this code."""
    assert flow.side_flow(62, 50, 22, 0.024, 0.6) / L_MIN == pytest.approx(0.1851177188, rel=1e-9)


def test_load_of_a_short_bearing() -> None:
    load = flow.short_bearing_load(62, 50, 22, 0.024, 10.5 * MPA_S, 0.6)
    assert load / N == pytest.approx(2405.742388, rel=1e-9)
    assert flow.projected_load(load, 22, 62) / 1000 == pytest.approx(1.763740754, rel=1e-9)  # MPa
    assert flow.projected_load(12000 * N, 22, 62) / 1000 == pytest.approx(8.797653959, rel=1e-9)


@pytest.mark.parametrize("eccentricity", [0.2, 0.6, 0.9])
def test_load_of_a_short_bearing_by_adding_up_the_pressure(eccentricity: float) -> None:
    """p = 3 μ U / (R c²) (L²/4 − z²) ε sin θ / (1 + ε cos θ)³ over the half where it is above nothing."""
    radius, width, clearance, viscosity, speed = 31.0, 22.0, 0.024, 10.5e-6, pi * 62 * 50
    theta, z = np.linspace(0, np.pi, 20001), np.linspace(-width / 2, width / 2, 2001)
    across = float(np.trapezoid(width**2 / 4 - z**2, z))
    round_it = eccentricity * np.sin(theta) / (1 + eccentricity * np.cos(theta)) ** 3
    scale = 3 * viscosity * speed / (radius * clearance**2) * across * radius
    pull = [scale * float(np.trapezoid(round_it * part, theta)) for part in (np.cos(theta), np.sin(theta))]
    found = flow.short_bearing_load(62, 50, width, clearance, viscosity, eccentricity)
    assert found == pytest.approx(float(np.hypot(*pull)), rel=1e-6)


# viscosity mPa·s, density kg/m³, length, diameter, L/min; Reynolds number, Pa, mm to settle, apart from this code
CASES = {
    "hot": ((10.0, 850, 200, 8, 6), 1352.817016, 1989.436789, 649.3521678),
    "cold": ((290.0, 890, 200, 8, 6), 48.84410322, 57693.66687, 23.44516955),
    "lecture": ((155.31, 872.5, 1000, 20, 1.2), 7.152800868, 790.9873348, 0.06 * 7.152800868 * 20),
}


@pytest.mark.parametrize("case", CASES)
def test_a_straight_passage(case: str) -> None:
    (viscosity, density, length, diameter, litres), number, pascal, settled = CASES[case]
    fluid = (viscosity * MPA_S, density * KG_M3)
    assert flow.reynolds(fluid[1], litres * L_MIN, diameter, fluid[0]) == pytest.approx(number, rel=1e-9)
    assert flow.entrance_length(number, diameter) == pytest.approx(settled, rel=1e-9)
    assert flow.least_drop(*fluid, length, diameter, litres * L_MIN) * 1000 == pytest.approx(pascal, rel=1e-9)
    if settled <= length:
        assert flow.laminar_drop(*fluid, length, diameter, litres * L_MIN) * 1000 == pytest.approx(pascal, rel=1e-9)


def test_a_passage_too_short_for_the_flow_to_settle() -> None:
    told = "the flow settles only after 649 mm, and the passage is 200 mm long: 1.99 kPa is the least it takes"
    with pytest.raises(ValueError, match=re.escape(told)):
        flow.laminar_drop(10 * MPA_S, 850 * KG_M3, 200, 8, 6 * L_MIN)


def test_a_flow_that_is_not_in_layers() -> None:
    """The 4 mm passage: the formula would give 31.8 kPa, sixteen times the 8 mm one, and does not hold."""
    told = "the oil does not flow in layers here: Reynolds number 2706, 2000 is the most"
    for drop in (flow.least_drop, flow.laminar_drop):
        with pytest.raises(ValueError, match=re.escape(told)):
            drop(10 * MPA_S, 850 * KG_M3, 200, 4, 6 * L_MIN)
    assert flow.least_drop(10 * MPA_S, 850 * KG_M3, 200, 8, 1) * 16 == pytest.approx(
        flow.least_drop(10 * MPA_S, 850 * KG_M3, 200, 4, 1)
    )


def test_a_short_hole() -> None:
    """3 mm, Cd 0.62, 850 kg/m³, 6 L/min: 221.28 kPa, worked out apart from this code."""
    assert flow.hole_drop(850 * KG_M3, 6 * L_MIN, 0.62, pi / 4 * 9) == pytest.approx(221.2792901, rel=1e-9)


def test_refusals() -> None:
    with pytest.raises(ValueError, match="0 to 1"):
        flow.annular_flow(62, 0.024, 9, 300, 1e-5, 1.1)
    with pytest.raises(ValueError, match="touches"):
        flow.short_bearing_load(62, 50, 22, 0.024, 1e-5, 1)
    with pytest.raises(ValueError, match="radial clearance"):
        flow.annular_flow(62, 0, 9, 300, 1e-5, 0)
    with pytest.raises(ValueError, match="diameter"):
        flow.least_drop(1e-5, 850e-9, 100, 0, 1)
