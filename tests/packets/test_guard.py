"""Guard bands at their edges. Source: ISO 14253-1, the closed acceptance of JCGM 106; worked with exact decimals.

In binary floats 0.025 − 0.006 is 0.019000000000000003: none of these may flip for that.
"""

from __future__ import annotations

from decimal import Decimal as D
from pathlib import Path

import pytest

from procgen.cli import main
from procgen.model.verdict import INSIDE, OUTSIDE, TOO_CLOSE, Verdict
from tests.packets.shed import small

SIZE = """
format: procedure/1
id: size
title: Size
question: Is it within?
stage: Size
reason: It must be.
readings:
  size: {title: Size, each: cylinder, measure: length, with: bore_gauge}
decisions:
  within:
    title: Is it within?
    each: cylinder
    branches:
      - {id: under, when: size < limits.housing_bore_min, then: Too small.}
      - {id: over, when: size > limits.housing_bore_max, then: Too large.}
      - {id: good, when: limits.housing_bore_min <= size and size <= limits.housing_bore_max, then: Good.}
steps:
  - {id: measure, do: Measure., read: [size], decide: [within]}
"""
UPPER = SIZE.replace("      - {id: under, when: size < limits.housing_bore_min, then: Too small.}\n", "").replace(
    "limits.housing_bore_min <= size and size", "size"
)


def verdicts(sizes: list[str], low: str, high: str, guard: str, folder: Path, procedure: str = SIZE) -> list[Verdict]:
    cylinders = "".join(f"  {n}: {{bank: A}}\n" for n, _ in enumerate(sizes, start=1))
    limits = f"limits: {{housing_bore_min: {low} mm, housing_bore_max: {high} mm}}\n"
    family = f"format: family/1\nid: teal\nname: Teal\n{limits}cylinders:\n{cylinders}"
    read = "".join(f"      {n}: {{size: {size}}}\n" for n, size in enumerate(sizes, start=1))
    job = f"format: job/1\nid: one\nfamily: teal\nsessions:\n  - id: first\n    card: size\n    cylinder:\n{read}"
    gauges = f"gauges: {{bore_1: {{kind: bore_gauge, uncertainty: {guard} mm}}}}\n"
    stand = small(procedure, family, job, folder, gauges)
    return [stand.verdict("size", "within", str(n)) for n, _ in enumerate(sizes, start=1)]


def expected(size: str, low: str | None, high: str, guard: str) -> str:
    """By exact decimals."""
    x, g, upper = D(size), D(guard), D(high)
    lower = None if low is None else D(low)
    if x > upper + g or (lower is not None and x < lower - g):
        return "reject"
    return "accept" if x <= upper - g and (lower is None or x >= lower + g) else "undecided"


def said(verdict: Verdict) -> str:
    if not verdict.is_settled:
        return "undecided"
    return "accept" if verdict.outcomes[0][0] == "good" else "reject"


UP = ["98.475", "98.476", "98.478", "98.484", "98.485"]
BOTH = ["0.018", "0.019", "0.030", "0.031", "0.059", "0.060", "0.071", "0.072"]


def test_one_limit(tmp_path: Path) -> None:
    found = [said(v) for v in verdicts(UP, "98.000", "98.480", "0.004", tmp_path, UPPER)]
    assert found == ["accept", "accept", "undecided", "undecided", "reject"]
    assert found == [expected(size, None, "98.480", "0.004") for size in UP]


def test_two_limits(tmp_path: Path) -> None:
    found = [said(v) for v in verdicts(BOTH, "0.025", "0.065", "0.006", tmp_path)]
    assert found == ["reject", "undecided", "undecided", "accept", "accept", "undecided", "undecided", "reject"]
    assert found == [expected(size, "0.025", "0.065", "0.006") for size in BOTH]


def test_every_thousandth_about_two_limits(tmp_path: Path) -> None:
    sizes = [f"{n / 1000:.3f}" for n in range(15, 76)]
    found = [said(v) for v in verdicts(sizes, "0.025", "0.065", "0.006", tmp_path)]
    assert found == [expected(size, "0.025", "0.065", "0.006") for size in sizes]


def test_a_gauge_that_is_not_good_enough_is_told_apart_from_a_bad_part(tmp_path: Path) -> None:
    """With limits 0.040 apart and U 0.025 nothing can ever be accepted; far outside is outside all the same."""
    close, far = verdicts(["0.045", "0.100"], "0.025", "0.065", "0.025", tmp_path)
    assert said(close) == "undecided"
    assert {margin.side for margin in close.margins} == {TOO_CLOSE}
    assert all(margin.blunt for margin in close.margins)
    assert said(far) == "reject"
    assert OUTSIDE in {margin.side for margin in far.margins}


def test_a_good_gauge_is_not_called_blunt(tmp_path: Path) -> None:
    (verdict,) = verdicts(["0.045"], "0.025", "0.065", "0.006", tmp_path)
    assert [(margin.side, margin.blunt) for margin in verdict.margins] == [(INSIDE, False), (INSIDE, False)]


def test_a_settled_job_leaves_nothing_to_ask(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Exit code 0 once everything is settled, 3 while something lies too close."""
    start = ["job", "--workshop", str(tmp_path), "--no-packet", "one"]
    verdicts(["0.045"], "0.025", "0.065", "0.006", tmp_path)
    assert main(start) == 0
    assert "Settled: nothing is open." in capsys.readouterr().out
    verdicts(["0.060"], "0.025", "0.065", "0.006", tmp_path)
    assert main(start) == 3
    assert "TOO CLOSE TO CALL" in capsys.readouterr().out
