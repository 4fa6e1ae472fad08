"""Files against their schemas: every message as an author reads it, with the validator itself as the oracle."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from reads import sound

from procgen.files.checking import schema_problems
from procgen.files.reading import read
from procgen.files.reporters import as_lines
from procgen.files.schemas import Schemas

WRONG = Path(__file__).parent / "wrong" / "form"
"""Pairs of a file of a wrong form and what is said of it. A new pair is a new test."""

SOUND = """\
format: engine/2
id: avocet
name: Avocet
layout: {kind: vee, cylinders: 8, bank_angle: 90}
bore: 104.20
oversizes: [0.25, 1/4 in]
point: [0, 1 mm, 2]
cap_torque: {is: 95 N·m, source: shop practice}
step: 0.5
when: wear > limit
mains:
  every: {journal: 68.5}
  1: {next: {journal: 2 in}}
plugs: {MG-R: {thread: M18x1.5, hole: 4:30}}
notes: [a, b]
signed: {fitter: x}
"""


def test_a_sound_file(schemas: Schemas) -> None:
    assert schema_problems(sound(SOUND), schemas) == ()


@pytest.mark.parametrize("file", sorted(WRONG.glob("*.yaml")), ids=lambda file: str(file.stem))
def test_wrong_forms(file: Path, schemas: Schemas) -> None:
    document, problems = read(file.name, file.read_bytes())
    assert document is not None
    said = as_lines((*problems, *schema_problems(document, schemas)))
    assert said == file.with_suffix(".txt").read_text(encoding="utf-8")


def test_every_code_of_a_form_is_shown() -> None:
    texts = "".join(file.read_text(encoding="utf-8") for file in WRONG.glob("*.txt"))
    assert set(re.findall(r"\[([a-z-]+)\]$", texts, re.MULTILINE)) >= {
        "missing-key", "newer-format", "no-format", "not-a-choice", "older-format", "out-of-range", "quantity", "twice",
        "unknown-format", "unknown-key", "wrong-form", "wrong-size", "wrong-type",
    }  # fmt: skip


def test_nobody_is_shown_the_validators_words() -> None:
    texts = "".join(file.read_text(encoding="utf-8") for file in WRONG.glob("*.txt"))
    for words in ("is not valid", "schema", "instance", "property", "$", "regex", "/properties/", "Additional"):
        assert words not in texts


LINES = SOUND.splitlines()


@given(st.integers(1, len(LINES) - 1), st.sampled_from(["true", "[x]", "{y: z}", "", "5 N·m", "17"]))
def test_one_slip_is_told_at_its_line(line: int, value: str) -> None:
    """Put another value after any one key: what is wrong, if anything, is told at that line and no other."""
    schemas = _SCHEMAS
    key = LINES[line].split(":")[0]
    if LINES[line].endswith(":"):
        return  # a map over several lines; its lines have their turn
    text = "\n".join([*LINES[:line], f"{key}: {value}", *LINES[line + 1 :]])
    document, problems = read("f", text.encode())
    assert document is not None
    schemas.sound.clear()
    anew = schema_problems(document, schemas)
    assert schema_problems(sound(SOUND), schemas) == ()
    assert schema_problems(document, schemas) == anew  # of entries that are known to be sound too
    said = (*problems, *anew)
    assert {problem.place.line for problem in said} <= {line + 1}
    if any(True for _ in schemas.validator("engine").iter_errors(document.data)):
        assert said


_SCHEMAS = Schemas(Path(__file__).parent / "schemas")


def test_numbers_count_as_whole_where_they_are(schemas: Schemas) -> None:
    """JSON Schema 2020-12, §6.1.1 of validation: 8.0 is an integer."""
    document = sound(SOUND.replace("cylinders: 8", "cylinders: 8.0"))
    assert schema_problems(document, schemas) == ()


def test_what_is_known_to_be_sound_is_not_looked_into(schemas: Schemas) -> None:
    schemas.sound.clear()
    assert schema_problems(sound(SOUND), schemas) == ()
    known = dict(schemas.sound)
    assert len(known) == len(sound(SOUND).root())
    assert schema_problems(sound(SOUND.replace("bore: 104.20", "bore: 104.2")), schemas) == ()
    assert len(schemas.sound) == len(known) + 1  # another text, though the same number
    assert schema_problems(sound(SOUND.replace("95 N·m", "95 mm")), schemas) != ()
    assert schema_problems(sound("units: {length: in}\n" + SOUND), schemas) == ()
    assert len(schemas.sound) == 2 * len(known) + 2  # bare numbers mean something else


def test_each_validator_is_built_once(schemas: Schemas) -> None:
    assert schemas.validator("engine") is schemas.validator("engine")
    assert isinstance(schemas.validator("engine"), Draft202012Validator)
    assert dict(schemas.formats) == {"engine": "engine/2", "tool": "tool/1"}


def test_kind_of_a_file(schemas: Schemas) -> None:
    assert schemas.kind_of(sound(SOUND)) == ("engine", None)


def test_the_schemas_here_are_schemas(schemas: Schemas) -> None:
    assert set(schemas.by_name) == {"engine", "parts", "tool"}
    for schema in schemas.by_name.values():
        Draft202012Validator.check_schema(schema)


def test_refs_hold_with_and_without_an_id(schemas: Schemas) -> None:
    """tool.json has no $id, engine.json has one; both point into parts.json."""
    assert "$id" not in schemas.by_name["tool"]
    assert list(schemas.validator("tool").iter_errors({"format": "tool/1", "kind": "B"}))
    assert list(schemas.validator("engine").iter_errors({"format": "engine/2", "id": "B"}))
    assert not list(schemas.validator("engine").iter_errors({"format": "engine/2", "id": "b"}))
