"""Lines in space against a brute search with numpy, and against lengths worked out from rounded coordinates."""

from math import cos, radians, sin

import numpy as np
import pytest
from hand_built import family, passage
from hypothesis import given, settings
from hypothesis import strategies as st

from procgen.trade.passages import (
    Segment,
    angle_between,
    crossings,
    found_meetings,
    length,
    metal_between,
    nearest,
    stated_meetings,
)

coordinate = st.integers(-500, 500).map(float)
point = st.tuples(coordinate, coordinate, coordinate)
segment = st.tuples(point, point)


def by_searching(first: Segment, second: Segment) -> float:
    """Alternating projection from a grid of starts: slow, and knows nothing of determinants."""
    p, u = np.array(first[0]), np.array(first[1]) - np.array(first[0])
    q, v = np.array(second[0]), np.array(second[1]) - np.array(second[0])
    shares = np.linspace(0, 1, 401)
    apart = np.linalg.norm((p + np.outer(shares, u))[:, None] - (q + np.outer(shares, v))[None], axis=2)
    return float(apart.min())


@settings(max_examples=60)
@given(segment, segment)
def test_nearest_is_no_farther_than_any_pair_of_points(first: Segment, second: Segment) -> None:
    found = nearest(first, second)
    searched = by_searching(first, second)
    reach = (np.linalg.norm(np.subtract(*first)) + np.linalg.norm(np.subtract(*second))) / 800
    assert searched - 1e-9 - reach <= found.apart <= searched + 1e-9


@settings(max_examples=30)
@given(segment, segment)
def test_nearest_is_the_same_from_either_side(first: Segment, second: Segment) -> None:
    one, two = nearest(first, second), nearest(second, first)
    assert one.apart == pytest.approx(two.apart, abs=1e-9)


def test_parallel_lines_side_by_side_and_in_line() -> None:
    assert nearest(((0, 0, 0), (10, 0, 0)), ((4, 3, 0), (8, 3, 0))).apart == pytest.approx(3)
    assert nearest(((0, 0, 0), (10, 0, 0)), ((20, 0, 0), (12, 0, 0))).apart == pytest.approx(2)


# Coordinates and lengths (mm) of single drillings of the invented families, as worked out with the drawing
@pytest.mark.parametrize(
    ("start", "end", "long"),
    [((18.5, -85.362, 190.0), (18.5, -14.753, 32.838), 172.2948784),
     ((18.5, -62, 138), (18.5, -73.202, 129.434), 14.10181407),
     ((13, 72.64, -50), (13, 77.161, 63.017), 113.1073903), ((373, 72.64, -50), (373, 77.181, 63.516), 113.6067909),
     ((34, 112, 25.667), (34, 32.264, 7.394), 81.80300865), ((12, 36.851, 180.58), (12, 96, 22), 169.2519442),
     ((524, -138.829, 161.841), (474, 43.841, 161.841), 189.3893579),
     ((25.5, 75.3, 184), (25.5, 25.3, 134), 70.71067812),
     ((25.5, 9.315, 32.699), (25.5, 43.3, 152), 124.047204), ((38, 104, 54), (38, 43.3, 152), 115.275713),
     ((35, -62.225, 190.225), (35, -20.153, 148.153), 59.498793)],
)  # fmt: skip
def test_length(start: tuple[float, ...], end: tuple[float, ...], long: float) -> None:
    assert length(passage("X", start, end, 8, ("open", "open"))) == pytest.approx(long, abs=1e-6)


def test_angle_does_not_mind_the_direction() -> None:
    lean = (cos(radians(30)), sin(radians(30)), 0.0)
    assert angle_between(((0, 0, 0), (1, 0, 0)), ((0, 0, 0), lean)) == pytest.approx(30)
    assert angle_between(((1, 0, 0), (0, 0, 0)), ((0, 0, 0), lean)) == pytest.approx(30)


GALLEY = passage("MG", (0, 0, 0), (200, 0, 0), 12, ("open", "open"))


def test_metal_between_walls() -> None:
    """Bittern's main galley 12 and pump feed 10, axes 14 apart: 3 mm of iron."""
    other = passage("PF", (100, 14, -20), (100, 14, 20), 10, ("open", "open"))
    assert metal_between(GALLEY, other) == pytest.approx(3)


def test_square_crossing_begins_a_radius_before_its_middle() -> None:
    built = family(passages=(GALLEY, passage("D", (50, 0, 30), (50, 0, -30), 8, ("open", "open"), "MG")))
    (only,) = crossings(built, GALLEY)
    assert (only.middle, only.near_edge, only.far_edge) == pytest.approx((50, 46, 54))
    (back,) = crossings(built, GALLEY, from_end=1)
    assert back.near_edge == pytest.approx(146)


def test_slanted_crossing_begins_sooner_round_the_wall() -> None:
    """Where two cylinders of radii R, r cross at 45°, the opening's ends are the extremes of x over both surfaces."""
    built = family(passages=(GALLEY, passage("D", (0, 0, 50), (100, 0, -50), 8, ("open", "open"), "MG")))
    (only,) = crossings(built, GALLEY)
    turn = np.linspace(0, 2 * np.pi, 20001)
    y, z = 6 * np.cos(turn), 6 * np.sin(turn)  # on the galley's wall; D's axis lies along x - 50 = -z, y = 0
    inside = np.abs(y) <= 4
    reach = np.sqrt(16 - y[inside] ** 2) * np.sqrt(2)
    edges = 50 - z[inside] - reach
    assert only.near_edge == pytest.approx(float(edges.min()), abs=1e-3)


def test_what_is_said_to_meet_and_what_does() -> None:
    built = family(
        passages=(
            GALLEY,
            passage("A", (50, 0, 30), (50, 0, 0), 8, ("open", "passage MG")),
            passage("B", (80, 0, 30), (80, 0, -30), 8, ("open", "open")),
            passage("C", (120, 5, 30), (120, 5, -30), 8, ("open", "open"), "MG"),
        )
    )
    assert stated_meetings(built) == {frozenset(("A", "MG")), frozenset(("C", "MG"))}
    assert found_meetings(built) == {frozenset(("A", "MG")), frozenset(("B", "MG"))}
