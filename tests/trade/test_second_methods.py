"""The trade's formulas against other ways to the same figure: quadrature, minimisers, enumeration, decimals, pint."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable
from decimal import Decimal

import numpy as np
import pint
import pytest
from check_rows import INCH, N_M, N, said
from numpy.typing import NDArray

from procgen.trade import (
    bearings,
    bolts,
    crank,
    cylinder,
    fits,
    flatness,
    gauging,
    heat,
    honing,
    lifting,
    oversize,
    rings,
)

Points = NDArray[np.float64]  # one row a point: two places, then the height or radius there


def minimum_zone(points: Points) -> float:
    """Least distance of two parallel planes that hold all points, found by trying every pair that could be the two.

    Of the best two planes, one carries three points and the other one, or each carries two: so their slopes are those
    of a plane through three points, or of one along two lines through two each. Exact, for few points.
    """
    slopes = []
    for three in itertools.combinations(points, 3):
        slopes.append((three[1] - three[0], three[2] - three[0]))
    for a, b in itertools.combinations(itertools.combinations(points, 2), 2):
        slopes.append((a[1] - a[0], b[1] - b[0]))
    least = math.inf
    for first, second in slopes:
        along = np.array([first[:2], second[:2]])
        if abs(np.linalg.det(along)) > 1e-12:
            slope = np.linalg.solve(along, np.array([first[2], second[2]]))
            heights = points[:, 2] - points[:, :2] @ slope
            least = min(least, float(np.ptp(heights)))
    return least


def corners(*heights: float) -> Points:
    return np.array([(x, y, h) for (x, y), h in zip(((0, 0), (500, 0), (500, 180), (0, 180)), heights, strict=True)])


@pytest.mark.parametrize("heights", [(0, 0.05, 0.02, 0.09), (0, 0, 0, 0.08), (0.1, 0, 0.1, 0), (0, 0.03, 0.07, 0.04)])
def test_twist_is_the_minimum_zone_of_four_corners(heights: tuple[float, float, float, float]) -> None:
    assert flatness.corner_twist(*heights) == pytest.approx(minimum_zone(corners(*heights)), abs=1e-12)


def test_many_points_least_squares_is_an_upper_bound() -> None:
    points = np.random.default_rng(5).uniform((0, 0, 0), (500, 180, 0.06), (9, 3))
    fitted, *_ = np.linalg.lstsq(np.c_[points[:, :2], np.ones(9)], points[:, 2], rcond=None)
    spread = float(np.ptp(points[:, 2] - points[:, :2] @ fitted[:2]))
    assert 0 < minimum_zone(points) <= spread
    tilted = points + np.outer(points[:, 0] / 500, (0, 0, 0.3))
    assert minimum_zone(tilted) == pytest.approx(minimum_zone(points), rel=1e-9)


def test_straight_lines_do_not_prove_a_plane() -> None:
    """On z = x·y both edges and the centre lines are straight, and the face is twisted: only a diagonal tells."""
    grid = np.array([(x, y, 0.02 * x * y) for x in (-1.0, 0.0, 1.0) for y in (-1.0, 0.0, 1.0)])
    for axis in (0, 1):
        for place in (-1.0, 0.0, 1.0):
            heights = grid[grid[:, axis] == place][:, 2]
            assert np.ptp(np.diff(heights)) < 1e-15
    assert minimum_zone(grid) == pytest.approx(0.04)
    assert flatness.corner_twist(0.02, -0.02, 0.02, -0.02) == pytest.approx(0.04)


def test_two_points_are_blind_to_three_lobes() -> None:
    """r = R + d cos 3φ: every diameter is 2R, so nothing is out of round; yet two circles round it lie 2d apart."""
    at = np.arange(12) * np.pi / 6
    radii = 49.2 + 0.010 * np.cos(3 * at)
    for turn in range(3):
        thrust, axial = (radii[turn + k] + radii[(turn + k + 6) % 12] for k in (0, 3))
        assert said("abs(thrust - axial)", thrust=f"{thrust} mm", axial=f"{axial} mm") == pytest.approx(0, abs=1e-12)
    assert minimum_zone(np.c_[np.cos(at), np.sin(at), radii]) == pytest.approx(0.020, rel=1e-9)


def test_an_oval_is_half_as_far_from_round_as_it_is_out_of_round() -> None:
    at = np.arange(12) * np.pi / 6
    radii = 49.2 + 0.009 * np.cos(2 * at)
    assert minimum_zone(np.c_[np.cos(at), np.sin(at), radii]) == pytest.approx(0.036 / 2, rel=1e-9)


@pytest.mark.parametrize("offset", [0.0, 0.8, -1.5])
@pytest.mark.parametrize("angle", [0.0, 17.0, 90.0, 180.0, 271.0])
def test_piston_by_bisection_of_the_linkage(offset: float, angle: float) -> None:
    """The pin climbs its line, `offset` beside the crankshaft, until it is one rod away from the crankpin."""
    throw, rod = 42.1, 152.6

    def pin(at: float) -> float:
        aside, up = throw * math.sin(math.radians(at)), throw * math.cos(math.radians(at))
        low, high = up, throw + rod
        for _ in range(80):
            middle = (low + high) / 2
            low, high = (middle, high) if math.hypot(aside + offset, middle - up) < rod else (low, middle)
        return middle

    highest = max(pin(crank.top_angle(84.2, rod, offset) + off) for off in (-1e-4, 0, 1e-4))
    assert crank.piston_drop(84.2, rod, offset, angle) == pytest.approx(highest - pin(angle), abs=1e-9)


@pytest.mark.parametrize("offset", [0.8, -1.5])
def test_top_and_stroke_by_minimiser(offset: float) -> None:
    def drop(angle: float) -> float:
        return crank.piston_drop(84.2, 152.6, offset, angle)

    low, high = -5.0, 5.0
    while high - low > 1e-7:
        third = (high - low) / 3
        low, high = (low, high - third) if drop(low + third) < drop(high - third) else (low + third, high)
    assert crank.top_angle(84.2, 152.6, offset) == pytest.approx((low + high) / 2, abs=1e-5)
    assert drop(crank.top_angle(84.2, 152.6, offset)) == pytest.approx(0, abs=1e-12)
    assert crank.offset_stroke(84.2, 152.6, offset) == pytest.approx(
        max(map(drop, np.linspace(175, 185, 20001))), abs=1e-9
    )


def test_swept_volume_by_the_piston_running_down() -> None:
    drops = np.array([crank.piston_drop(84.2, 152.6, 0, angle) for angle in np.linspace(0, 180, 721)])
    assert np.pi / 4 * 98.4**2 * float(np.diff(drops).sum()) == pytest.approx(
        cylinder.swept_volume(98.4, 84.2), rel=1e-12
    )


@pytest.mark.parametrize(
    ("bore", "spindle", "stroke", "cycles"), [(98.4, 3, 110, 55 / 60), (101.6, 200 / 60, 152.4, 1)]
)
def test_hatch_is_the_angle_between_two_velocities(bore: float, spindle: float, stroke: float, cycles: float) -> None:
    round_, along = honing.rim_speed(bore, spindle), honing.stroke_speed(stroke, cycles)
    down, up = np.array([round_, along]), np.array([round_, -along])
    between = math.degrees(math.acos(float(down @ up) / float(np.linalg.norm(down)) ** 2))
    assert honing.hatch_angle(bore, spindle, stroke, cycles) == pytest.approx(between, rel=1e-9)


def test_stones_reach_over_both_ends_by_the_over_travel() -> None:
    """Laid out along the bore: stones 70 long that run from 20 above a bore 135 deep to 20 below it."""
    upper, lower = -20 + 70 / 2, 135 + 20 - 70 / 2  # middles of the stones at both reversals
    assert honing.hone_stroke(135, 20, 70) == lower - upper


@pytest.mark.parametrize("one_wall", [0.5, 0.7, 1.0])
def test_size_to_clean_by_going_round_a_worn_bore(one_wall: float) -> None:
    at = np.linspace(0, 2 * np.pi, 7201)
    worn = 0.09 * (one_wall * np.maximum(0, np.cos(at)) + (1 - one_wall) * np.maximum(0, -np.cos(at)))
    radii = 98.408 / 2 + worn
    assert radii[0] + radii[3600] == pytest.approx(98.498)  # what a bore gauge reads
    assert oversize.clean_up_size(98.408, 98.498, one_wall, 0, 0) == pytest.approx(2 * float(radii.max()), rel=1e-12)


def test_hot_gap_in_decimals() -> None:
    """The wall's circumference less the ring's length, each grown."""
    pi, bore, gap, alpha = Decimal("3.14159265358979323846264"), Decimal(100), Decimal("0.40"), Decimal("0.0000114")
    left = pi * bore * (1 + alpha * 100) - (pi * bore - gap) * (1 + alpha * 180)
    assert rings.hot_gap(0.40, 100, 11.4e-6, 180, 11.4e-6, 100) == pytest.approx(float(left), rel=1e-12)


def test_gap_elsewhere_by_the_rings_own_length() -> None:
    length = math.pi * 98.427 - 0.40
    assert rings.gap_elsewhere(0.40, 98.427, 98.480) == pytest.approx(math.pi * 98.480 - length, rel=1e-9)


@pytest.mark.parametrize("eccentricity", [0.0, 0.6, 0.95])
def test_leak_by_adding_up_the_film(eccentricity: float) -> None:
    """Flow along a journal goes with the film's thickness cubed, whatever way the journal lies."""
    at = np.linspace(0, 2 * np.pi, 3600, endpoint=False)
    new, worn = (float(((c / 2 * (1 + eccentricity * np.cos(at))) ** 3).sum()) for c in (0.050, 0.085))
    assert bearings.leak_ratio(0.085, 0.050) == pytest.approx(worn / new, rel=1e-12)


Along = Callable[[float], float]  # radius


def lame(
    inner: float, outer: float, in_pressure: float, out_pressure: float, modulus: float, poisson: float
) -> tuple[Along, Along]:
    """Displacement and hoop stress of a thick ring by radius: σ = A ± B/r² from the pressures on its two faces."""
    if inner == 0:
        a, b = -out_pressure, 0.0
    else:
        faces = np.array([[1, -1 / inner**2], [1, -1 / outer**2]])
        a, b = np.linalg.solve(faces, np.array([-in_pressure, -out_pressure]))

    def moved(r: float) -> float:
        return float(((1 - poisson) * a * r + (1 + poisson) * (b / r if b else 0.0)) / modulus)

    return moved, lambda r: float(a + (b / r**2 if b else 0.0))


@pytest.mark.parametrize(
    ("joint", "grip", "inner", "outer"), [(41.30, 0.150, 38.30, 70), (54.0, 0.060, 48.60, 90), (10, 0.02, 0, 20)]
)
def test_interference_rebuilt_from_both_displacements(joint: float, grip: float, inner: float, outer: float) -> None:
    pressure = fits.press_pressure(joint, grip, inner, outer, 200e6, 0.30, 100e6, 0.26)
    ring, ring_hoop = lame(inner / 2, joint / 2, 0, pressure, 200e6, 0.30)
    boss, boss_hoop = lame(joint / 2, outer / 2, pressure, 0, 100e6, 0.26)
    assert 2 * (boss(joint / 2) - ring(joint / 2)) == pytest.approx(grip, rel=1e-9)
    assert fits.boss_hoop(pressure, joint, outer) == pytest.approx(boss_hoop(joint / 2), rel=1e-9)
    if inner:
        assert fits.ring_hoop(pressure, joint, inner) == pytest.approx(ring_hoop(inner / 2), rel=1e-9)
        assert fits.bore_closing(pressure, joint, inner, 200e6) == pytest.approx(-2 * ring(inner / 2), rel=1e-9)


def test_a_hole_warmed_to_let_go_has_grown_by_the_grip_and_the_gap() -> None:
    warmer = heat.heat_to_free(0.120, 0.020, 57.0, 21.5e-6)
    assert fits.growth(57.0, 21.5e-6, warmer) == pytest.approx(0.140, rel=1e-12)
    assert heat.warm_interference(0.120, 57.0, 21.5e-6, 0, warmer) == pytest.approx(-0.020, abs=1e-12)


@pytest.mark.parametrize(("size", "low", "high", "u"), [(13.6, 12.5, 16.3, 1.8), (98.478, 98.40, 98.480, 0.0018)])
def test_chance_by_adding_up_the_normal_curve(size: float, low: float, high: float, u: float) -> None:
    at = np.linspace(low, high, 20001)
    curve = np.exp(-(((at - size) / u) ** 2) / 2) / (u * math.sqrt(2 * math.pi))
    assert gauging.chance_within(size, low, high, u) == pytest.approx(float(np.trapezoid(curve, at)), rel=1e-5)


@pytest.mark.parametrize("chance", [0.05, 0.5, 0.95, 0.975])
def test_guard_by_bisection(chance: float) -> None:
    low, high = -5.0, 5.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if (1 + math.erf(middle / math.sqrt(2))) / 2 < chance else (low, middle)
    assert gauging.guard_factor(chance) == pytest.approx(low, abs=1e-9)


@pytest.mark.parametrize(("major", "pitch"), [(6, 1), (10, 1.25), (12, 1.75), (16, 2)])
def test_stress_area_by_the_thread_triangle(major: float, pitch: float) -> None:
    """ISO 898-1: half-way from pitch diameter to root; the root lies H/6 inside the nut's minor diameter."""
    height = pitch * math.sin(math.radians(60))
    pitch_diameter, minor = major - 2 * 3 / 8 * height, major - 2 * 5 / 8 * height
    middle = (pitch_diameter + minor - height / 6) / 2
    assert bolts.stress_area_metric(major, pitch) == pytest.approx(math.pi / 4 * middle**2, rel=1e-12)
    assert bolts.stress_area_metric(major, pitch) == pytest.approx(
        math.pi / 4 * (major - 0.938194 * pitch) ** 2, rel=1e-6
    )


def test_torque_by_pint() -> None:
    units = pint.UnitRegistry()
    pull = units.Quantity(4939.957657, "lbf")
    torque = (0.20 * units.Quantity(0.375, "inch") * pull).to("newton meter").magnitude
    assert bolts.bolt_torque(0.20, 0.375 * INCH, pull.to("newton").magnitude * N) / N_M == pytest.approx(
        torque, rel=1e-12
    )


@pytest.mark.parametrize("angle", [30.0, 60.0, 75.0, 90.0])
def test_two_legs_hold_the_load_up(angle: float) -> None:
    pull = lifting.leg_tension(92, 2, angle)
    legs = [pull * np.array([side * math.cos(math.radians(angle)), math.sin(math.radians(angle))]) for side in (-1, 1)]
    assert sum(legs) == pytest.approx(np.array([0, 92 * 9806.65]), abs=1e-6)
    assert lifting.sling_capacity(pull / 9806.65, 2, angle) == pytest.approx(92, rel=1e-12)
