"""What cannot be printed as it is written, and exactly what is said of it: card, step, and what to change."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sample_parts import say
from samples import PARTIAL, READ_FROM, SHOP, STOCKS, SURVEY

from procgen.files.reporters import as_lines
from procgen.model.card import Card
from procgen.model.workshop import ReadFrom
from procgen.paper import told
from procgen.paper.press import Press

LONG = say("and feel all round its edge with a finger, then wipe it and look again in good light, ten times over. " * 9)


def _step(**changes: object) -> Card:
    return replace(PARTIAL, steps=(replace(PARTIAL.steps[0], **changes), *PARTIAL.steps[1:]))


@pytest.mark.parametrize(
    ("card", "said"),
    [
        (
            _step(detail=LONG),
            "dunlin/count-plugs#count:1:1: error: step 1 (count) of card count-plugs: taller than a face at the "
            "smallest type that may be used (split the step in two, stand nearer (`read_from`), or choose a larger "
            "stock) [taller-than-a-face]",
        ),
        (
            replace(PARTIAL, reason=LONG),
            "dunlin/count-plugs:1:1: error: the reason of card count-plugs: taller than a face at the smallest type "
            "that may be used (make it less, stand nearer (`read_from`), or choose a larger stock) "
            "[taller-than-a-face]",
        ),
        (
            _step(detail=say("with the Kurbelwellenlagergassenaufnahmevorrichtung at hand.")),
            "dunlin/count-plugs#count:1:1: error: step 1 (count) of card count-plugs: the word "
            "“Kurbelwellenlagergassenaufnahmevorrichtung” is wider than a face at the smallest type that may be used "
            "(a shorter word, stand nearer (`read_from`), or choose a larger stock) [wider-than-a-face]",
        ),
        (
            _step(detail=say("to ⌀ 12.")),
            "dunlin/count-plugs#count:1:1: error: step 1 (count) of card count-plugs uses ⌀ (U+2300), which the cards' "
            "fonts do not have (write it in words) [no-such-letter]",
        ),
    ],
    ids=["tall step", "long reason", "wide word", "letter"],
)
def test_what_is_said(press: Press, card: Card, said: str) -> None:
    problems = press.card(card, SHOP, STOCKS["a6"], READ_FROM).problems
    errors = [problem for problem in problems if problem.is_error and problem.code != "strange-font"]
    assert as_lines(errors[:1]) == f"{said}\n"
    assert {problem.code for problem in errors} - {errors[0].code, "printing"} == set()


def test_a_word_is_measured_in_the_size_that_it_is_set_in(press: Press) -> None:
    word = "Kurbelwellenlagergassenaufnahmevorrichtung"
    card = _step(detail=say(f"with the {word} at hand."))
    assert any(one.code == "wider-than-a-face" for one in press.card(card, SHOP, STOCKS["a5"], READ_FROM).problems)
    near = ReadFrom(steps=300.0, values=500.0, title=1000.0, hand=300.0)
    assert press.card(card, SHOP, STOCKS["letter"], near).problems == ()


@pytest.mark.parametrize(
    ("stock", "why"), [("letter", "all of the 22′ wanted"), ("a6", "the least, as they are so many")]
)
def test_how_many_faces_and_why(press: Press, stock: str, why: str) -> None:
    card = PARTIAL if stock == "letter" else SURVEY
    one = press.card(card, SHOP, STOCKS[stock], READ_FROM)
    note = told.faces(card, one.faces, one.sizes, READ_FROM)
    assert not note.is_error
    assert note.message.startswith(
        f"card {card.id}: {one.faces} face{'s' * (one.faces > 1)}; steps in {one.sizes.step:g} pt "
    )
    assert note.message.endswith(why)
