"""Lens areas against a published value, a closed form worked out apart from this code, and a count of points."""

from math import pi, radians

import numpy as np
import pytest

from procgen.trade import oiling


# radii and distance (mm), area (mm²), open share; the first row is printed by a public reference as 1.22837
@pytest.mark.parametrize(
    ("r", "s", "d", "area", "share"),
    [(1, 1, 1, 1.228369699, 0.391002219), (3, 3, 0, 28.27433388, 1),
     (3, 3, 2.356194490192345, 14.50942785, 0.5131660363), (3, 2.5, 2.356194490192345, 11.08384665, 0.5644956746),
     (4, 3, 0.9, 28.27433388, 1), (4, 3, 1.0, 28.27433388, 1), (3, 3, 6, 0, 0),
     (3.25, 3, 2, 18.34263048, 0.6487378468)],
)  # fmt: skip
def test_lens(r: float, s: float, d: float, area: float, share: float) -> None:
    assert oiling.lens_area(2 * r, 2 * s, d) == pytest.approx(area, rel=1e-9)
    assert oiling.hole_overlap(2 * r, 2 * s, d) == pytest.approx(share, rel=1e-9)
    assert oiling.lens_area(2 * s, 2 * r, -d) == oiling.lens_area(2 * r, 2 * s, d)


def test_lens_by_counting_points() -> None:
    x, y = np.meshgrid(*(np.linspace(-4, 4, 1601),) * 2)
    both = (np.hypot(x, y) <= 3.25) & (np.hypot(x - 2, y) <= 3)
    assert oiling.lens_area(6.5, 6, 2) == pytest.approx(float(both.mean()) * 8.005**2, rel=2e-3)


def test_offset_on_a_bore() -> None:
    assert oiling.hole_offset(27, 5, 0) == pytest.approx(2.35619449, rel=1e-8)
    assert oiling.hole_offset(27, 5, 1) == pytest.approx(float(np.hypot(27 * radians(5), 1)), rel=1e-12)


def test_two_equal_holes_are_shut_at_their_diameter() -> None:
    assert oiling.clock_error_max(6, 6, 27, 0) == pytest.approx(12.73239545, rel=1e-9)  # half an hour


def test_slack_of_unequal_holes() -> None:
    assert oiling.clock_error_max(7, 5, 25.3, 1) == pytest.approx(1 / 25.3 * 180 / pi, rel=1e-12)


@pytest.mark.parametrize("overlap", [0.1, 0.5, 0.8, 0.9, 0.999])
@pytest.mark.parametrize("holes", [(6.0, 6.5), (6.0, 6.0), (7.0, 5.0)])
def test_clock_error_is_the_inverse_of_the_overlap(holes: tuple[float, float], overlap: float) -> None:
    turned = oiling.clock_error_max(*holes, 27, overlap)
    assert oiling.hole_overlap(*holes, oiling.hole_offset(27, turned, 0)) == pytest.approx(overlap, rel=1e-9)
    assert oiling.hole_overlap(*holes, oiling.hole_offset(27, turned + 1e-4, 0)) < overlap


def test_an_error_as_an_arc_and_on_the_clock() -> None:
    """Two 6 mm holes on a radius of 27 are shut 6 mm round: 12.73°, 25.5 minutes of clock."""
    turned = oiling.clock_error_max(6, 6, 27, 0)
    assert oiling.arc(27, turned) == pytest.approx(6, rel=1e-12) == oiling.offset_max(6, 6, 0)
    assert oiling.clock_minutes(turned) == pytest.approx(25.4647909, rel=1e-8)
    assert oiling.clock_minutes(30) == 60  # an hour of clock is a twelfth of a turn


@pytest.mark.parametrize("along", [0.0, 0.5, 1.0])
def test_opening_left_by_both_errors(along: float) -> None:
    """Turned as far as the shift leaves, exactly the least overlap is open; by counting points, to their grid."""
    turned = oiling.clock_error_shifted(6, 6.5, 27, 0.8, along)
    left = oiling.opening_left(6, 6.5, 27, turned, along)
    assert left == pytest.approx(0.8, rel=1e-9)
    x, y = np.meshgrid(*(np.linspace(-4, 4, 1601),) * 2)
    both = (np.hypot(x, y) <= 3) & (np.hypot(x - 27 * radians(turned), y - along) <= 3.25)
    assert left == pytest.approx(float(both.mean()) * 8.005**2 / (pi * 9), rel=2e-3)
    assert turned <= oiling.clock_error_max(6, 6.5, 27, 0.8)


def test_a_shift_that_alone_is_too_much() -> None:
    with pytest.raises(ValueError, match=r"2 mm along the bore alone leaves less than 80 % of the hole open"):
        oiling.clock_error_shifted(6, 6, 27, 0.8, 2)


def test_refusals() -> None:
    with pytest.raises(ValueError, match="share"):
        oiling.clock_error_max(6, 6, 27, 1.1)
    with pytest.raises(ValueError, match="hole diameter"):
        oiling.hole_overlap(0, 6, 1)
    with pytest.raises(ValueError, match="radius"):
        oiling.clock_error_max(6, 6, 0, 0.9)
