"""What the trade's formulas refuse, in words that a person at the stand can act on."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

import pytest

from procgen.trade import bearings, bolts, crank, fits, gauging, heat, honing, lifting, noise, oversize, rings


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (partial(crank.piston_drop, 84, 42, 0, 0), "too short"),
        (partial(crank.top_angle, 84, 43, 2), "too short"),
        (partial(crank.offset_stroke, 0, 150, 0), "stroke must be more than nothing"),
        (partial(oversize.clean_up_size, 98.4, 98.3, 0.5, 0, 0), "smaller than the unworn"),
        (partial(oversize.clean_up_size, 98.4, 98.5, 0.4, 0, 0), "half of the wear"),
        (partial(oversize.clean_up_size, 98.4, 98.5, 1.1, 0, 0), "all of it"),
        (partial(honing.hone_stroke, 135, 35, 70), "tip over"),
        (partial(honing.hone_stroke, 40, 15, 70), "too long"),
        (partial(honing.hone_stroke, 40, 10, 70), "too long"),
        (partial(honing.hatch_supplement, 180), "between 0 and 180"),
        (partial(honing.hatch_supplement, 0), "between 0 and 180"),
        (partial(honing.hatch_cycles, 98, 3, 110, 180), "between 0 and 180"),
        (partial(honing.hatch_cycles, 98, 3, 110, 0), "between 0 and 180"),
        (partial(honing.hatch_spindle, 98, 0, 110, 45), "cycles must be more"),
        (partial(honing.rim_speed, 0, 3), "diameter must be more"),
        (partial(honing.stroke_speed, 100, -1), "cycles must be more"),
        (partial(rings.gap_closing, 0, 1e-5, 1, 1e-5, 1), "bore must be more"),
        (partial(rings.gap_elsewhere, 0.4, 98, 0), "bore must be more"),
        (partial(bearings.leak_ratio, 0.1, 0), "new clearance must be more"),
        (partial(heat.heat_to_free, 0.1, 0, 54, 0), "expansion must be more"),
        (partial(heat.size_at_20, 0, 1e-5, 293), "size must be more"),
        (partial(fits.ring_hoop, 1000, 40, 40), "smaller than its outside"),
        (partial(fits.bore_closing, 1000, 40, 36, 0), "modulus must be more"),
        (partial(bolts.stress_area_metric, 2, 3), "deeper than the bolt"),
        (partial(bolts.stress_area_inch, 1, 20), "deeper than the bolt"),
        (partial(bolts.bolt_torque, 0, 12, 1e6), "nut factor must be more"),
        (partial(bolts.bolt_preload, 1e6, 0.2, 0), "major must be more"),
        (partial(noise.noise_time, 115.1), "above 115"),
        (partial(noise.noise_dose, 90, -1), "below nothing"),
        (partial(gauging.chance_within, 1, 2, 1, 0.1), "above the upper"),
        (partial(gauging.chance_at_most, 1, 2, 0), "uncertainty must be more"),
        (partial(gauging.guard_factor, 1), "between 0 and 1"),
        (partial(gauging.guard_factor, 0), "between 0 and 1"),
        (partial(lifting.sling_capacity, 1000, 2, 0), "sling leg"),
        (partial(lifting.sling_capacity, 0, 2, 60), "rating must be more"),
    ],
)
def test_refused(call: Callable[[], float], words: str) -> None:
    with pytest.raises(ValueError, match=words):
        call()


def test_just_inside_is_taken() -> None:
    """Limits are closed where a person would say so: exactly a half is still a share, 115 dB(A) still has its time."""
    assert oversize.clean_up_size(98.4, 98.4, 0.5, 0, 0) == oversize.clean_up_size(98.4, 98.4, 1, 0, 0) == 98.4
    assert honing.hone_stroke(40, 15.25, 70) == 0.5
    assert honing.hone_stroke(135, 34, 70) == 133
    assert honing.hatch_supplement(0.5) == 179.5
    assert honing.hatch_cycles(98, 3, 110, 0.5) < 1
    assert bolts.stress_area_metric(1.5, 1) > 0
    assert gauging.chance_within(1, 1, 1, 0.1) == 0
    assert noise.noise_time(115) == 900
