"""The deck as a whole: nothing open, nothing idle, no number from nowhere, and real differences between engines."""

from collections.abc import Iterator
from dataclasses import replace
from difflib import ndiff
from functools import cache
from itertools import combinations

import pytest
from stand import workshop

from procgen.check import check
from procgen.compose import benches
from procgen.compose.bench import Bench
from procgen.compose.card import compose_card, stage_of
from procgen.compose.compare import text_of
from procgen.model.card import Card, Figure

WHOLE = ("avocet", "bittern", "curlew", "dunlin", "plover")
DECK = [id for id, _ in workshop().deck]


@cache
def engine(family: str) -> dict[str, Bench]:
    return dict(benches(workshop(), workshop().families[family]))


@cache
def card(family: str, id: str) -> Card:
    return compose_card(id, engine(family), stage_of(id, workshop()))


def figures(one: Card) -> Iterator[tuple[str, Figure]]:
    for step in one.steps:
        yield from ((row.label, figure) for row in step.rows for figure in row.figures)
        yield from (
            (title, f)
            for grid in step.grids
            for _, cells in grid.rows
            for title, f in zip(grid.head[1:], cells, strict=True)
        )


@pytest.mark.parametrize("family", [*WHOLE, "grebe"])
def test_a_shop_of_one_family_is_not_stopped(family: str) -> None:
    """A shop takes the deck and throws the invented engines out: what asks for others is no slip of its own."""
    alone = replace(workshop(), families={family: workshop().families[family]}, jobs={})
    assert [problem.message for problem in check(alone)[1] if problem.is_error] == []


def test_the_deck_is_from_a_bare_block_to_ready_for_assembly() -> None:
    assert len(DECK) == len(set(DECK)) == 27
    assert set(DECK) == set(workshop().procedures)
    assert (DECK[0], DECK[-1]) == ("receive", "preserve")


@pytest.mark.parametrize("family", WHOLE)
def test_no_card_leaves_a_value_open(family: str) -> None:
    """What these families state fills every card; only what is read at the stand is left to write in."""
    for id in DECK:
        one = card(family, id)
        assert one.missing == (), id
        assert [label for label, figure in figures(one) if figure.state == "blank"] == [], id
        waits = [path.title for step in one.steps for path in step.decisions if getattr(path, "waits_for", ())]
        assert waits == [], id


def test_no_caution_is_idle() -> None:
    used = {
        ref.id
        for procedure in workshop().procedures.values()
        for ref in (*procedure.cautions, *(ref for step in procedure.steps for ref in step.cautions))
    }
    for family in workshop().families.values():
        for amendment in family.amendments.values():
            used |= {ref.id for refs in amendment.cautions.values() for ref in refs}
            used |= {
                r.id
                for steps in (*amendment.before.values(), *amendment.after.values())
                for s in steps
                for r in s.cautions
            }
    assert set(workshop().cautions) - used == set()


@pytest.mark.parametrize("id", DECK)
def test_no_step_is_long(id: str) -> None:
    for step in workshop().procedures[id].steps:
        words = [
            word for text in (step.do, step.right, step.because) if text is not None for word in text.value.split()
        ]
        assert len(words) <= 45, step.id


@pytest.mark.parametrize("id", DECK)
def test_every_number_says_where_it_comes_from(id: str) -> None:
    """A formula, a source, or shop practice."""
    for value in workshop().procedures[id].values.values():
        assert value.formula is not None or value.source, value.name


def test_every_rule_and_limit_says_where_it_comes_from() -> None:
    assert all(rule.source for rule in workshop().rules.values())
    for family in workshop().families.values():
        limits = {name: fact for name, fact in family.facts.items() if name.startswith("limits.")}
        assert all(fact.source for fact in limits.values())


@pytest.mark.parametrize(("one", "other"), list(combinations(WHOLE, 2)))
def test_engines_differ_on_at_least_half_of_the_cards(one: str, other: str) -> None:
    """In what is done or decided or in a number, not in the family's name alone."""
    differ = 0
    for id in DECK:
        texts = [text_of(id, engine(each)).splitlines() for each in (one, other)]
        told = [line for line in ndiff(*texts) if line[:1] in ("+", "-")]
        names = (f"{workshop().families[one].name},", f"{workshop().families[other].name},")
        differ += any(not line[2:].startswith(names) for line in told)
    assert differ >= len(DECK) / 2


def test_every_reading_and_decision_reaches_a_card() -> None:
    """On some family's card at least: nothing was written in vain."""
    asked, decided = set(), set()
    for family in WHOLE:
        for id in DECK:
            for step in card(family, id).steps:
                asked |= {(id, box.name) for box in step.boxes}
                decided |= {(id, path.name) for path in step.decisions}
    for id in DECK:
        procedure = workshop().procedures[id]
        assert {(id, name) for name in procedure.readings} <= asked
        assert {(id, name) for name in procedure.decisions} <= decided
