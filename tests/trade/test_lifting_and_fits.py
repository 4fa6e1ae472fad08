"""Slings against the factors of rigging tables; press fits against a textbook's exact case; all in base units."""

import pytest

from procgen.trade import fits, lifting

N = 1000.0  # kg·mm/s²
MPA = 1000.0  # kPa


# 92 kg on two legs; the angles' factors 1.1547, 1.4142, 2 stand in rigging tables
@pytest.mark.parametrize(("angle", "newton"), [(60, 520.8922256), (45, 637.9600818), (30, 902.2118), (90, 451.1059)])
def test_leg_tension(angle: float, newton: float) -> None:
    assert lifting.leg_tension(92, 2, angle) == pytest.approx(newton * N, rel=1e-9)


@pytest.mark.parametrize(
    ("angle", "factor"),
    [(90, 1), (75, 1.03527618), (60, 1.154700538), (50, 1.305407289), (45, 1.414213562), (40, 1.555723827), (30, 2),
     (20, 2.9238044)],
)  # fmt: skip
def test_tension_factor(angle: float, factor: float) -> None:
    assert lifting.leg_tension(1, 1, angle) / lifting.leg_tension(1, 1, 90) == pytest.approx(factor, rel=1e-9)


@pytest.mark.parametrize(("angle", "rated"), [(60, 53.1162), (45, 65.0538), (30, 92), (90, 46)])
def test_what_a_legs_plate_must_say(angle: float, rated: float) -> None:
    """92 kg on two legs: half of it by the same factors, in the mass that a plate is stamped with."""
    assert lifting.leg_load(92, 2, angle) == pytest.approx(rated, abs=1e-4)


def test_factor_is_length_over_height() -> None:
    angle = lifting.leg_angle(600, 520)
    assert lifting.leg_tension(10, 1, angle) / lifting.leg_tension(10, 1, 90) == pytest.approx(1.153846154, rel=1e-9)


def test_stand_moment() -> None:
    assert lifting.stand_moment(78, 300) == pytest.approx(229.47561 * N * 1000, rel=1e-9)  # 229.47561 N·m


@pytest.mark.parametrize("angle", [0, -5, 91])
def test_no_leg_lies_flat(angle: float) -> None:
    with pytest.raises(ValueError, match="sling leg"):
        lifting.leg_tension(92, 2, angle)


def test_leg_cannot_rise_higher_than_it_is_long() -> None:
    with pytest.raises(ValueError, match="higher"):
        lifting.leg_angle(500, 501)


def test_solid_pin_in_hub() -> None:
    """Textbook: D 10, hub 20, δ 0.020, E 200 GPa both: exactly 150 MPa."""
    assert fits.press_pressure(10, 0.020, 0, 20, 200e6, 0.3, 200e6, 0.3) == pytest.approx(150 * MPA, rel=1e-12)


def test_cup_plug_in_iron() -> None:
    pressure = fits.press_pressure(41.30, 0.150, 38.30, 70, 200e6, 0.30, 100e6, 0.26)
    assert pressure == pytest.approx(41.17538147 * MPA, rel=1e-9)
    assert fits.boss_hoop(pressure, 41.30, 70) == pytest.approx(85.14884454 * MPA, rel=1e-9)
    assert fits.press_force(0.12, 41.30, 6, pressure) == pytest.approx(3846.538221 * N, rel=1e-9)


def test_cam_shell_in_iron() -> None:
    pressure = fits.press_pressure(54.0, 0.060, 48.60, 90, 200e6, 0.30, 100e6, 0.26)
    assert pressure == pytest.approx(15.87719408 * MPA, rel=1e-9)
    assert fits.press_force(0.12, 54.0, 20, pressure) == pytest.approx(6464.406047 * N, rel=1e-9)


@pytest.mark.parametrize(
    ("size", "expansion", "warmer", "grown"),
    [(54.0, 11.4e-6, 80, 0.049248), (57.0, 21.5e-6, 80, 0.09804), (54.0, 11.7e-6, -98, -0.0619164)],
)
def test_growth(size: float, expansion: float, warmer: float, grown: float) -> None:
    assert fits.growth(size, expansion, warmer) == pytest.approx(grown, rel=1e-9)


def test_impossible_fits() -> None:
    with pytest.raises(ValueError, match="press fit"):
        fits.press_pressure(40, 0.1, 41, 70, 200e6, 0.3, 100e6, 0.26)
    with pytest.raises(ValueError, match="loose"):
        fits.press_pressure(40, -0.1, 30, 70, 200e6, 0.3, 100e6, 0.26)
