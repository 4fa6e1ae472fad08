"""The three reports, character by character, and the JSON read back."""

from __future__ import annotations

import json

from procgen.files.problems import Place, Problem, Related, error, note, warning
from procgen.files.reporters import as_json, as_lines, as_text, counted

SOURCES = {
    "families/avocet.yaml": "format: family/1\ngeometry:\n  bor: 104.20\n",
    "long.yaml": "x" * 80 + "HERE" + "y" * 80,
}

PROBLEMS = [
    error("unknown-key", "unknown key `bor`", Place("families/avocet.yaml", 3, 3), "did you mean `bore`?"),
    error(
        "duplicate-key",
        "`id` is written twice",
        Place("b.yaml", 4, 1),
        related=(Related(Place("b.yaml", 2, 1), "first written here"),),
    ),
    warning("faint", "not seen well", Place("b.yaml", 1, 1)),
    note("waits", "not yet known", Place("long.yaml", 1, 81)),
]


def test_as_text() -> None:
    assert as_text(PROBLEMS, SOURCES) == (
        "families/avocet.yaml:3:3: error: unknown key `bor` [unknown-key]\n"
        "     3 |   bor: 104.20\n"
        "       |   ^\n"
        "  mend: did you mean `bore`?\n"
        "\n"
        "b.yaml:4:1: error: `id` is written twice [duplicate-key]\n"
        "  b.yaml:2:1: first written here\n"
        "\n"
        "b.yaml:1:1: warning: not seen well [faint]\n"
        "\n"
        "long.yaml:1:81: note: not yet known [waits]\n"
        f"     1 | …{'x' * 50}HERE{'y' * 46}…\n"
        f"       |  {' ' * 50}^\n"
        "\n"
        "2 errors, 1 warning, 1 note in 3 files\n"
    )


def test_as_lines() -> None:
    assert as_lines(PROBLEMS) == (
        "b.yaml:1:1: warning: not seen well [faint]\n"
        "b.yaml:4:1: error: `id` is written twice [duplicate-key]\n"
        "families/avocet.yaml:3:3: error: unknown key `bor` (did you mean `bore`?) [unknown-key]\n"
        "long.yaml:1:81: note: not yet known [waits]\n"
    )


def test_as_json() -> None:
    whole = json.loads(as_json(PROBLEMS))
    assert whole["format"] == "problems/1"
    assert whole["counts"] == {"error": 2, "warning": 1, "note": 1}
    assert [problem["code"] for problem in whole["problems"]] == ["faint", "duplicate-key", "unknown-key", "waits"]
    assert whole["problems"][1] == {
        "severity": "error",
        "code": "duplicate-key",
        "message": "`id` is written twice",
        "hint": "",
        "path": "b.yaml",
        "line": 4,
        "column": 1,
        "related": [{"message": "first written here", "path": "b.yaml", "line": 2, "column": 1}],
    }


def test_order_of_finding_does_not_matter_to_machines() -> None:
    assert as_json(PROBLEMS) == as_json(reversed(PROBLEMS))
    assert as_lines(PROBLEMS) == as_lines(reversed(PROBLEMS))


def test_counts() -> None:
    assert counted([]) == "no problems"
    assert counted(PROBLEMS[:1]) == "1 error in 1 file"
    assert as_text([], {}) == "no problems\n"
    assert json.loads(as_json([]))["counts"] == {"error": 0, "warning": 0, "note": 0}


def test_a_place_beyond_the_file_is_told_without_a_line() -> None:
    problem: Problem = error("x", "y", Place("families/avocet.yaml", 99, 1))
    assert as_text([problem], SOURCES).startswith("families/avocet.yaml:99:1: error: y [x]\n\n")


def test_text_other_than_ascii_stays_readable() -> None:
    assert "N·m" in as_json([error("quantity", "a length was expected; N·m is a torque", Place("f"))])
