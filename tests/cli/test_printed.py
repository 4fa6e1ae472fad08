"""`procgen printed` and `procgen reprint`, as typed."""

from __future__ import annotations

import json
from datetime import date, timedelta
from pathlib import Path

import pytest

from procgen.cli import main

WEAR = "procedures/deck/wear.yaml"
LEDGER = "procedures/printed.yaml"


def typed(workshop: Path, *words: str | Path) -> int:
    return main([str(word) for word in (words[0], "--workshop", workshop, *words[1:])])


def edit(workshop: Path, path: str, old: str, new: str) -> None:
    text = (workshop / path).read_text()
    assert old in text
    (workshop / path).write_text(text.replace(old, new))


def test_there_and_back(workshop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert typed(workshop, "reprint") == 0
    assert capsys.readouterr().err == "no printed card is noted as hanging\n"
    assert typed(workshop, "printed", "--date", "2026-03-14") == 0
    assert capsys.readouterr().err == f"{workshop / LEDGER}: 2 cards noted\n"
    assert typed(workshop, "check") == 0
    capsys.readouterr()
    assert typed(workshop, "reprint") == 0
    said = capsys.readouterr()
    assert (said.out, said.err) == ("", "all 2 printed cards are current\n")
    edit(workshop, WEAR, "Wipe it first.", "Wipe it dry.")
    assert typed(workshop, "reprint") == 3
    said = capsys.readouterr()
    assert said.out.startswith(
        "Smew, Teal: step “Measure the bore.”: Wipe it first. → Wipe it dry.\n"
        "    card: wear\n\nTake down, and print anew:\n"
    )
    assert said.err == "2 of 2 printed cards are superseded\n"
    assert typed(workshop, "printed", "--family", "teal") == 0
    capsys.readouterr()
    assert typed(workshop, "reprint") == 3  # Smew's hangs on
    assert capsys.readouterr().err == "1 of 2 printed cards is superseded\n"
    assert typed(workshop, "printed") == 0
    assert typed(workshop, "reprint") == 0


def test_twice_is_once_and_nothing_is_lost(workshop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert typed(workshop, "printed", "--date", "2026-03-14", "--card", "wear") == 0
    before = (workshop / LEDGER).read_text()
    assert typed(workshop, "printed", "--date", "2026-03-14") == 0
    assert capsys.readouterr().err.endswith("2 were noted already\n")
    assert (workshop / LEDGER).read_text() == before
    assert typed(workshop, "printed", "--date", "2026-05-02", "--stock", "a6", "--family", "smew") == 0
    after = (workshop / LEDGER).read_text()
    new = set(after.splitlines()) - set(before.splitlines())
    assert len(new) == 1
    assert typed(workshop, "reprint") == 0
    assert capsys.readouterr().err.endswith("all 3 printed cards are current\n")  # both stocks of Smew's hang
    assert new.pop().endswith(", stock: a6, on: 2026-05-02}")
    assert set(before.splitlines()) <= set(after.splitlines())


def test_today_where_no_day_is_given(workshop: Path) -> None:
    assert typed(workshop, "printed") == 0
    assert f"on: {date.today().isoformat()}}}" in (workshop / LEDGER).read_text()


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--date", "2026-02-30"], "there is no day `2026-02-30`; write year-month-day, as in 2026-03-14"),
        (["--date", "14.3.2026"], "there is no day `14.3.2026`; write year-month-day, as in 2026-03-14"),
        (["--date", "2999-01-01"], "2999-01-01 is still to come; today is "),
        (["--family", "tael"], "there is no family `tael`; did you mean `teal`?"),
        (["--card", "waer"], "there is no card `waer`; did you mean `wear`?"),
        (["--stock", "a55"], "there is no stock `a55`; did you mean `a5`?"),
    ],
)
def test_words_that_are_off(workshop: Path, capsys: pytest.CaptureFixture[str], words: list[str], said: str) -> None:
    assert typed(workshop, "printed", *words) == 2
    assert said in capsys.readouterr().err
    assert not (workshop / LEDGER).exists()


def test_tomorrow_is_still_to_come(workshop: Path) -> None:
    assert typed(workshop, "printed", "--date", str(date.today() + timedelta(days=1))) == 2


@pytest.mark.parametrize("command", ["printed", "reprint"])
@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("format: printed/1\nprinted:\n  - {family: teal, card: wear, revision: K7Q0X}\n", f"{LEDGER}:3:42: error: "),
        ("format: printed/1\nprinted: [\n", f"{LEDGER}:2:11: error: "),
    ],
)
def test_a_broken_ledger_stops_both(
    workshop: Path, capsys: pytest.CaptureFixture[str], command: str, text: str, said: str
) -> None:
    (workshop / LEDGER).write_text(text)
    assert typed(workshop, command) == 1
    assert said in capsys.readouterr().err
    assert (workshop / LEDGER).read_text() == text
    assert [path.name for path in (workshop / "procedures").iterdir() if "printed" in path.name] == ["printed.yaml"]


def test_a_ledger_that_cannot_be_read(
    workshop: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    (workshop / LEDGER).write_text("format: printed/1\n")

    def refuse(path: Path) -> bytes:
        if path.name == "printed.yaml":
            raise PermissionError(13, "Permission denied")
        return path.read_bytes()

    monkeypatch.setattr("procgen.cli.printed.read", refuse)
    assert typed(workshop, "printed") == 1
    assert f"{LEDGER}:1:1: error: the file can't be read: Permission denied" in capsys.readouterr().err
    assert (workshop / LEDGER).read_text() == "format: printed/1\n"


def test_while_somebody_else_is_noting(workshop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (workshop / "procedures/.printed.yaml.new").write_text("half")
    assert typed(workshop, "printed") == 1
    assert "somebody else is noting" in capsys.readouterr().err
    assert not (workshop / LEDGER).exists()


def test_a_ledger_without_room(workshop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text = "format: printed/1\nprinted: [{family: teal, card: wear, revision: AAAAA}]\n"
    (workshop / LEDGER).write_text(text)
    assert typed(workshop, "printed") == 1
    said = capsys.readouterr().err
    assert f"{LEDGER}:2:10: error: nothing can be added to `printed` as it is written" in said
    assert said.endswith("nothing was noted\n")
    assert (workshop / LEDGER).read_text() == text


def test_what_was_printed_is_not_what_would_be_noted(workshop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The site on the disk was made before the last edit: so were the cards printed from it."""
    assert typed(workshop, "make", "--only", "site") == 0
    edit(workshop, WEAR, "Wipe it first.", "Wipe it dry.")
    capsys.readouterr()
    assert typed(workshop, "printed") == 1
    said = capsys.readouterr().err
    assert said.count("was made in revision") == 2
    assert "nothing was noted: procgen make, print what it makes, then note it" in said
    assert not (workshop / LEDGER).exists()
    assert typed(workshop, "make", "--only", "site") == 0
    assert typed(workshop, "printed") == 0


def test_for_machines(workshop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert typed(workshop, "printed", "--date", "2026-03-14") == 0
    edit(workshop, WEAR, "Wipe it first.", "Wipe it dry.")
    capsys.readouterr()
    assert typed(workshop, "reprint", "--json") == 3
    told = json.loads(capsys.readouterr().out)
    assert told["format"] == "reprint/1"
    assert [(one["family"], one["state"], one["on"]) for one in told["hanging"]] == [
        ("smew", "superseded", "2026-03-14"),
        ("teal", "superseded", "2026-03-14"),
    ]
    (cause,) = told["causes"]
    assert cause == {
        "kind": "step", "what": "step “Measure the bore.”", "was": "Wipe it first.", "now": "Wipe it dry.",
        "follows": [], "cards": ["smew/wear", "teal/wear"],
    }  # fmt: skip
    (workshop / LEDGER).write_text("format: printed/1\nprinted: 7\n")
    assert typed(workshop, "reprint", "--json") == 1
    (problem,) = json.loads(capsys.readouterr().out)["problems"]
    assert (problem["path"], problem["line"]) == (LEDGER, 2)


def test_a_family_that_has_gone(workshop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Its cards hang on: told, but no reason not to build."""
    assert typed(workshop, "printed", "--date", "2026-03-14") == 0
    (workshop / "procedures/families/smew.yaml").unlink()
    capsys.readouterr()
    assert typed(workshop, "reprint") == 3
    said = capsys.readouterr()
    assert "No longer in the deck:\n  family  card  says" in said.out
    assert said.err == "1 of 2 printed cards is no longer in the deck\n"
    assert typed(workshop, "check") == 0
    assert "a card of `smew` is noted as printed, but no family has that id" in capsys.readouterr().err
    text = (workshop / LEDGER).read_text()
    entry = next(line for line in text.splitlines() if "smew" in line and "on:" in line)
    (workshop / LEDGER).write_text(text.replace(entry, entry.replace("}", ", down: 2026-05-02}")))
    assert typed(workshop, "reprint") == 0
