"""What a person types, what it answers and with which exit code."""

import json
from errno import ENOSPC
from pathlib import Path

import pytest

from procgen.cli import main


def spoil(workshop: Path) -> None:
    """One formula that cannot be."""
    path = workshop / "procedures/deck/wear.yaml"
    path.write_text(path.read_text().replace("size - geometry.bore", "size - geometry.boar"))


def typed(*words: str | Path) -> int:
    return main([str(word) for word in words])


def test_check_of_a_sound_workshop(workshop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert typed("check", "--workshop", workshop) == 0
    assert "sound: 2 families, 1 card" in capsys.readouterr().err
    assert sorted(path.name for path in workshop.iterdir()) == ["procedures"]  # it writes nothing


def test_check_tells_file_line_column_and_mend(workshop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    spoil(workshop)
    assert typed("check", "--workshop", workshop) == 1
    said = capsys.readouterr().err
    assert "procedures/deck/wear.yaml:13:21: error: nothing here is named `geometry.boar`" in said
    assert "did you mean `geometry.bore`?" in said
    assert "formula: size - geometry.boar" in said  # the line itself


def test_check_for_machines(workshop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    spoil(workshop)
    assert typed("check", "--workshop", workshop, "--json") == 1
    told = json.loads(capsys.readouterr().out)
    (problem,) = (one for one in told["problems"] if one["severity"] == "error")
    assert (problem["path"], problem["line"], problem["column"]) == ("procedures/deck/wear.yaml", 13, 21)
    assert typed("check", "--workshop", workshop, "--lines") == 1
    assert capsys.readouterr().out.startswith("procedures/deck/wear.yaml:13:21: error: ")


def test_check_where_no_workshop_is(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert typed("check", "--workshop", tmp_path) == 1
    assert "procedures/workshop.yaml" in capsys.readouterr().err


def test_words_that_are_off() -> None:
    assert typed("chekc") == 2
    assert typed("make", "--workers", "0") == 2
    assert typed("make", "--workers", "two") == 2
    assert typed("watch", "--port", "65536") == 2
    assert typed("trace", "wear", "wear") == 2  # no family
    assert typed() == 2


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("make", "--famly", "teal"), "procgen make: error: there is no `--famly` here; did you mean `--family`?\n"),
        (("check", "teal"), "procgen check: error: there is no `teal` here\n"),
    ],
)
def test_a_word_that_a_command_does_not_know(
    words: tuple[str, ...], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert typed(*words) == 2
    told = capsys.readouterr().err
    assert told.startswith(f"usage: procgen {words[0]} ")
    assert told.endswith(said)


def test_make_writes_pages_and_cards(workshop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert typed("make", "--workshop", workshop, "--workers", "1") == 0
    site = workshop / "site"
    assert {path.relative_to(site).as_posix() for path in site.rglob("*.pdf")} == {
        f"print/{family}/{name}.pdf" for family in ("teal", "smew") for name in ("wear", "deck", "sheets")
    }
    assert (site / "index.html").is_file()
    assert (site / "teal/wear.html").is_file()
    said = capsys.readouterr().err
    assert "2 cards on" in said
    assert "\r" not in said  # no bar where there is no terminal


def test_make_counts_the_blanks_that_check_lists(workshop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    family = workshop / "procedures/families/teal.yaml"
    family.write_text(family.read_text().replace("deck_clearance: 0.4", "deck_clearance: "))
    listed = "  procedures/deck/wear.yaml:2:5: deck clearance"
    assert typed("check", "--workshop", workshop) == 0
    assert listed in capsys.readouterr().err
    assert typed("make", "--workshop", workshop, "--only", "site") == 0
    said = capsys.readouterr().err
    assert "note: Teal leaves 1 figure blank on its cards [not-yet-known]\n\n`procgen check` lists" in said
    assert listed not in said
    spoil(workshop)
    assert typed("check", "--workshop", workshop) == 1
    assert listed not in capsys.readouterr().err  # first what is wrong


def test_make_leaves_old_output_alone_where_something_is_wrong(workshop: Path) -> None:
    assert typed("make", "--workshop", workshop, "--only", "site") == 0
    before = {path: path.read_bytes() for path in (workshop / "site").rglob("*") if path.is_file()}
    spoil(workshop)
    assert typed("make", "--workshop", workshop) == 1
    assert {path: path.read_bytes() for path in (workshop / "site").rglob("*") if path.is_file()} == before
    assert sorted(path.name for path in workshop.iterdir()) == ["procedures", "site"]


def test_make_takes_nothing_away_that_it_did_not_make(workshop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = sorted(workshop.rglob("*"))
    for command in (("make",), ("watch", "--port", "0")):
        assert typed(*command, "--workshop", workshop, "--out", workshop) == 2
        assert "holds the workshop itself, which would be gone; name another folder" in capsys.readouterr().err
    assert sorted(workshop.rglob("*")) == before


def test_a_disk_that_takes_nothing(
    workshop: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(out: Path) -> Path:
        raise OSError(ENOSPC, "No space left on device", str(out))

    monkeypatch.setattr("procgen.make.publish.fresh_tree", full)
    out = workshop / "elsewhere"
    assert typed("make", "--workshop", workshop, "--only", "site", "--workers", "1", "--out", out) == 1
    said = capsys.readouterr().err
    assert f"procgen make: {out}: No space left on device; the old output is untouched" in said


def test_a_template_of_the_shop_that_fails(workshop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (workshop / "templates" / "site").mkdir(parents=True)
    (workshop / "templates" / "site" / "family.html").write_text("<p>\n{% for x in %}")
    assert typed("make", "--workshop", workshop, "--only", "site") == 1
    said = capsys.readouterr().err
    assert "/index.html could not be made: TemplateSyntaxError" in said
    assert "(site/family.html, line 2)\nnothing written: " in said


def test_make_of_one_family_keeps_the_rest(workshop: Path) -> None:
    assert typed("make", "--workshop", workshop, "--workers", "1") == 0
    smew = workshop / "site/print/smew/wear.pdf"
    before = smew.stat().st_ino
    assert typed("make", "--workshop", workshop, "--family", "teal") == 0
    assert smew.stat().st_ino == before


def test_make_of_what_is_not_there(workshop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert typed("make", "--workshop", workshop, "--family", "tael") == 2
    assert capsys.readouterr().err == "procgen make: there is no family `tael`; did you mean `teal`?\n"
    assert not (workshop / "site").exists()


def test_trace_down_to_the_lines(workshop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert typed("trace", "wear", "share", "--workshop", workshop, "--family", "teal") == 0
    said = capsys.readouterr().out
    assert "share = geometry.deck_clearance / geometry.stroke" in said
    assert "procedures/families/teal.yaml:7:32" in said
    assert "80.0 mm" in said


JOB = """\
format: job/1
id: reed
title: Reed
family: teal
sessions:
  - id: first
    card: wear
    gauge: {size: bore_gauge_1}
    cylinder:
      1: {size: 70.08 mm, wall: sound}
      2: {size: 70.02 mm, wall: sound}
"""


def test_trace_of_an_engine_on_the_stand(workshop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Bore 70.0: 70.08 - 70.0 = 0.08 and 70.02 - 70.0 = 0.02."""
    (workshop / "procedures/jobs").mkdir()
    (workshop / "procedures/jobs/reed.yaml").write_text(JOB)
    for member, wear in (("1", "0.08 mm"), ("2", "0.02 mm")):
        assert typed("trace", "wear", "wear", "--workshop", workshop, "--job", "reed", "--of", member) == 0
        said = capsys.readouterr().out
        assert said.startswith(f"Teal Reed\nwear = size - geometry.bore\n    Wear: {wear}\n")
        assert "    Bore: 70.0 mm\n" in said
    assert typed("trace", "wear", "wear", "--workshop", workshop, "--job", "reed") == 0
    assert capsys.readouterr().err == "procgen trace: one for each cylinder; `--of 1` tells of one\n"
    for words, why in (
        (("--job", "reed", "--of", "3"), "there is no member `3`; known here: 1, 2"),
        (("--job", "rede"), "there is no job `rede`; did you mean `reed`?"),
        (("--job", "reed", "--variant", "x"), "--variant goes with --family; a job has its own"),
    ):
        assert typed("trace", "wear", "wear", "--workshop", workshop, *words) == 2
        assert capsys.readouterr().err == f"procgen trace: {why}\n"


def test_trace_tells_variants_that_are_alike_once(workshop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = workshop / "procedures/families/teal.yaml"
    path.write_text(
        path.read_text() + "variants: {a: {name: A}, b: {name: B}, c: {name: C, geometry: {stroke: 100}}}\n"
    )
    assert typed("trace", "wear", "share", "--workshop", workshop, "--family", "teal") == 0
    said = capsys.readouterr().out.split("\n")
    assert [line for line in said if line.startswith("Teal")] == ["Teal A, B", "Teal C"]


def test_trace_of_what_is_not_there(workshop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert typed("trace", "wear", "shaer", "--workshop", workshop, "--family", "teal") == 2
    assert "did you mean `share`?" in capsys.readouterr().err
    assert typed("trace", "wear", "xyzzy", "--workshop", workshop, "--family", "teal") == 2
    assert capsys.readouterr().err == "procgen trace: there is no value `xyzzy`; known here: wear, share\n"
    spoil(workshop)
    assert typed("trace", "wear", "share", "--workshop", workshop, "--family", "teal") == 1


@pytest.mark.parametrize("kind", ["family", "procedure", "job"])
def test_add_writes_a_file_that_passes_check(kind: str, workshop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert typed("add", kind, "Reed Warbler", "--workshop", workshop) == 0
    (written,) = workshop.rglob("reed-warbler.yaml")
    assert typed("check", "--workshop", workshop) == 0
    text = written.read_text()
    assert typed("add", kind, "Reed Warbler", "--workshop", workshop) == 1  # never over one that is there
    assert written.read_text() == text
    assert "nothing was changed" in capsys.readouterr().err


def test_add_refuses_what_makes_no_id(workshop: Path) -> None:
    assert typed("add", "family", "4711", "--workshop", workshop) == 2
