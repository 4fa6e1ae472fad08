"""Values of the model come back equal, and nothing but those can be had from stored bytes."""

from __future__ import annotations

import pickle
from fractions import Fraction
from pathlib import Path

import pytest

from procgen.files.document import Node
from procgen.files.problems import Place
from procgen.files.stored import restore, store
from procgen.model.card import Deck, FamilySheet, Figure, Row
from procgen.units.dimension import LENGTH
from procgen.units.quantity import parse_quantity
from procgen.units.table import CLOCK_FACE, UNITS

SHEET = FamilySheet(
    "bittern", "Bittern", "", (), (Row("geometry.bore", "bore", (Figure("98", "mm"),)),), (("kind", "\u202f½", ""),), ()
)


EXACT = parse_quantity("0.0010 in", LENGTH)


@pytest.mark.parametrize(
    "value", [None, 1.5, "\u2265 ½", (1, "a"), {"a": (True, None)}, ["b"], Deck(SHEET, ()), EXACT, Fraction(1, 3)]
)
def test_it_comes_back_equal(value: object) -> None:
    found = restore(store(value))
    assert found == value
    assert repr(found) == repr(value)


class Runs:
    """Calls anything when it is read, as pickle alone would let it."""

    def __reduce__(self) -> tuple[object, tuple[str]]:
        return eval, ("1 + 1",)


class Named:
    """Takes another's module and name."""


NODE = Node(None, Place("a.yaml"))


@pytest.mark.parametrize("value", [Runs(), Path("a"), NODE, print, Deck.__init__])
def test_nothing_else_can_be_had(value: object) -> None:
    """See “Restricting Globals” in Python's documentation of pickle."""
    assert pickle.loads(pickle.dumps(value)) is not None
    with pytest.raises(pickle.UnpicklingError):
        restore(pickle.dumps(value))


def test_nor_what_the_model_imports() -> None:
    content = b"cprocgen.model.card\nMapping\n."
    assert pickle.loads(content) is not None
    with pytest.raises(pickle.UnpicklingError):
        restore(content)


def test_nor_what_hangs_on_a_dataclass() -> None:
    with pytest.raises(pickle.UnpicklingError):
        restore(b"\x80\x04\x8c\x12procgen.model.card\x8c\x0dDeck.__init__\x93.")


def test_a_unit_comes_back_as_the_one_that_it_is() -> None:
    """A clock position is known by its unit, and a quantity that was kept must print like one that was read."""
    kept = restore(store((parse_quantity("4:30"), parse_quantity("98.40 mm"))))
    assert [quantity.unit for quantity in kept] == [CLOCK_FACE, UNITS["mm"]]
    assert kept[0].unit is CLOCK_FACE
    assert kept[1].unit is UNITS["mm"]
