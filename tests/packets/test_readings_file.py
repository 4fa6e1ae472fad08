"""Readings from a CSV file give the same verdicts as the same readings by hand; a faulty row is told at its column."""

from __future__ import annotations

from pathlib import Path

import pytest

from procgen.cli.ways import read
from procgen.make.jobs import Settled, work_out
from tests.demo import ROOT
from tests.packets.test_worked_sets import WORN

HEAD = "card,session,on,by,gauge,reading,cylinder,depth,axis,value\n"
SEEN = ("shadow,even", "wall,sound", "hatch,worn", "thumbnail,passes", "wear_side,both")
SIZES = {"3": ("98.412", "98.410"), "12": ("98.498", "98.462"), "40": ("98.470", "98.448"), "75": ("98.446", "98.436"),
         "105": ("98.430", "98.424"), "120": ("98.408", "98.408")}  # fmt: skip


def rows() -> list[str]:
    start = "cylinder-survey,survey-1,2026-03-14,R. Teal"
    found = [f"{start},,ring_plan,,,,new"]
    found += [f"{start},,{name},A1,,,{word}" for name, word in (one.split(",") for one in SEEN)]
    for depth, pair in SIZES.items():
        for way, size in zip(("thrust", "axial"), pair, strict=True):
            found.append(f"{start},bore_gauge_1,bore,A1,{depth},{way},{size}")
    return found


def settled(folder: Path, job: str, table: str | None = None) -> Settled:
    (folder / "worn.yaml").write_text(job, "utf-8")
    if table is not None:
        (folder / "bore.csv").write_text(table, "utf-8")
    return work_out(ROOT, str(folder / "worn.yaml"), None if table is None else folder / "bore.csv", read)


ALONE = WORN[: WORN.index("  - id: survey-1")]


@pytest.mark.parametrize("separator", [",", ";", "\t"])
def test_the_same_verdicts_as_by_hand(separator: str, tmp_path: Path) -> None:
    by_hand = settled(tmp_path, WORN.replace("SIDE", "both"))
    table = (HEAD + "\n".join(rows()) + "\n").replace(",", separator)
    by_file = settled(tmp_path, ALONE, table)
    assert by_file.problems == ()
    assert by_hand.judged is not None
    assert by_file.judged is not None
    assert by_file.judged.verdicts == by_hand.judged.verdicts
    assert any(verdict.margins for verdict in by_file.judged.verdicts)


@pytest.mark.parametrize(
    ("row", "line", "column", "message", "hint"),
    [
        ("cylinder-survey,s,,,,bore,A1,12,thrust,98.498 kg", 2, 40, "a length was expected; kg is a mass", ""),
        ("cylinder-survey,s,,,,bore,A9,12,thrust,98.498", 2, 27, "the Bittern has no cylinder `A9`", "A1"),
        ("cylinder-survey,s,,,,boar,A1,12,thrust,98.498", 2, 22,
         "the card `cylinder-survey` takes no reading `boar` here", "`bore`"),
        ("cylinder-survey,s,,,,bore,A1,12,trust,98.498", 2, 33, "`bore` is not read `trust`", "`thrust`"),
        (",s,,,,bore,A1,12,thrust,98.498", 2, 7, "`bore` is read for cylinder-survey and hone", "column `card`"),
        ("cylinder-survey,s,14.3.,,,bore,A1,12,thrust,98.498", 2, 19, "`14.3.` is no day", "year-month-day"),
        ("cylinder-survey,s,,,,bore,A1,12", 2, 1, "8 fields here, 10 columns above", "too many or too few"),
    ],
)  # fmt: skip
def test_a_faulty_row(row: str, line: int, column: int, message: str, hint: str, tmp_path: Path) -> None:
    found = settled(tmp_path, ALONE, f"{HEAD}{row}\n")
    assert found.packet is None
    problem = next(problem for problem in found.problems if problem.is_error)
    assert problem.message == message
    assert hint in problem.hint
    assert (problem.place.line, problem.place.column) == (line, column)
    assert problem.place.path.endswith("bore.csv")


def test_one_place_twice(tmp_path: Path) -> None:
    twice = "cylinder-survey,s,,,bore_gauge_1,bore,A1,12,thrust,98.498\n"
    found = settled(tmp_path, ALONE, HEAD + twice + twice.replace("98.498", "98.489"))
    (problem,) = found.problems
    assert problem.message == "bore cylinder A1 12 thrust was read already"
    assert problem.place.line == 3
    assert [related.place.line for related in problem.related] == [2]


def test_a_column_that_nobody_knows(tmp_path: Path) -> None:
    found = settled(tmp_path, ALONE, HEAD.replace("depth", "dephts") + "\n".join(rows()))
    assert [(p.message, p.hint) for p in found.problems] == [
        ("there is no column `dephts`", "did you mean `depth`?"),
    ]


def test_rows_that_go_on_with_an_earlier_session(tmp_path: Path) -> None:
    """One place read again replaces that place alone."""
    head = HEAD.replace("session,", "session,continues,")
    again = "cylinder-survey,again,survey-1,,,bore_gauge_1,bore,A1,12,thrust,98.500\n"
    found = settled(tmp_path, WORN.replace("SIDE", "both"), head + again)
    session = "  - {id: again, card: cylinder-survey, continues: survey-1, gauge: {bore: bore_gauge_1},\n"
    more = f"{session}     cylinder: {{A1: {{bore: {{12: {{thrust: 98.500}}}}}}}}}}\n"
    by_hand = settled(tmp_path, WORN.replace("SIDE", "both") + more)
    assert found.problems == ()
    assert found.judged is not None
    assert by_hand.judged is not None
    assert found.judged.verdicts == by_hand.judged.verdicts
