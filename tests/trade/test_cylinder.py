"""Cylinder figures against sums done by hand or twice by other means; exact decimals where the rows are exact."""

from decimal import Decimal

import pytest

from procgen.trade import cylinder, honing


# V = n π/4 B² S, worked out apart from this code; cm³ and in³
@pytest.mark.parametrize(
    ("bore", "stroke", "count", "cc"),
    [(98.40, 84.20, 8, 5122.502237), (87.30, 97.80, 6, 3512.436439), (3.75 * 25.4, 3.25 * 25.4, 6, 3529.296765),
     (80.6, 74.6, 4, 1522.505197), (80.6, 66.0, 4, 1346.988512), (98.4, 90.2, 8, 5487.526149),
     (92.6, 79.4, 6, 3208.3638), (92.6, 71.4, 6, 2885.102964), (104.2, 91.6, 8, 6249.003673),
     (104.2, 83.2, 8, 5675.950935), (87.3, 88.0, 6, 3160.474505)],
)  # fmt: skip
def test_displacement(bore: float, stroke: float, count: int, cc: float) -> None:
    assert cylinder.displacement(bore, stroke, count) / 1000 == pytest.approx(cc, rel=1e-9)


@pytest.mark.parametrize(("bore", "deck_clearance", "ratio"), [(98.40, 0.55, 9.325637864), (98.90, 0.35, 9.577057416)])
def test_compression_ratio(bore: float, deck_clearance: float, ratio: float) -> None:
    left = cylinder.clearance_volume(58e3, 100.5, 1.10, bore, deck_clearance, 6e3)
    assert cylinder.compression_ratio(cylinder.swept_volume(bore, 84.20), left) == pytest.approx(ratio, rel=1e-9)


def test_clearance_volume() -> None:
    assert cylinder.clearance_volume(58e3, 100.5, 1.10, 98.40, 0.55, 6e3) == pytest.approx(76908.55524, rel=1e-9)


@pytest.mark.parametrize(
    "parts",
    [("84.20", "152.60", "38.75", "0.55"), ("97.80", "171.50", "44.20", "0.40"), ("66.00", "131.40", "40.50", "0.30")],
)
def test_stack_height_is_the_exact_sum(parts: tuple[str, ...]) -> None:
    stroke, rod, piston, gap = (Decimal(part) for part in parts)
    assert cylinder.stack_height(*map(float, parts)) == pytest.approx(float(stroke / 2 + rod + piston + gap), abs=1e-9)


# Ends of travel of each invented variant, foot of its bore, and the stations: by hand from the rule
@pytest.mark.parametrize(
    ("top", "bottom", "foot", "stations"),
    [(6.15, 108.65, 135, (3, 8, 41, 74, 106.5, 122)), (6.15, 114.65, 135, (3, 8, 43, 78, 112.5, 125)),
     (7.6, 125.6, 143, (4, 9.5, 47.5, 85.5, 123.5, 134.5)), (6.3, 97.5, 112, (3, 8.5, 37.5, 66.5, 95.5, 104.5))],
)  # fmt: skip
def test_survey_stations(top: float, bottom: float, foot: float, stations: tuple[float, ...]) -> None:
    found = cylinder.survey_stations(top, bottom, foot)
    assert found == pytest.approx(stations, abs=1e-9)
    assert found[0] < top < found[1] < found[2] < found[3] < found[4] < bottom < found[5] < foot
    assert all(depth * 2 == int(depth * 2) for depth in found)


def test_station_never_rounds_across_travel() -> None:
    assert cylinder.survey_stations(0.4, 100, 110)[0] == pytest.approx(0.2)  # neither 0 nor 0.5 lies in the band
    assert cylinder.survey_stations(5, 100, 100.4)[-1] == pytest.approx(100.2)


@pytest.mark.parametrize("travel", [(0, 100, 110), (5, 8, 110), (5, 100, 100), (100, 5, 110)])
def test_no_stations_without_unworn_bands(travel: tuple[float, float, float]) -> None:
    with pytest.raises(ValueError, match=r"ring|band"):
        cylinder.survey_stations(*travel)


# top of travel, bottom of travel, ring width; an inch apart
@pytest.mark.parametrize(
    ("top", "bottom", "width", "stations"),
    [(7.6, 125.6, 2.0, (7.6, 33.0, 58.4, 83.8, 109.2, 123.6)), (7.6, 115.8, 2.0, (7.6, 33.0, 58.4, 83.8, 109.2, 113.8)),
     (6.3, 97.5, 1.75, (6.3, 31.7, 57.1, 82.5, 95.75)), (6.3, 88.9, 1.75, (6.3, 31.7, 57.1, 82.5, 87.15)),
     (6.15, 108.65, 1.6, (6.15, 31.55, 56.95, 82.35, 107.05)),
     (6.15, 114.65, 1.6, (6.15, 31.55, 56.95, 82.35, 107.75, 113.05)),
     (5.8, 100.8, 1.5, (5.8, 31.2, 56.6, 82.0, 99.3)), (5.8, 92.8, 1.5, (5.8, 31.2, 56.6, 82.0, 91.3)),
     (6.8, 118.2, 1.6, (6.8, 32.2, 57.6, 83.0, 108.4, 116.6)), (6.8, 109.8, 1.6, (6.8, 32.2, 57.6, 83.0, 108.2))],
)  # fmt: skip
def test_light_stations(top: float, bottom: float, width: float, stations: tuple[float, ...]) -> None:
    assert cylinder.light_stations(top, bottom, width, 25.4) == pytest.approx(stations, abs=1e-9)


def test_light_station_is_not_doubled_where_the_pitch_meets_the_end() -> None:
    assert cylinder.light_stations(6, 6 + 50.8 + 2, 2, 25.4) == pytest.approx((6, 31.4, 56.8), abs=1e-9)


def test_light_stations_refuse_no_travel() -> None:
    with pytest.raises(ValueError, match="travel"):
        cylinder.light_stations(6, 7, 2, 25.4)
    with pytest.raises(ValueError, match="pitch"):
        cylinder.light_stations(6, 60, 2, 0)


# 4 in bore, 200 rpm, 6 in stroke, 60 cycles a minute: a published page gives 32°
def test_hatch_angle() -> None:
    assert honing.hatch_angle(4 * 25.4, 200 / 60, 6 * 25.4, 1) == pytest.approx(31.97178081, rel=1e-9)
    assert honing.hatch_angle(98.4, 3, 110, 55 / 60) == pytest.approx(24.53643458, rel=1e-9)


def test_hatch_is_square_where_both_speeds_are_equal() -> None:
    assert honing.hatch_angle(100 / 3.141592653589793, 1, 50, 1) == pytest.approx(90, rel=1e-12)


def test_hatch_cycles() -> None:
    assert honing.hatch_cycles(98.4, 3, 110, 45) * 60 == pytest.approx(104.7656978, rel=1e-9)
    with pytest.raises(ValueError, match="180"):
        honing.hatch_cycles(98.4, 3, 110, 180)
