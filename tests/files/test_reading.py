"""Reading a file: data, places, and the words for everything that is refused."""

from __future__ import annotations

import math
import pickle
import re
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from procgen.files import reading
from procgen.files.document import Cursor, Document, Number
from procgen.files.problems import Problem
from procgen.files.reading import read
from procgen.files.reporters import as_lines
from procgen.files.scalars import is_empty, is_number, refusal

LOADERS = [yaml.SafeLoader, *([yaml.CSafeLoader] if hasattr(yaml, "CSafeLoader") else [])]


@pytest.fixture(params=LOADERS, ids=lambda loader: str(loader.__name__))
def _either_loader(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """With libyaml and without."""
    monkeypatch.setattr(reading, "_LOADER", request.param)


def _read(text: str) -> Document:
    document, problems = read("f.yaml", text.encode())
    assert problems == ()
    assert document is not None
    return document


def _said(text: str | bytes) -> list[tuple[str, str, str, str]]:
    content = text if isinstance(text, bytes) else text.encode()
    return [(_at(problem), problem.code, problem.message, problem.hint) for problem in read("f", content)[1]]


def _at(problem: Problem) -> str:
    return f"{problem.place.line}:{problem.place.column}"


SHAPES = """\
# a comment
id: avocet
geometry:
  bore: 104.20
  rod_length:
clock: 12:00
1: {x: 35, "y z": 'it''s'}
list: [a, 0.0010,
  "c d"]
says: >-
  one
  two
"""


@pytest.mark.usefixtures("_either_loader")
def test_data_and_places() -> None:
    root = _read(SHAPES).root()
    assert root.value == {
        "id": "avocet",
        "geometry": {"bore": 104.2, "rod_length": None},
        "clock": "12:00",
        "1": {"x": 35, "y z": "it's"},
        "list": ["a", 0.001, "c d"],
        "says": "one two",
    }
    places = {
        "id": root["id"].place,
        "geometry": root.key_place("geometry"),
        "bore": root["geometry"]["bore"].place,
        "bore's key": root["geometry"].key_place("bore"),
        "x": root["1"]["x"].place,
        "y z": root["1"].key_place("y z"),
        "c d": root["list"][2].place,
        "says": root["says"].place,
    }
    assert {name: (place.line, place.column) for name, place in places.items()} == {
        "id": (2, 5),
        "geometry": (3, 1),
        "bore": (4, 9),
        "bore's key": (4, 3),
        "x": (7, 8),
        "y z": (7, 12),
        "c d": (9, 3),
        "says": (10, 7),
    }
    assert str(root["id"].place) == "f.yaml:2:5"


def test_numbers_keep_their_text() -> None:
    root = _read(SHAPES).root()
    number = root["list"][1].number()
    assert (number, number.text) == (0.001, "0.0010")
    assert root["geometry"]["bore"].text().value == "104.20"


def test_cursor() -> None:
    root = _read(SHAPES).root()
    assert [cursor.value for cursor in root["list"]] == ["a", 0.001, "c d"]
    assert [key for key, _ in root.items()] == ["id", "geometry", "clock", "1", "list", "says"]
    assert root.get("nothing") is None
    empty = root["geometry"].get("rod_length")
    assert empty is not None
    assert empty.is_empty
    assert empty.text().value == ""
    assert root["geometry"].known("rod_length") is None
    assert "id" in root
    assert len(root["list"]) == 3
    assert bool(root["geometry"]["rod_length"])
    assert root.doc.at(("list", 0)) == root["list"][0]
    assert list(root["id"]) == []
    assert list(root["id"].items()) == []
    with pytest.raises(TypeError):
        root["list"].text()
    with pytest.raises(TypeError):
        root["id"].number()
    with pytest.raises(KeyError):
        root["nothing"]


def test_a_byte_order_mark_changes_nothing() -> None:
    document, problems = read("f.yaml", b"\xef\xbb\xbfid: x\n")
    assert problems == ()
    assert document is not None
    assert document.root().key_place("id").column == 1


def test_windows_line_ends() -> None:
    document = _read("id: x\r\nlist:\r\n  - a\r\n  - b c\r\n")
    assert document.data == {"id": "x", "list": ["a", "b c"]}
    assert document.root()["list"][1].place.line == 4
    assert document.root()["list"][1].node.raw == "b c"


WRONG = Path(__file__).parent / "wrong" / "reading"
"""Pairs of a file that is refused and what is said of it. A new pair is a new test."""


@pytest.mark.usefixtures("_either_loader")
@pytest.mark.parametrize("file", sorted(WRONG.glob("*.yaml")), ids=lambda file: str(file.stem))
def test_refused(file: Path) -> None:
    said = file.with_suffix(".txt").read_text(encoding="utf-8")
    if file.stem == "backslash" and reading._LOADER is yaml.SafeLoader:
        said = said.replace(":6:", ":7:")  # without libyaml the escape's letter is marked, not its backslash
    if file.stem == "no-space-inside" and reading._LOADER is yaml.SafeLoader:
        said = ""  # without libyaml it is read as it is meant
    assert as_lines(read(file.name, file.read_bytes())[1]) == said


def test_every_refusal_is_there() -> None:
    """The pairs between them show each code that reading has, but for those with a test of their own."""
    codes = set(re.findall(r"\[([a-z-]+)\]$", "".join(f.read_text() for f in WRONG.glob("*.txt")), re.MULTILINE))
    assert codes == {
        "alias", "anchor", "cut-short", "duplicate-key", "empty-file", "hidden-break", "look-alike", "merge-key",
        "odd-key", "odd-quote", "second-document", "stray-entry", "tab", "tag", "yaml",
    }  # fmt: skip


def test_everything_wrong_is_told_at_once() -> None:
    text = "a: true\nb: 010\nb: 1\nc: {d: e, f}\ng: no\nh: 4:30\ni: 2026-01-02\n"
    assert [(at, code) for at, code, _, _ in _said(text)] == [
        ("1:4", "look-alike"),
        ("2:4", "look-alike"),
        ("3:1", "duplicate-key"),
        ("4:11", "stray-entry"),
    ]
    document, _ = read("f", text.encode())
    assert document is not None
    assert document.data == {"a": "true", "b": "010", "c": {"d": "e"}, "g": "no", "h": "4:30", "i": "2026-01-02"}
    assert document.faulty == {("a",), ("b",), ("c", "d")}


def test_a_duplicate_names_the_first() -> None:
    _, (problem,) = read("f", b"a: 1\nb: 2\na: 3\n")
    assert [(str(other.place), other.message) for other in problem.related] == [("f:1:1", "first written here")]


def test_an_open_bracket_is_named() -> None:
    _, (problem,) = read("f", b"a:\n  b: {c: d\n  e: f\n")
    assert [(str(other.place), other.message) for other in problem.related] == [("f:2:6", "opened here")]


def test_not_utf_8() -> None:
    assert _said(b"a: b\nc: 20 " + "°C".encode("latin-1")) == [
        (
            "2:7",
            "not-utf-8",
            "byte 12 of the file (0xB0) is not UTF-8",
            "save the file as UTF-8 (in the editor: Save with encoding)",
        )
    ]
    assert _said("a: b".encode("utf-16"))[0][:2] == ("1:1", "not-utf-8")


def test_too_big() -> None:
    content = b"a: " + b"x" * (2 * 1024 * 1024)
    assert _said(content) == [("1:1", "too-big", "the file is 2.0 MiB; at most 2 MiB are read", "split the file")]


def test_too_deep() -> None:
    assert _said("a: " + "[" * 41 + "]" * 41) == [
        ("1:44", "too-deep", "entries are nested more than 40 deep", "check brackets and indents")
    ]
    assert _said("a: " + "[" * 39 + "x" + "]" * 39) == []
    assert _said("a: " + "[" * 500_000)[0][1] == "too-deep"


def test_too_much() -> None:
    assert _said("[" + "a," * 100_001 + "]")[0][1:] == (
        "too-much",
        "the file holds more than 100000 entries",
        "split the file",
    )


def _is_text(word: str) -> bool:
    return refusal(word) is None and not is_number(word) and not is_empty(word)


_CHARACTERS = st.characters(codec="utf-8", exclude_categories=("Cs", "Cc", "Zl", "Zp"), exclude_characters="\ufeff")
_WORDS = st.text(_CHARACTERS, max_size=12).filter(lambda word: not word or _is_text(word))
"""PyYAML writes YAML 1.1, where 0E0 and 0o7 are texts and go without quotes; such words are left out."""
_DATA = st.recursive(
    st.none() | _WORDS | st.integers(-(10**6), 10**6),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(_WORDS.filter(bool), inner, max_size=4),
    max_leaves=12,
)  # fmt: skip


@given(st.dictionaries(_WORDS.filter(bool), _DATA, min_size=1, max_size=4), st.booleans())
def test_reads_what_pyyaml_writes(data: dict[str, Any], flow: bool) -> None:
    """PyYAML quotes every text that it could take for something else, so what it dumps comes back as it was."""
    dumped = yaml.safe_dump(data, allow_unicode=True, default_flow_style=flow)
    document, problems = read("f.yaml", dumped.encode())
    assert {problem.code for problem in problems} <= {"odd-quote"}  # a warning: such a text may well be meant
    assert document is not None
    assert document.data == data
    _each_raw_is_where_it_says(document.root(), dumped)


def _each_raw_is_where_it_says(cursor: Cursor, source: str) -> None:
    if isinstance(cursor.value, (str, Number)):
        line = source.split("\n")[cursor.place.line - 1]
        assert line[cursor.place.column - 1 :].startswith(cursor.node.raw.split("\n")[0])
    for child in [*cursor, *(inner for _, inner in cursor.items())]:
        _each_raw_is_where_it_says(child, source)


@given(st.binary(max_size=60) | st.text("ab:{}[],-&*!|>'\"\n #%@`?\t1.0", max_size=40).map(str.encode))
def test_any_bytes_are_read_or_told(content: bytes) -> None:
    document, problems = read("f", content)
    assert document is not None or problems
    assert all(problem.message and problem.place.line >= 1 and problem.place.column >= 1 for problem in problems)


def test_numbers_travel_between_processes() -> None:
    number = pickle.loads(pickle.dumps(Number("0.0010")))
    assert (number, number.text) == (0.001, "0.0010")
    assert math.isclose(number + 1, 1.001)
