"""Our dataclasses are Python's in all but the guard: held against `dataclasses.dataclass` on like classes."""

import dataclasses
import pickle
from typing import Any

import pytest

from procgen import values


def made(by: Any, **options: Any) -> Any:
    @by(**options)
    class Size:
        number: float
        unit: str = "mm"
        where: list[str] = dataclasses.field(default_factory=list, compare=False)

    return Size


@pytest.mark.parametrize(
    "options",
    [
        {},
        {"slots": True},
        {"frozen": True},
        {"frozen": True, "slots": True},
        {"frozen": True, "slots": True, "order": True},
        {"frozen": True, "eq": False},
    ],
)
def test_they_say_compare_and_hash_as_pythons_own(options: dict[str, Any]) -> None:
    ours, theirs = made(values.dataclass, **options), made(dataclasses.dataclass, **options)
    assert repr(ours(1.0, where=["x"])) == repr(theirs(1.0, where=["x"]))
    assert (ours(1.0) == ours(1.0, where=["x"])) == (theirs(1.0) == theirs(1.0, where=["x"]))
    assert ours(1.0) != ours(2.0)
    assert hasattr(ours, "__lt__") == hasattr(theirs, "__lt__")
    assert (ours.__hash__ is None) == (theirs.__hash__ is None)
    if options.get("frozen") and options.get("eq", True):
        assert hash(ours(1.0)) == hash(ours(1.0, where=["x"])) == hash(theirs(1.0))
    assert dataclasses.replace(ours(1.0), unit="in").unit == "in"
    assert hasattr(ours(1.0), "__dict__") == hasattr(theirs(1.0), "__dict__")


def test_a_hash_that_is_written_stays() -> None:
    @values.dataclass(frozen=True, slots=True)
    class Unit:
        symbol: str

        def __hash__(self) -> int:
            return 7

    assert hash(Unit("mm")) == 7


@values.dataclass(frozen=True, slots=True)
class Sent:
    number: float


def test_they_are_sent_to_other_processes() -> None:
    assert pickle.loads(pickle.dumps(Sent(1.0))) == Sent(1.0)


def few(by: Any) -> tuple[Any, Any, Any]:
    @by(frozen=True)
    class One:
        only: object

    @by(frozen=True)
    class Named:
        only: object

        def __repr__(self) -> str:
            return "named"

    @by(frozen=True)
    class Quiet:
        aside: object = dataclasses.field(default=None, repr=False)

    return One, Named, Quiet


@pytest.mark.parametrize("by", [values.dataclass, dataclasses.dataclass])
def test_a_value_of_few_fields_is_told_and_compared_by_these(by: Any) -> None:
    one, named, quiet = few(by)
    assert [repr(one("{}")), repr(named(1)), repr(quiet())] == [
        "few.<locals>.One(only='{}')",
        "named",
        "few.<locals>.Quiet()",
    ]
    assert one(1) == one(1)
    assert one(1) != named(1)
    assert one(1) != one((1,))
    assert hash(one(1)) == hash((1,))
    assert one(1).__eq__(1) is NotImplemented
