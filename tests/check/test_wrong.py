"""Every kind of bad input, and exactly what is said of it.

A case is a folder in wrong/: the files that differ from workshop/, and says.txt with all that `check --lines` says of
errors and warnings. To add one, make the folder, run the test, and read what it says as the person who made the slip.
"""

import shutil
from pathlib import Path

import pytest

from procgen.files.problems import Severity
from procgen.files.reporters import as_lines
from procgen.make.checking import read_and_check

HERE = Path(__file__).parent
CASES = sorted(path.name for path in (HERE / "wrong").iterdir() if path.is_dir())


def said(root: Path) -> str:
    checked = read_and_check(root, Path.read_bytes)
    return as_lines(problem for problem in checked.problems if problem.severity is not Severity.NOTE)


def test_there_are_cases() -> None:
    assert len(CASES) >= 14


def test_the_workshop_itself_is_sound() -> None:
    assert said(HERE / "workshop") == ""


@pytest.mark.parametrize("case", CASES)
def test_what_is_said(case: str, tmp_path: Path) -> None:
    shutil.copytree(HERE / "workshop", tmp_path, dirs_exist_ok=True)
    shutil.copytree(HERE / "wrong" / case, tmp_path, dirs_exist_ok=True, ignore=shutil.ignore_patterns("says.txt"))
    assert said(tmp_path) == (HERE / "wrong" / case / "says.txt").read_text()


def test_a_rule_in_the_wrong_unit_is_shown_where_it_is_stated(tmp_path: Path) -> None:
    """The formula says what does not fit; that the slip is the rule's, only a person can see."""
    shutil.copytree(HERE / "workshop", tmp_path, dirs_exist_ok=True)
    shop = tmp_path / "procedures" / "workshop.yaml"
    written = shop.read_text()
    assert "is: 0.10 mm" in written
    shop.write_text(written.replace("is: 0.10 mm", "is: 0.10 kg"))
    line = written[: written.index("wear_max")].count("\n") + 1
    told = [one for one in read_and_check(tmp_path, Path.read_bytes).problems if one.is_error]
    assert told
    for problem in told:
        (rule,) = problem.related
        assert (rule.place.path, rule.place.line) == ("procedures/workshop.yaml", line)
        assert rule.message == "`shop.wear_max` is a mass"


def test_a_step_ahead_of_its_families_is_awaited(tmp_path: Path) -> None:
    for folder in (HERE / "workshop", HERE / "wrong" / "step-for-nobody"):
        shutil.copytree(folder, tmp_path, dirs_exist_ok=True)
    shop = tmp_path / "procedures" / "workshop.yaml"
    written = shop.read_text()
    shop.write_text(written + "awaits: {block.material: [aluminium], engine.banks: two}\n")
    assert said(tmp_path) == ""
    shop.write_text(written + "awaits: {block.material: aluminium, engine.banks: too}\n")
    told = "procedures/workshop.yaml:10:51: error: `engine.banks` can't be `too` (did you mean `two`?) [trait-value]\n"
    assert said(tmp_path) == told


def test_a_family_that_says_little_yet_takes_every_step(tmp_path: Path) -> None:
    """What depends on a trait that is not yet known stands, so nothing is told of it."""
    for folder in (HERE / "workshop", HERE / "wrong" / "step-for-nobody"):
        shutil.copytree(folder, tmp_path, dirs_exist_ok=True)
    new = "format: family/1\nid: pintail\nname: Pintail\n"
    (tmp_path / "procedures" / "families" / "pintail.yaml").write_text(new)
    assert said(tmp_path) == ""
