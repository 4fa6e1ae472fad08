"""What a tired hand writes: each told at its line, with the mend; nothing dropped, nothing written over."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.packets.shed import stand
from tests.packets.test_worked_sets import WORN


def told(folder: Path, old: str, new: str, more: str = "") -> list[str]:
    text = WORN.replace("SIDE", "both")
    assert old in text
    return [problem.partition(": ")[2] for problem in stand(text.replace(old, new) + more, folder).told()]


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        pytest.param(
            "thrust: 98.498", "thrust: 98.498 N·m",
            "a length was expected; N·m is a torque; units for it: mm, cm, m, µm, in, ft",
            id="a unit of the wrong kind",
        ),
        pytest.param(
            "thrust: 98.498", "thrust: 984.98",
            "worn: bore A1 12 thrust 984.98 is not between 98.200\u202fmm and 100.900\u202fmm; meant 98.498?",
            id="ten times too large",
        ),
        pytest.param(
            "thrust: 98.498", "thrust: 89.498",
            "worn: bore A1 12 thrust 89.498 is not between 98.200\u202fmm and 100.900\u202fmm; meant 98.498?",
            id="two digits exchanged",
        ),
        pytest.param(
            "thrust: 98.498", "thrust: 38.78 in",
            "worn: bore A1 12 thrust 38.78 is not between 3.8661\u202fin and 3.9724\u202fin; meant 3.878?",
            id="told in the unit that was read",  # 98.2 / 25.4 and 100.9 / 25.4
        ),
        pytest.param(
            "120: {thrust: 98.408", "150: {thrust: 98.408",
            "depth 150 mm lies below the end of the cylinder, at 135 mm; depths are counted down from the deck",
            id="below the cylinder",
        ),
        pytest.param(
            "A1:", "A9:", "the Bittern has no cylinder `A9`; it has A1, A2, A3, A4, B1, B2, B3, B4",
            id="no such cylinder",
        ),
        pytest.param(
            "40:  {", "12.0: {", "depth 12.0 was read already; keep one of the two", id="one place twice in a session"
        ),
        pytest.param("passes", "pases", "`thumbnail` is never `pases`; did you mean `passes`?", id="no such word"),
        pytest.param("gauge: {bore: bore_gauge_1}", "gauge: {bore: bore_guage}",
            "session `survey-1` took `bore` with `bore_guage`, which no gauge is called; "
            "add `gauge: {bore: …}`, and the gauge to the job or the workshop",
            id="no such gauge",
        ),
    ],
)  # fmt: skip
def test_a_slip_is_told(old: str, new: str, expected: str, tmp_path: Path) -> None:
    assert told(tmp_path, old, new)[0] == expected


def test_it_is_told_at_its_own_line_and_column(tmp_path: Path) -> None:
    text = WORN.replace("SIDE", "both").replace("thrust: 98.498", "thrust: 984.98")
    (problem,) = stand(text, tmp_path).problems
    line = text.split("\n")[problem.place.line - 1]
    assert line[problem.place.column - 1 :].startswith("984.98")


def test_a_queried_reading_counts_for_nothing_until_confirmed(tmp_path: Path) -> None:
    text = WORN.replace("SIDE", "both")
    asked = stand(text.replace("thrust: 98.498", "thrust: 101.2"), tmp_path)
    assert asked.verdict("cylinder-survey", "hone_or_bore", "A1").state == "wanting"
    assert asked.packet().queries == ("bore A1 12 thrust 101.2: not between 98.200\u202fmm and 100.900\u202fmm.",)
    sure = text.replace("thrust: 98.498", "thrust: {is: 101.2, because: an earlier shop bored it}")
    confirmed = stand(sure, tmp_path)
    assert confirmed.problems == ()
    assert confirmed.outcome("cylinder-survey", "hone_or_bore", "A1") == "bore"


def test_depths_in_inches(tmp_path: Path) -> None:
    """0.5, 3 and 5 in are 12.7, 76.2 and 127 mm: as millimetres they all lie at the deck of a bore of 135 mm."""
    text = """
        format: job/1
        id: inches
        family: bittern
        units: {length: in}
        sessions:
          - id: survey-1
            card: cylinder-survey
            gauge: {bore: bore_gauge_1}
            cylinder:
              A1:
                bore:
                  0.5: {thrust: 3.8765, axial: 3.8760}
                  3: {thrust: 3.8755, axial: 3.8750}
                  5: {thrust: 3.8745, axial: 3.8744}
        """
    (problem,) = stand(text, tmp_path).problems
    assert (problem.code, problem.place.line) == ("depth-unit", 13)
    assert problem.message == "no depth lies more than 5 mm below the deck, of 135 mm; a depth is in mm"
    assert problem.hint == "were they inches? 5 in are 127 mm"
    mended = text.replace("0.5: {", "12.7: {").replace("3: {", "76.2: {").replace("5: {", "127: {")
    assert "depth-unit" not in {one.code for one in stand(mended, tmp_path).problems}


def test_a_gauge_without_uncertainty(tmp_path: Path) -> None:
    gauge = "gauges:\n  old_one: {kind: bore_gauge, step: 0.01 mm}\nsessions:"
    text = WORN.replace("SIDE", "both").replace("sessions:", gauge).replace("bore_gauge_1", "old_one")
    job = stand(text, tmp_path)
    (problem,) = job.problems
    assert problem.is_error
    assert problem.message == "gauge `old_one` states no uncertainty"
    assert problem.hint == "add `uncertainty: 0.004 mm` (k = 2), from its certificate"
    assert text.split("\n")[problem.place.line - 1].strip().startswith("old_one:")


def test_bore_and_journal_exchanged(tmp_path: Path) -> None:
    text = """
        format: job/1
        id: exchanged
        family: bittern
        sessions:
          - id: cam-1
            card: cam-bearings
            gauge: {cam_bore: small_bore_1, cam_journal: micrometer_50}
            cam_bearing:
              2: {shell_face: clean, shell_seat: tight, cam_bore: 48.500, cam_journal: 48.560}
        """
    exchanged = stand(text, tmp_path)
    assert exchanged.packet().queries == (
        "running clearance 2: comes out less than nothing. Were two readings exchanged?",
    )
    (problem,) = exchanged.problems
    assert problem.message == "exchanged: running clearance 2 comes out less than nothing"
    assert problem.hint == "were two readings exchanged?"
    assert problem.place.line == 10


def test_what_is_missing_is_wanting_and_never_assumed(tmp_path: Path) -> None:
    text = WORN.replace("SIDE", "both").replace("shadow: even", "shadow:")
    verdict = stand(text, tmp_path).verdict("cylinder-survey", "hone_or_bore", "A1")
    assert verdict.state == "wanting"
    assert verdict.waits_for == ("Ring shadow",)


def test_too_few_stations_are_wanting(tmp_path: Path) -> None:
    text = WORN.replace("SIDE", "both").replace("          3:   {thrust: 98.412, axial: 98.410}\n", "")
    verdict = stand(text, tmp_path).verdict("cylinder-survey", "hone_or_bore", "A1")
    assert verdict.state == "wanting"
    assert verdict.waits_for == ("Bore, at 3, 8, 41, 74, 106.5 and 122 mm below the deck, with bore gauge",)
