"""How sure a value is: held to the `uncertainties` library and to random errors in thousands (JCGM 101).

The rule under test: each reading has an error of its own and one that its gauge makes the same way all session; a gauge
that does not state the two apart is taken both ways, and the larger counts.
"""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest
from uncertainties import UFloat, ufloat

from procgen.compose import job_bench
from procgen.compose.readings import Readings
from tests.packets.shed import stand
from tests.packets.test_worked_sets import SHELLS, WORN

WHOLE, APART = 0.004, 0.0023  # U of a size, and of a difference at one setting (k = 2), mm
OWN = APART / math.sqrt(2)
COMMON = math.sqrt(WHOLE**2 - OWN**2)
BORES = {
    12: (98.498, 98.462),
    40: (98.470, 98.448),
    75: (98.446, 98.436),
    105: (98.430, 98.424),
}
UNWORN = (98.408, 98.408)


def readings(folder: Path, text: str = WORN) -> tuple[Readings, object]:
    job = stand(text.replace("SIDE", "both"), folder)
    bench = job_bench(job.shop, job.job)
    assert bench.readings is not None
    return bench.readings, bench.card("cylinder-survey")


def measured(common: UFloat, size: float) -> UFloat:
    return ufloat(size, OWN / 2) + common


@pytest.mark.parametrize("value", ["wear", "taper", "out_of_round", "largest", "need"])
def test_against_the_uncertainties_library(value: str, tmp_path: Path) -> None:
    found, card = readings(tmp_path)
    common = ufloat(0.0, COMMON / 2)
    across = {depth: measured(common, size) for depth, (size, _) in BORES.items()}
    along = {depth: measured(common, size) for depth, (_, size) in BORES.items()}
    unworn = (measured(common, UNWORN[0]) + measured(common, UNWORN[1])) / 2
    largest = across[12]
    expected = {
        "wear": largest - unworn,
        "taper": across[12] - across[105],
        "out_of_round": across[12] - along[12],
        "largest": largest,
        "need": largest + 0.11,
    }[value]
    cell = card.whole(value).cells["A1",]  # type: ignore[attr-defined]
    assert cell.number == pytest.approx(expected.nominal_value, abs=1e-9)
    assert found.uncertainty(cell) == pytest.approx(2 * expected.std_dev, rel=1e-9)


@pytest.mark.parametrize("value", ["wear", "taper", "out_of_round"])
def test_a_gauge_that_states_one_figure_counts_the_larger_way(value: str, tmp_path: Path) -> None:
    """A difference is least sure where all errors are independent, a sum where they are one."""
    gauge = "gauges: {coarse: {kind: bore_gauge, uncertainty: 0.010 mm}}\nsessions:"
    found, card = readings(tmp_path, WORN.replace("sessions:", gauge).replace("bore_gauge_1", "coarse"))
    cell = card.whole(value).cells["A1",]  # type: ignore[attr-defined]
    apart = [ufloat(0.0, 0.005) for _ in cell.partials]
    independent = sum(p * e for p, e in zip(cell.partials.values(), apart, strict=True))
    one = ufloat(0.0, 0.005) * sum(cell.partials.values())
    expected = max(2 * independent.std_dev, 2 * one.std_dev)  # type: ignore[union-attr]
    assert found.uncertainty(cell) == pytest.approx(expected, rel=1e-9)
    assert expected > 2 * one.std_dev  # each is a difference


def test_two_gauges_share_no_error(tmp_path: Path) -> None:
    """A clearance of bore and journal: JCGM 100, by squares."""
    job = stand(SHELLS, tmp_path)
    bench = job_bench(job.shop, job.job)
    assert bench.readings is not None
    cell = bench.card("shells").whole("main_clearance").cells["1",]
    expected = ufloat(62.048, 0.002) - ufloat(62.000, 0.00225)
    assert bench.readings.uncertainty(cell) == pytest.approx(2 * expected.std_dev, rel=1e-9)


def test_against_random_errors(tmp_path: Path) -> None:
    """JCGM 101: 200 000 draws, fixed seed. First order is exact for what is linear; a largest of several reads high."""
    rng = np.random.default_rng(20260314)
    draws = 200_000
    common = rng.normal(0, COMMON / 2, draws)

    def drawn(size: float) -> np.ndarray:
        return size + common + rng.normal(0, OWN / 2, draws)

    across = np.array([drawn(size) for size, _ in BORES.values()])
    along = np.array([drawn(size) for _, size in BORES.values()])
    unworn = (drawn(UNWORN[0]) + drawn(UNWORN[1])) / 2
    values = {
        "wear": np.maximum(across.max(0), along.max(0)) - unworn,
        "taper": np.maximum(np.ptp(across, 0), np.ptp(along, 0)),
        "out_of_round": np.abs(across - along).max(0),
    }
    found, card = readings(tmp_path)
    for name, sample in values.items():
        cell = card.whole(name).cells["A1",]  # type: ignore[attr-defined]
        expanded = found.uncertainty(cell)
        assert 2 * sample.std() == pytest.approx(expanded, rel=0.01), name
        low, high = np.quantile(sample, [0.025, 0.975])
        assert cell.number - expanded == pytest.approx(low, abs=0.0001), name  # k = 2 holds a little more than 95 %
        assert cell.number + expanded == pytest.approx(high, abs=0.0001), name
