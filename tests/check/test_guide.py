"""Whoever meets a problem finds its code in the guide, with what it means and how it is mended."""

import re
from collections import Counter
from pathlib import Path

import pytest
from problem_codes import all_codes

from procgen.check.guide import guide
from procgen.trade.registry import FUNCTIONS
from procgen.units.table import UNITS

CODES = all_codes()
GUIDE = guide()
LONGEST = 60  # words: read at the keyboard, between two tries
WRONG = Path(__file__).parent / "wrong"


def test_codes_are_found_in_the_source() -> None:
    """As many as the cases of bad input bring up, among them those that only a variable or an f-string spells."""
    told = {match for says in WRONG.glob("*/says.txt") for match in re.findall(r"\[([a-z0-9-]+)\]\n", says.read_text())}
    assert len(told) > 12
    assert told <= CODES.keys()
    assert {"formula-number", "no-gauge", "otherwise", "formula-kind", "stack", "printing"} <= CODES.keys()


@pytest.mark.parametrize("code", sorted(CODES))
def test_every_code_has_its_entry(code: str) -> None:
    assert re.fullmatch(r"[a-z][a-z0-9]*(-[a-z0-9]+)*", code), f"{code!r}, told at {CODES[code]}, is no code"
    assert code in {listed for listed, _, _ in GUIDE}, f"told at {CODES[code]}"


def test_no_entry_is_idle_or_there_twice() -> None:
    assert {code for code, _, _ in GUIDE} - CODES.keys() == set()
    assert [code for code, times in Counter(code for code, _, _ in GUIDE).items() if times > 1] == []
    assert [title for title, times in Counter(title for _, title, _ in GUIDE).items() if times > 1] == []


@pytest.mark.parametrize(("code", "title", "text"), GUIDE, ids=[code for code, _, _ in GUIDE])
def test_an_entry_is_short_and_whole(code: str, title: str, text: str) -> None:
    paragraphs = text.split("\n\n")
    said = [paragraph for paragraph in paragraphs if not paragraph.startswith(" ")]
    if code not in ("unit", "unknown-function"):  # which end with a list
        assert len(text.split()) <= LONGEST
        assert all(paragraph.endswith((".", "?", ":")) for paragraph in said)
    assert 2 <= len(title.split()) <= 12
    assert not title.endswith(".")
    assert "`" not in title + text
    assert "{units}" not in text
    assert "{functions}" not in text
    assert all(len(paragraph.split("\n")) <= 2 for paragraph in paragraphs), "an example has at most two lines"


def test_what_hints_promise_stands_in_the_guide() -> None:
    """Hints send people here for the units and the functions there are."""
    texts = {code: text for code, _, text in GUIDE}
    units, functions = (set(texts[code].split("\n\n")[-1].split(", ")) for code in ("unit", "unknown-function"))
    assert {unit.symbol for unit in UNITS.values()} - {""} == units
    assert functions == FUNCTIONS.keys()
