"""What a person wrote in the ledger stays to the letter; what is added comes back, from our reader and from another."""

from __future__ import annotations

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from procgen.files.problems import Place
from procgen.files.reading import read
from procgen.ledger.adding import START, added
from procgen.model.ledger import Print, Said

HERE = Place("procedures/printed.yaml")


def noted(card: str = "wear", revision: str = "K7Q2X", on: str = "2026-03-14") -> Print:
    return Print("teal", card, revision, "a5", on, "", "", HERE)


def told(text: str, revision: str = "K7Q2X") -> Said:
    return Said("teal", "wear", revision, text, HERE)


def data(text: str) -> dict[str, object]:
    document, problems = read("printed.yaml", text.encode())
    assert not problems
    assert document is not None
    assert isinstance(document.data, dict)
    return dict(document.data)


WRITTEN = {
    "none yet": "",
    "nothing in it": "format: printed/1\n",
    "empty lists": "format: printed/1\nprinted: []   # nothing so far\nrevisions: {}\n",
    "a list in brackets over lines": "format: printed/1\nprinted: [\n]\n",
    "keys without anything": "# ours\nformat: printed/1\nprinted:\n\n# and what they said\nrevisions:\n",
    "no line end": "format: printed/1\nrevisions:\n  teal/wear/AAAAA: Wear",
    "the other order": "format: printed/1\nrevisions:\n  teal/wear/AAAAA: Wear\n\n# hung by Ruth\nprinted:\n"
    "- family: teal\n  card: wear   # the one by the door\n  revision: AAAAA\n\n# end\n",
    "by hand": "format: printed/1\nprinted:\n    # the stand\n    - {family: teal, card: wear, revision: AAAAA,\n"
    "       where: stand 2}  # crooked\n    # more will follow\n\n"
    "revisions:\n    teal/wear/AAAAA: |-\n        Wear\n\n\n# end\n",
    "lines of another system": "format: printed/1\r\nprinted:\r\n- {family: teal, card: wear, revision: AAAAA}\r\n"
    "# end\r\n",
    "a mark before it": "\ufeffformat: printed/1\nprinted:\n- {family: teal, card: wear, revision: AAAAA}\n",
}


@pytest.mark.parametrize("name", WRITTEN)
def test_new_lines_go_between_those_that_are_there(name: str) -> None:
    old = WRITTEN[name]
    new, problems = added(old, [noted(), noted("care", "234E5")], [told("Wear\n  a: b # c\n\n  'd'")])
    assert not problems
    kept = (old or START).replace(" []", " ").replace(" {}", " ").replace("[\n]", "")
    assert _in_order([line.strip() for line in kept.splitlines()], [line.strip() for line in new.splitlines()])
    was, now = data(old or START), data(new)
    assert now["printed"] == [
        *(was.get("printed") or []),  # type: ignore[misc]
        {"family": "teal", "card": "wear", "revision": "K7Q2X", "stock": "a5", "on": "2026-03-14"},
        {"family": "teal", "card": "care", "revision": "234E5", "stock": "a5", "on": "2026-03-14"},
    ]
    assert now["revisions"] == {**(was.get("revisions") or {}), "teal/wear/K7Q2X": "Wear\n  a: b # c\n\n  'd'"}  # type: ignore[dict-item]
    assert new.count("\r\n") in (0, new.count("\n"))


def _in_order(some: list[str], among: list[str]) -> bool:
    left = iter(among)
    return all(line in left for line in some)


def test_another_reader_has_the_same() -> None:
    """PyYAML by itself, which reads YAML 1.1: 234E5 must be quoted, and a day may become a date."""
    new, _ = added("", [noted("care", "234E5"), noted("b", "99999")], [told("Wear: 1\n\n  # two", "234E5")])
    found = yaml.safe_load(new)
    assert [one["revision"] for one in found["printed"]] == ["234E5", "99999"]
    assert found["revisions"] == {"teal/wear/234E5": "Wear: 1\n\n  # two"}


@settings(max_examples=150)
@given(st.lists(st.text(st.characters(codec="utf-8", exclude_categories=["Cc", "Cs", "Zl", "Zp"])), min_size=1))
def test_whatever_a_card_says_comes_back(lines: list[str]) -> None:
    text = "\n".join(["Teal", *lines, "end"])
    new, problems = added("", [noted()], [told(text)])
    if problems:  # then nothing is changed
        assert new == START
        assert [problem.code for problem in problems] == ["ledger-shape"]
        assert any(not character.isprintable() or not line.strip() for line in lines for character in line or " ")
    else:
        assert data(new)["revisions"] == {"teal/wear/K7Q2X": text}


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("format: printed/1\nprinted: [{family: teal, card: wear, revision: AAAAA}]\n", (2, 10)),
        ("format: printed/1\nprinted:\n- {family: teal, card: wear, revision: AAAAA}\n...\n", (1, 1)),
        ("{format: printed/1, printed: []}\n", (1, 1)),
    ],
)
def test_a_file_with_no_room_is_left_as_it_is(text: str, place: tuple[int, int]) -> None:
    new, problems = added(text, [noted()], [told("Wear")])
    assert new == text
    assert [(one.code, (one.place.line, one.place.column)) for one in problems] == [("ledger-shape", place)]
    assert all(one.hint for one in problems)


def test_again_and_again() -> None:
    text = ""
    for number in range(2, 9):
        text, problems = added(text, [noted(revision=f"AAAA{number}")], [told(f"Wear {number}", f"AAAA{number}")])
        assert not problems
    assert text.startswith(START)
    assert [one["revision"][-1] for one in data(text)["printed"]] == list("2345678")  # type: ignore[attr-defined]
    assert list(data(text)["revisions"].values()) == [f"Wear {number}" for number in range(2, 9)]  # type: ignore[attr-defined]
