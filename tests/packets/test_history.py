"""Measured again: what stands, what is before, and what was removed."""

from __future__ import annotations

from pathlib import Path

from tests.packets.shed import stand
from tests.packets.test_worked_sets import WORN

AGAIN = """
  - id: survey-2
    card: cylinder-survey
    gauge: {bore: bore_gauge_1}
    cylinder:
      A1:
        bore:
          12: {thrust: 98.512, axial: 98.510}
"""


def job(more: str) -> str:
    return WORN.replace("SIDE", "both") + more


def test_a_later_session_stands_as_a_whole(tmp_path: Path) -> None:
    """Metal may have been cut between: sizes from before and after are never mixed."""
    after = stand(job(AGAIN), tmp_path)
    assert after.verdict("cylinder-survey", "hone_or_bore", "A1").state == "wanting"
    readings = after.card("cylinder-survey").bench.readings
    assert readings is not None
    assert readings.depths("cylinder-survey", ("A1",)) == ("12",)
    assert after.card("cylinder-survey").whole("shadow").cells["A1",].value == "even"  # looked at once


def test_a_session_that_continues_another_replaces_only_what_it_read_again(tmp_path: Path) -> None:
    more = AGAIN.replace("card:", "continues: survey-1\n    card:").replace("98.512", "98.500")
    again = stand(job(more.replace("98.510", "98.464")), tmp_path)
    assert again.outcome("cylinder-survey", "hone_or_bore", "A1") == "hone"
    assert abs(again.value("cylinder-survey", "largest", "A1") - 98.500) < 1e-9


def test_it_continues_a_session_that_is_there(tmp_path: Path) -> None:
    (problem,) = stand(job(AGAIN.replace("card:", "continues: survey-9\n    card:")), tmp_path).problems
    assert problem.message == "there is no session `survey-9` before this one"
    assert problem.hint == "did you mean `survey-1`?"


def test_before_and_after_side_by_side(tmp_path: Path) -> None:
    (before,) = stand(job(AGAIN), tmp_path).packet().befores
    (change,) = before.changes
    assert (before.earlier, before.later) == ("survey-1", "survey-2")
    assert (change.title, change.whose) == ("Bore, 2 places", "cylinder A1")
    assert (change.before, change.after) == ("98.462–98.498\u202fmm", "98.510–98.512\u202fmm")
    assert change.removed == "0.014–0.048\u202fmm"  # 98.512 − 98.498 and 98.510 − 98.462


def test_a_hone_card_stands_against_the_survey(tmp_path: Path) -> None:
    honed = AGAIN.replace("cylinder-survey", "hone").replace("survey-2", "honed")
    (before,) = stand(job(honed), tmp_path).packet().befores
    assert (before.card_title, before.earlier, before.later) == ("Hone the bores", "survey-1", "honed")
    assert before.changes[0].removed == "0.014–0.048\u202fmm"


def test_no_map_of_what_is_not_measured_again(tmp_path: Path) -> None:
    """The bore of before is drawn into the map of what was honed, and nowhere else."""
    assert [one.scene.id for one in stand(job(""), tmp_path).packet().maps] == ["bore-map-cylinder-survey-A1"]
    honed = AGAIN.replace("cylinder-survey", "hone").replace("survey-2", "honed")
    maps = stand(job(honed), tmp_path).packet().maps
    assert [one.scene.id for one in maps] == ["bore-map-cylinder-survey-A1", "bore-map-hone-A1"]
    assert "before" not in maps[0].scene.view
    assert "before" in maps[1].scene.view


def test_how_warm_it_was_stands_with_it(tmp_path: Path) -> None:
    """Nothing is corrected; a reader sees that two measurings were not taken alike."""
    warm = "temperature: {} °C\n    gauge: {{bore: bore_gauge_1}}"
    text = job(AGAIN.replace("gauge: {bore: bore_gauge_1}", warm.format(24)))
    text = text.replace("gauge: {bore: bore_gauge_1}", warm.format(16), 1)
    packet = stand(text, tmp_path).packet()
    (before,) = packet.befores
    assert (before.earlier, before.later) == ("survey-1, 16\u202f°C", "survey-2, 24\u202f°C")
    assert packet.maps[0].scene.title == "Cylinder A1, survey, 24\u202f°C: sizes in mm"
