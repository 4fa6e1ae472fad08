"""Threads against the standards' published tables, as copied into the rows below; drills against a published list."""

import pytest

from procgen.trade.drills import DRILLS, largest_not_over, nearest
from procgen.trade.threads import ThreadError, parse, taper_engagement

INCH = 25.4


# ASME B1.20.1 as tabled, inches: E0, L1 and its turns, E1, L2 and its turns, tap drill
@pytest.mark.parametrize(
    ("name", "e0", "hand", "hand_turns", "e1", "l2", "l2_turns", "drill"),
    [("1/16-27 NPT", 0.27118, 0.1600, 4.32, 0.28118, 0.2611, 7.05, None),
     ("1/8-27 NPT", 0.36351, 0.1615, 4.36, 0.37360, 0.2639, 7.12, 0.339),
     ("1/4-18 NPT", 0.47739, 0.2278, 4.10, 0.49163, 0.4018, 7.23, 0.4375),
     ("3/8-18 NPT", 0.61201, 0.2400, 4.32, 0.62701, 0.4078, 7.34, 0.5781),
     ("1/2-14 NPT", 0.75843, 0.3200, 4.48, 0.77843, 0.5337, 7.47, 0.7188),
     ("3/4-14 NPT", 0.96768, 0.3390, 4.75, 0.98887, 0.5457, 7.64, 0.9219),
     ("1-11.5 NPT", 1.21363, 0.4000, 4.60, 1.23863, 0.6828, 7.85, 1.1563)],
)  # fmt: skip
def test_npt(
    name: str, e0: float, hand: float, hand_turns: float, e1: float, l2: float, l2_turns: float, drill: float | None
) -> None:
    thread = parse(name)
    assert thread.pitch_diameter / INCH == pytest.approx(e0, abs=1.1e-5)
    assert thread.hand_tight is not None
    assert thread.effective is not None
    assert thread.hand_tight / INCH == pytest.approx(hand, abs=1e-9)
    assert thread.hand_tight / thread.pitch == pytest.approx(hand_turns, abs=0.01)
    assert (thread.pitch_diameter + thread.hand_tight / 16) / INCH == pytest.approx(e1, abs=1.1e-5)
    assert thread.effective / INCH == pytest.approx(l2, abs=6e-5)
    assert thread.effective / thread.pitch == pytest.approx(l2_turns, abs=0.01)
    if drill is not None:
        assert thread.tap_drill / INCH == pytest.approx(drill, abs=6e-5)


def test_engagement() -> None:
    assert parse("1/4-18 NPT").engagement(3) == pytest.approx(10.01945333, rel=1e-9)
    assert parse("1/8-27 NPT").engagement(3) == pytest.approx(6.924322222, rel=1e-9)
    assert parse("M18x1.5").engagement(3) is None
    with pytest.raises(ValueError, match="turns"):
        taper_engagement(6, 1, -1)


# ISO 7-1, mm: pitch, pitch and minor diameter, gauge length
@pytest.mark.parametrize(
    ("name", "pitch", "d2", "d1", "gauge", "drill"),
    [("R 1/16", 0.9071, 7.142, 6.561, 4.0, 6.6), ("R 1/8", 0.9071, 9.147, 8.566, 4.0, 8.6),
     ("R 1/4", 1.3368, 12.301, 11.445, 6.0, 11.5), ("R 3/8", 1.3368, 15.806, 14.950, 6.4, 15.0),
     ("R 1/2", 1.8143, 19.793, 18.631, 8.2, 18.75), ("R 3/4", 1.8143, 25.279, 24.117, 9.5, 24.25),
     ("R 1", 2.3091, 31.770, 30.291, 10.4, 30.4)],
)  # fmt: skip
def test_iso7(name: str, pitch: float, d2: float, d1: float, gauge: float, drill: float) -> None:
    thread = parse(name)
    assert thread.pitch == pytest.approx(pitch, abs=5e-5)
    assert thread.pitch_diameter == pytest.approx(d2, abs=1e-3)
    assert thread.minor == pytest.approx(d1, abs=1.1e-3)
    assert thread.hand_tight == gauge
    assert thread.tap_drill == drill
    assert thread.flank == 55


# ISO 261, mm: D2, D1, drill
@pytest.mark.parametrize(
    ("name", "d2", "d1", "drill"),
    [("M8x1", 7.350, 6.917, 7), ("M10x1", 9.350, 8.917, 9), ("M12x1.25", 11.188, 10.647, 10.75),
     ("M12x1.5", 11.026, 10.376, 10.5), ("M14x1.5", 13.026, 12.376, 12.5), ("M16x1.5", 15.026, 14.376, 14.5),
     ("M18x1.5", 17.026, 16.376, 16.5), ("M20x1.5", 19.026, 18.376, 18.5), ("M22×1.5", 21.026, 20.376, 20.5)],
)  # fmt: skip
def test_metric(name: str, d2: float, d1: float, drill: float) -> None:
    thread = parse(name)
    assert thread.pitch_diameter == pytest.approx(d2, abs=5e-4)
    assert thread.minor == pytest.approx(d1, abs=5e-4)
    assert thread.tap_drill == pytest.approx(drill)
    assert not thread.is_taper


@pytest.mark.parametrize(
    ("name", "hint"),
    [("3/8-27 NPT", '"3/8-18 NPT"'), ("5/8-18 NPT", "listed"), ("R 5/8", "listed"), ("M18", "M18x1.5"), ("plug", "NPT"),
     ("1/4 NPT", '"1/4-18 NPT"'), ("M1x2", "pitch"), ("", "NPT")],
)  # fmt: skip
def test_unknown_threads_are_told(name: str, hint: str) -> None:
    with pytest.raises(ThreadError) as caught:
        parse(name)
    assert hint in caught.value.hint


# passage (mm): nearest drill, largest that enters (mm), from the published number, letter and fraction lists
@pytest.mark.parametrize(
    ("passage", "near", "enters", "size"),
    [(5.0, "#9", "#9", 4.9784), (6.0, "B", "15/64", 5.9531), (7.0, "J", "I", 6.9088), (8.0, "O", "5/16", 7.9375),
     (10.0, "25/64", "25/64", 9.9219), (12.0, "15/32", "15/32", 11.9062), (13.0, "33/64", "1/2", 12.7000),
     (14.0, "35/64", "35/64", 13.8906)],
)  # fmt: skip
def test_drills(passage: float, near: str, enters: str, size: float) -> None:
    assert nearest(passage).name == near
    assert largest_not_over(passage).name == enters
    assert largest_not_over(passage).size == pytest.approx(size, abs=6e-5)


def test_drill_list_is_whole() -> None:
    assert len(DRILLS) == 80 + 26 + 64 - 1  # E is 1/4
    assert [drill.size for drill in DRILLS] == sorted({drill.size for drill in DRILLS})
    with pytest.raises(ValueError, match="no drill"):
        largest_not_over(0.3)
