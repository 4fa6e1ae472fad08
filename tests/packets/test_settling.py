"""What is said to settle a verdict that is too close to call does settle it, were the same sizes read again."""

from __future__ import annotations

from pathlib import Path

from procgen.model.verdict import CLOSE
from tests.packets.shed import Stand, stand

SURVEY = """
format: job/1
id: oval
family: dunlin
variant: dunlin-32
gauges:
  worn_gauge: {kind: bore_gauge, uncertainty: 0.010 mm}
  a_little_better: {kind: bore_gauge, uncertainty: 0.008 mm}
  large_bores_only: {kind: bore_gauge, range: [150 mm, 250 mm], uncertainty: 0.002 mm}
  of_another_kind: {kind: small_bore_gauge, uncertainty: 0.001 mm}
sessions:
  - id: travel-1
    card: travel
    gauge: {deck_cut: depth_gauge_1}
    gear: original
    ridge_seen: reamed
    deck_cut: 0
  - id: survey-1
    card: cylinder-survey
    gauge: {bore: worn_gauge}
    ring_plan: new
    cylinder:
      A2:
        shadow: even
        wall: sound
        hatch: worn
        thumbnail: passes
        wear_side: both
        bore:
          3:     {thrust: 92.605, axial: 92.603}
          10:    {thrust: 92.669, axial: 92.624}
          35:    {thrust: 92.654, axial: 92.643}
          60:    {thrust: 92.641, axial: 92.633}
          95:    {thrust: 92.623, axial: 92.619}
          105:   {thrust: 92.603, axial: 92.602}
"""


def judged(gauge: str, folder: Path, text: str = SURVEY) -> Stand:
    return stand(text.replace("bore: worn_gauge", f"bore: {gauge}"), folder)


def test_only_gauges_that_settle_it_are_named(tmp_path: Path) -> None:
    """Out-of-round 0.045 of 0.050, taper 0.046 of 0.060: U of a difference must be under 0.005."""
    verdict = judged("worn_gauge", tmp_path).verdict("cylinder-survey", "hone_or_bore", "A2")
    assert verdict.state == CLOSE
    assert verdict.settles == "measure out-of-round and taper again, with bore gauge 1"
    assert judged("bore_gauge_1", tmp_path).outcome("cylinder-survey", "hone_or_bore", "A2") == "hone"
    for other in ("a_little_better", "worn_gauge"):
        assert judged(other, tmp_path).verdict("cylinder-survey", "hone_or_bore", "A2").state == CLOSE


def test_the_gauges_of_each_margin(tmp_path: Path) -> None:
    """Taper lies 0.014 inside: 0.008·√2 = 0.011 is enough for it, and not for out-of-round."""
    verdict = judged("worn_gauge", tmp_path).verdict("cylinder-survey", "hone_or_bore", "A2")
    named = {margin.title: margin.settled_by for margin in verdict.margins}
    assert named["taper"] == ("a_little_better", "bore_gauge_1")
    assert named["out-of-round"] == ("bore_gauge_1",)
    assert named["wear"] == ()  # is outside, and clear


def test_where_the_shop_has_none_it_says_how_fine(tmp_path: Path) -> None:
    finer = SURVEY.replace("92.624", "92.620")  # 0.049 of 0.050: under the 0.0023 of the shop's best
    verdict = judged("worn_gauge", tmp_path, finer).verdict("cylinder-survey", "hone_or_bore", "A2")
    assert verdict.settles == (
        "measure out-of-round and taper again, more finely than with worn gauge: "
        "U of out-of-round must be under 0.001\u202fmm"
    )


def test_on_its_limit_no_gauge_settles_it(tmp_path: Path) -> None:
    exact = SURVEY.replace("92.624", "92.619")
    verdict = judged("worn_gauge", tmp_path, exact).verdict("cylinder-survey", "hone_or_bore", "A2")
    assert verdict.settles == "out-of-round lies on its limit: a named person decides"
