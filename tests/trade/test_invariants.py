"""What stays true of the trade's formulas whatever the sizes: each undone by its inverse, and the ends of each."""

from __future__ import annotations

import math

import pytest
from check_rows import said
from hypothesis import given
from hypothesis import strategies as st

from procgen.trade import (
    bearings,
    bolts,
    crank,
    flatness,
    gauging,
    heat,
    honing,
    lifting,
    noise,
    oversize,
    rings,
    travel,
)

STROKE, ROD, PISTON, EDGE = st.floats(50, 120), st.floats(130, 220), st.floats(25, 60), st.floats(2, 30)
ANGLE, BORE, HEIGHT = st.floats(-720, 720), st.floats(60, 130), st.floats(-0.5, 0.5)
WARMER, SHARE = st.floats(0, 250), st.floats(0.01, 0.99)
METAL = st.sampled_from([11.4e-6, 11.7e-6, 21.5e-6])


@given(STROKE, ROD, st.floats(-3, 3), ANGLE)
def test_piston_stays_between_its_ends(stroke: float, rod: float, offset: float, angle: float) -> None:
    run = crank.offset_stroke(stroke, rod, offset)
    assert -1e-9 <= crank.piston_drop(stroke, rod, offset, angle) <= run + 1e-9
    assert run >= stroke - 1e-9
    assert crank.piston_drop(stroke, rod, offset, angle) == pytest.approx(
        crank.piston_drop(stroke, rod, -offset, -angle), abs=1e-9
    )
    assert crank.piston_drop(stroke, rod, offset, angle + 360) == pytest.approx(
        crank.piston_drop(stroke, rod, offset, angle), abs=1e-9
    )


@given(STROKE, ROD, ANGLE)
def test_without_offset_the_piston_runs_the_stroke(stroke: float, rod: float, angle: float) -> None:
    assert crank.offset_stroke(stroke, rod, 0) == pytest.approx(stroke)
    assert crank.top_angle(stroke, rod, 0) == 0
    assert crank.piston_drop(stroke, rod, 0, 180) == pytest.approx(stroke)
    assert crank.piston_drop(stroke, rod, 0, 90) > stroke / 2  # the rod leans, so the piston is past half-way


@given(STROKE, ROD, PISTON, EDGE, st.floats(-0.5, 2), st.floats(0, 0.5))
def test_heights_and_depths_say_the_same(
    stroke: float, rod: float, piston: float, edge: float, gap: float, cut: float
) -> None:
    """A cut deck moves depths, ridge and all, and no height: it never makes a ring meet a ridge."""
    block = stroke / 2 + rod + piston + gap
    assert travel.crown_below_deck(block, stroke, rod, piston) == pytest.approx(gap, abs=1e-9)
    top, bottom = (f(stroke, rod, piston, edge) for f in (travel.ring_height_top, travel.ring_height_bottom))
    assert block - top == pytest.approx(gap + edge, abs=1e-9)
    assert block - bottom == pytest.approx(gap + stroke + edge, abs=1e-9)
    assert top - bottom == pytest.approx(stroke)
    assert travel.crown_below_deck(block - cut, stroke, rod, piston) == pytest.approx(gap - cut, abs=1e-9)


@given(STROKE, ROD, PISTON, EDGE, *(st.floats(-3, 3) for _ in range(4)))
def test_change_of_travel(
    stroke: float, rod: float, piston: float, edge: float, ds: float, dr: float, dp: float, de: float
) -> None:
    """The top rises by half the stroke's change, the rod's, the piston's, less the ring's; the foot sinks by half."""
    old, new = (stroke, rod, piston, edge), (stroke + ds, rod + dr, piston + dp, edge + de)
    assert travel.ring_height_top(*new) - travel.ring_height_top(*old) == pytest.approx(ds / 2 + dr + dp - de, abs=1e-9)
    assert travel.ring_height_bottom(*new) - travel.ring_height_bottom(*old) == pytest.approx(
        dr + dp - ds / 2 - de, abs=1e-9
    )


@given(BORE, st.floats(0, 0.5), st.floats(0.5, 1), st.floats(0, 0.1), st.floats(0, 0.1))
def test_size_to_clean(unworn: float, wear: float, share: float, margin: float, stock: float) -> None:
    largest = unworn + wear
    need = oversize.clean_up_size(unworn, largest, share, margin, stock)
    assert largest + margin + stock <= need + 1e-9
    assert need <= unworn + 2 * wear + margin + stock + 1e-9


@pytest.mark.parametrize(
    ("one_wall", "plain"),
    [(0.5, "largest + margin + stock"), (1.0, "unworn + 2 * (largest - unworn) + margin + stock")],
)
def test_size_to_clean_is_what_the_cards_say(one_wall: float, plain: str) -> None:
    given = {"unworn": "98.41 mm", "largest": "98.63 mm", "margin": "0.03 mm", "stock": "0.08 mm"}
    need = oversize.clean_up_size(98.41, 98.63, one_wall, 0.03, 0.08)
    assert said(plain, **{name: text for name, text in given.items() if name in plain}) == pytest.approx(need)


@given(BORE, st.floats(0.5, 10), st.floats(30, 200), st.floats(5, 120))
def test_hatch_and_back(bore: float, spindle: float, stroke: float, angle: float) -> None:
    cycles = honing.hatch_cycles(bore, spindle, stroke, angle)
    assert honing.hatch_angle(bore, spindle, stroke, cycles) == pytest.approx(angle, rel=1e-9)
    assert honing.hatch_spindle(bore, cycles, stroke, angle) == pytest.approx(spindle, rel=1e-9)
    assert honing.hatch_supplement(honing.hatch_supplement(angle)) == pytest.approx(angle)
    assert honing.hatch_cycles(bore, 2 * spindle, stroke, angle) == pytest.approx(2 * cycles)


@given(st.floats(0.1, 2), BORE, METAL, WARMER, METAL, WARMER)
def test_gaps_hot_and_cold(gap: float, bore: float, ring: float, dr: float, wall: float, dw: float) -> None:
    hot = rings.hot_gap(gap, bore, ring, dr, wall, dw)
    assert rings.cold_gap(hot, bore, ring, dr, wall, dw) == pytest.approx(gap, abs=1e-9)
    assert rings.hot_gap(gap, bore, ring, 0, wall, 0) == gap
    if ring == wall and dr == dw:
        assert hot == pytest.approx(gap * (1 + ring * dr), abs=1e-9)  # all of it only grows


@given(st.floats(0.1, 2), BORE, st.floats(-0.3, 0.3))
def test_gap_there_and_back(gap: float, bore: float, wider: float) -> None:
    there = rings.gap_elsewhere(gap, bore, bore + wider)
    assert rings.gap_elsewhere(there, bore + wider, bore) == pytest.approx(gap, abs=1e-9)
    assert (there > gap) == (bore + wider > bore)


@given(*(st.floats(0.02, 0.3) for _ in range(3)))
def test_leaks_multiply(a: float, b: float, c: float) -> None:
    assert bearings.leak_ratio(a, a) == 1
    assert bearings.leak_ratio(a, b) * bearings.leak_ratio(b, c) == pytest.approx(bearings.leak_ratio(a, c))
    assert bearings.leak_ratio(2 * a, a) == pytest.approx(8)


@given(st.floats(0, 0.3), st.floats(0, 0.1), st.floats(20, 100), METAL, METAL, WARMER)
def test_heat_frees_and_nothing_else(grip: float, gap: float, size: float, hole: float, part: float, dt: float) -> None:
    needed = heat.heat_to_free(grip, gap, size, hole)
    assert heat.warm_interference(grip, size, hole, 0, needed) == pytest.approx(-gap, abs=1e-12)
    assert heat.warm_interference(grip, size, hole, hole, dt) == pytest.approx(grip, abs=1e-12)
    assert (heat.warm_interference(grip, size, hole, part, dt) < grip - 1e-9) <= (hole > part)


@given(st.floats(20, 150), METAL, st.floats(-20, 80))
def test_size_at_20(size: float, metal: float, celsius: float) -> None:
    brought = heat.size_at_20(size, metal, celsius + 273.15)
    assert brought * (1 + metal * (celsius - 20)) == pytest.approx(size, rel=1e-12)
    assert heat.size_at_20(size, metal, 293.15) == size
    assert (brought < size) == (celsius > 20) or abs(celsius - 20) < 1e-6


@given(st.floats(5, 30), st.floats(0.3, 2), st.floats(0.1, 0.3), st.floats(0, 0.6))
def test_bolts(major: float, pitch: float, factor: float, scatter: float) -> None:
    area = bolts.stress_area_metric(major, pitch)
    assert math.pi / 4 * (major - 1.226869 * pitch) ** 2 < area < math.pi / 4 * (major - 0.649519 * pitch) ** 2
    assert bolts.stress_area_inch(major, 25.4 / pitch) < area  # ASME counts a little less metal
    pull = 580e3 * area
    torque = bolts.bolt_torque(factor, major, pull)
    assert bolts.bolt_preload(torque, factor, major) == pytest.approx(pull)
    least, most = (bolts.bolt_preload(torque, factor * (1 + s), major) for s in (scatter, -scatter))
    assert least <= pull * (1 + 1e-9)
    assert most >= pull * (1 - 1e-9)


@given(HEIGHT, HEIGHT, HEIGHT, HEIGHT, HEIGHT, HEIGHT, HEIGHT)
def test_twist(a: float, b: float, c: float, d: float, along: float, across: float, up: float) -> None:
    twist = flatness.corner_twist(a, b, c, d)
    tilted = flatness.corner_twist(a + up, b + up + along, c + up + along + across, d + up + across)
    assert tilted == pytest.approx(twist, abs=1e-12)
    assert flatness.corner_twist(b, c, d, a) == pytest.approx(twist, abs=1e-12)
    assert flatness.corner_twist(d, c, b, a) == pytest.approx(twist, abs=1e-12)
    assert twist <= max(a, b, c, d) - min(a, b, c, d) + 1e-12


@given(st.floats(60, 110), st.floats(0, 86400), st.floats(0, 86400))
def test_noise(level: float, first: float, then: float) -> None:
    assert noise.noise_time(level + 5) == pytest.approx(noise.noise_time(level) / 2)
    assert noise.noise_dose(level, noise.noise_time(level)) == pytest.approx(1)
    assert noise.noise_dose(level, first) + noise.noise_dose(level, then) == pytest.approx(
        noise.noise_dose(level, first + then)
    )


@given(st.floats(-1, 1), st.floats(-1, 1), st.floats(0, 1), st.floats(0.01, 1), SHARE)
def test_chances(size: float, low: float, wide: float, u: float, chance: float) -> None:
    high = low + wide
    below, within, above = (
        1 - gauging.chance_at_least(size, low, u), gauging.chance_within(size, low, high, u),
        1 - gauging.chance_at_most(size, high, u),
    )  # fmt: skip
    assert below + within + above == pytest.approx(1)
    assert min(below, within, above) >= -1e-12
    guarded = high - gauging.guard_factor(chance) * u
    assert gauging.chance_at_most(guarded, high, u) == pytest.approx(chance, rel=1e-6)


@given(st.floats(100, 3000), st.integers(1, 2), st.floats(5, 90))
def test_slings_carry_less_the_flatter_they_stand(rating: float, legs: int, angle: float) -> None:
    carries = lifting.sling_capacity(rating, legs, angle)
    assert carries <= rating * legs * (1 + 1e-12)
    assert lifting.leg_tension(carries, legs, angle) == pytest.approx(rating * lifting.GRAVITY)
    assert lifting.sling_capacity(rating, legs, 30) == pytest.approx(rating * legs / 2)
