"""Plain scalars against the examples of the YAML 1.2.2 specification, and what is refused beyond it."""

from __future__ import annotations

import math

import pytest

from procgen.files.scalars import is_empty, is_number, refusal

SPEC_10_9 = {
    # YAML 1.2.2, §10.3.2, example 10.9 "Core Tag Resolution"
    "null": None,
    "": None,
    "true": True,
    "True": True,
    "false": False,
    "FALSE": False,
    "0": 0,
    "0o7": 7,
    "0x3A": 58,
    "-19": -19,
    "0.": 0.0,
    "-0.0": -0.0,
    ".5": 0.5,
    "+12e03": 12000.0,
    "-2E+05": -200000.0,
    ".inf": math.inf,
    "-.Inf": -math.inf,
    "+.INF": math.inf,
}


@pytest.mark.parametrize("text", SPEC_10_9)
def test_core_schema(text: str) -> None:
    """Empty and decimal numbers are taken as the specification has them; what it has besides is refused."""
    value = SPEC_10_9[text]
    is_decimal = type(value) in (int, float) and math.isfinite(value or 0) and text[:2] not in ("0o", "0x")
    assert is_empty(text) == (value is None)
    assert is_number(text) == is_decimal
    assert (refusal(text) is None) == (value is None or is_decimal)
    assert not is_decimal or float(text) == value


def test_not_a_number() -> None:
    assert not is_number(".NAN")
    assert refusal(".NAN") is not None


@pytest.mark.parametrize("text", ["~", "Null", "NULL"])
def test_other_spellings_of_null(text: str) -> None:
    """The regular expression of the table in §10.3.2: null | Null | NULL | ~ and empty."""
    assert is_empty(text)


@pytest.mark.parametrize(
    "text",
    [
        "no",
        "on",
        "yes",
        "4:30",
        "12:00",
        "2026-01-02",
        "1_000",
        "0b101",
        "5/16",
        "10-32",
        "+.",
        ".",
        "1e",
        "nUll",
        "1 2",
    ],
)
def test_everything_else_is_text(text: str) -> None:
    """Neither YAML 1.1's sexagesimals, dates and binaries nor its yes and no are in the core schema."""
    assert not is_number(text)
    assert not is_empty(text)


@pytest.mark.parametrize(
    ("text", "message", "hint"),
    [
        (
            "true",
            "`true` is a yes-or-no value, and files here have none: a choice is a word",
            'write a word, or "true" in quotes where the text is meant',
        ),
        (
            "010",
            "`010` begins with a nought: some readers take it for octal",
            'write `10`, or "010" in quotes where the text is meant',
        ),
        (
            "-00.5",
            "`-00.5` begins with a nought: some readers take it for octal",
            'write `-0.5`, or "-00.5" in quotes where the text is meant',
        ),
        (
            "1_000",
            "`1_000` looks like a number and is none",
            'write `1000`, or "1_000" in quotes where the text is meant',
        ),
        (
            "0x1F",
            "`0x1F` is not written as a decimal number",
            'write an ordinary decimal number, or "0x1F" in quotes where the text is meant',
        ),
        (
            ".inf",
            "`.inf` is not a finite number",
            "write a number, or leave it empty while it is not yet known",
        ),
        (
            "1e999",
            "`1e999` is too large for a number",
            'write a smaller number, or "1e999" in quotes where the text is meant',
        ),
    ],
)
def test_refusals(text: str, message: str, hint: str) -> None:
    assert refusal(text) == (message, hint)


@pytest.mark.parametrize("text", ["False", "0o7", "0b1", "-.INF", ".NaN", "007", "1_0.5"])
def test_more_refusals(text: str) -> None:
    assert refusal(text) is not None


@pytest.mark.parametrize(
    "text", ["0", "0.5", "-0.5", "10", "1e3", "no", "4:30", "12:00", "2026-01-02", "1/8-27 NPT", "_1"]
)
def test_let_through(text: str) -> None:
    assert refusal(text) is None
