"""A site's fonts have what its pages write, so none may be overlooked."""

from __future__ import annotations

from dataclasses import dataclass

from procgen.compose.characters import characters


@dataclass(frozen=True)
class Said:
    words: object


def test_characters_of_whatever_holds_texts() -> None:
    things = (Said(("plain", ["é", 1.5, True, None])), {"ö": Said("³")}, "bad\tsign", Said({"x": Said(("π",))}))
    assert characters(*things) == set("é³π")
