"""What pages judge readings by is the same whether or not a variant is taken to agree with the first."""

import json
from pathlib import Path

import pytest

from procgen.compose import CardScope, benches
from procgen.compose.common import Common
from procgen.compose.live import live, opened
from procgen.model.workshop import Workshop
from tests import demo
from tests.compose.small_shed import card_file, shed, shop, teal


def lives(workshop: Workshop) -> dict[tuple[str, str], str | None]:
    """By family and card."""
    common = Common(workshop)
    judging = {id: opened(benches(workshop, family, common)) for id, family in workshop.families.items()}
    return {(family, id): live(id, there) for family, there in judging.items() for id, _ in workshop.deck}


def test_what_agrees_need_not_be_written_again(monkeypatch: pytest.MonkeyPatch) -> None:
    written = lives(demo.workshop())
    assert any(text is not None and json.loads(text)["variants"].get("bittern-55") == {} for text in written.values())
    monkeypatch.setattr(CardScope, "agrees", lambda one, other: False)
    assert written == lives(demo.workshop())


def test_the_same_size_written_otherwise_does_not_agree(tmp_path: Path) -> None:
    variants = """
        variants:
          a: {name: A, geometry: {bore: 50.8 mm}}
          b: {name: B, geometry: {bore: 2 in}}
        """
    parts = """
        readings:
          wear: {title: Wear, measure: length, with: bore_gauge}
        decisions:
          fit:
            title: Fit?
            branches:
              - {id: worn, when: wear > shop.wear_max, then: "Worn: {geometry.bore}."}
            otherwise: {id: good, then: Good.}
        steps:
          - {id: x, do: Look., read: [wear], decide: [fit]}
        """
    files = {**teal(variants, "stroke: 80.0, deck_clearance: 0.4"), **card_file("look", parts), **shop("look")}
    text = lives(shed(tmp_path, files))["teal", "look"]
    assert text is not None
    said = {id: one["decisions"]["fit"]["branches"][0]["action"] for id, one in json.loads(text)["variants"].items()}
    assert said == {"a": "Worn: 50.8\u202fmm", "b": "Worn: 51\u202fmm"}
