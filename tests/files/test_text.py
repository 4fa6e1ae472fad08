"""Where the characters of a text stand in the file, in every style of scalar (YAML 1.2.2, chapters 7 and 8)."""

from __future__ import annotations

import pytest

from procgen.files.document import Cursor
from procgen.files.reading import read

STYLES = {
    "plain": "t: ridge <= limit",
    "plain over lines": "t: ridge <=\n    limit and\n\n    more",
    "single quotes": "t: 'it''s a ''quoted'' text'",
    "single quotes over lines": "t: 'one\n   two ''three''\n   four'",
    "double quotes": 't: "tight, marks still in line"',
    "double quotes over lines": 't: "one\n   two\n\n   three"',
    "folded": "t: >-\n  one two\n  three\n\n  four",
    "folded, kept, commented": "t: >+  # says\n\n    one\n      two\n    three\n",
    "literal": "t: |\n  one\n    two: three\n  four\n",
    "literal, indent given": "t: |2-\n    one\n  two",
    "in a list in brackets": "t: x\nl: [first, 'second one',\n  third thing]",
    "in braces": "l: {a: b, t: one two}",
    "wider than a byte": "t: Δ°C über 20 µm – gut",
}


@pytest.mark.parametrize("style", STYLES)
def test_each_character_is_found(style: str) -> None:
    source = STYLES[style]
    lines = source.split("\n")
    document, problems = read("f", source.encode())
    assert problems == ()
    assert document is not None
    texts = list(_texts(document.root()))
    assert texts
    for cursor in texts:
        text = cursor.text()
        for offset, character in enumerate(text.value):
            if not character.isspace():
                place = text.at(offset)
                assert lines[place.line - 1][place.column - 1] == character, (offset, character, place)


def test_known_places() -> None:
    document, _ = read("f", b"when: >-\n  ridge <= limit\n  and wear > 0\n")
    assert document is not None
    text = document.root()["when"].text()
    assert text.value == "ridge <= limit and wear > 0"
    assert str(text.at(text.value.index("limit"))) == "f:2:12"
    assert str(text.at(text.value.index("wear"))) == "f:3:7"


def test_an_escape_keeps_the_line() -> None:
    document, _ = read("f", b'a: "x\\u00b0y\n  z"\n')
    assert document is not None
    text = document.root()["a"].text()
    assert text.value == "x°y z"
    assert text.at(0).line == 1
    assert text.at(len(text.value) - 1).line <= 2


def _texts(cursor: Cursor) -> list[Cursor]:
    if isinstance(cursor.value, str):
        return [cursor]
    inner = [*cursor, *(child for _, child in cursor.items())]
    return [found for child in inner for found in _texts(child)]
