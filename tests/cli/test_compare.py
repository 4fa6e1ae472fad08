"""`procgen compare`, as typed."""

from __future__ import annotations

from pathlib import Path

import pytest

from procgen.cli import main
from procgen.cli.compare import lines
from procgen.ledger.change import Change

SMALL = Path(__file__).parent.parent / "check" / "workshop"


def typed(*words: str) -> int:
    return main(["compare", "--workshop", str(SMALL), *words])


def test_what_two_families_do_not_share(capsys: pytest.CaptureFixture[str]) -> None:
    assert typed("wear", "teal", "smew") == 0
    assert (
        capsys.readouterr().out
        == """\
the family
  teal: Teal, Inline two, iron block
  smew: Smew, Inline three, iron block
reading “Size”; reading “Wall”
  teal: each cylinder: 1, 2
  smew: each cylinder: 1, 2, 3
"""
    )


def test_what_one_of_them_has_alone_says_whose_it_is() -> None:
    found = [Change("step", "step", "", "Wipe it."), Change("caution", "WARNING", "Eye injury.", "")]
    assert list(lines(found, "teal", "smew")) == [
        "step, smew only",
        "  smew: Wipe it.",
        "WARNING, teal only",
        "  teal: Eye injury.",
    ]


def test_nothing_for_the_same(capsys: pytest.CaptureFixture[str]) -> None:
    assert typed("wear", "teal", "teal") == 0
    said = capsys.readouterr()
    assert (said.out, said.err) == ("", "wear says the same of both\n")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("waer", "teal", "smew"), "there is no card `waer`; did you mean `wear`?"),
        (("wear", "teal", "smwe"), "there is no family or variant `smwe`; did you mean `smew`?"),
    ],
)
def test_names_that_are_not_there(capsys: pytest.CaptureFixture[str], words: tuple[str, ...], said: str) -> None:
    assert typed(*words) == 2
    assert capsys.readouterr().err == f"procgen compare: {said}\n"
