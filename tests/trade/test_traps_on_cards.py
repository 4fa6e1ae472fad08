"""What each demo engine hides stands on the card of the work in which it would be missed."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from procgen.model.card import Card, Conclusion, StepItem, plain
from procgen.model.card import Path as Way
from tests.demo import cards

Find = Callable[[str, str], Card]


@pytest.fixture(scope="module")
def find() -> Find:
    return lambda family, card: cards(family)[card]


def said(step: StepItem) -> str:
    return " ".join(plain(part) for part in (step.action, step.detail, step.right, step.because))


def steps(card: Card, word: str) -> list[StepItem]:
    return [step for step in card.steps if word in said(step)]


def column(card: Card, head: str) -> dict[str, str]:
    """A column of the card's tables, by member."""
    return {
        member: figures[grid.head.index(head) - 1].text
        for step in card.steps
        for grid in step.grids
        if head in grid.head
        for member, figures in grid.rows
    }


def test_the_port_that_looks_as_if_a_plug_were_missing(find: Find) -> None:
    """Avocet's MG has no front plug: it is told when plugs go in, and the count does not ask for one."""
    (told,) = steps(find("avocet", "re-plug"), "front end of MG")
    assert "Leave" in plain(told.action)
    assert "MG-F" not in column(find("avocet", "re-plug"), "if forgotten")


def test_dead_ends_behind_the_shells(find: Find) -> None:
    """Curlew's KO1 to KO4, cleaned last, each through its own side plug, and hooked."""
    card = find("curlew", "galleys")
    assert [said(step) for step in steps(card, "KO1 to KO4") if "Hook" in said(step)]
    order = {id: float(number) for id, number in column(card, "order").items()}
    assert {id for id, number in order.items() if number > 16} == {"KO1", "KO2", "KO3", "KO4"}
    assert column(card, "enter by")["K3"] == "KS3, through KO3"
    assert not steps(find("bittern", "galleys"), "blind end")


def test_the_valve_that_looks_like_a_plug(find: Find) -> None:
    """Plover's RV: its set comes out and goes in, and the card says what a plain plug there would cost."""
    assert steps(find("plover", "strip"), "relief valve")
    (back,) = steps(find("plover", "re-plug"), "relief valve")
    assert "A plain plug there gives no relief" in said(back)
    assert column(find("plover", "re-plug"), "if forgotten")["RV"] == "no pressure, no relief; behind the flywheel"
    for family in ("curlew", "bittern", "dunlin", "avocet"):
        assert not steps(find(family, "re-plug"), "relief valve")


def test_the_plugs_under_the_pan_gasket(find: Find) -> None:
    """Plover's CR1 to CR3: the gasket comes off, wet, before anybody counts."""
    card = find("plover", "plug-map")
    (look,) = steps(card, "CR1 to CR3")
    assert "gasket" in said(look)
    count = next(step for step in card.steps if step.decisions)
    assert card.steps.index(look) < card.steps.index(count)
    assert column(find("plover", "re-plug"), "if forgotten")["CR1"].endswith("under the pan gasket")


@pytest.mark.parametrize(("family", "where"), [("bittern", "bell housing"), ("dunlin", "rear face")])
def test_the_cross_over_plug_at_the_rear(find: Find, family: str, where: str) -> None:
    (look,) = steps(find(family, "plug-map"), "XO-R")
    assert where in said(look)
    assert column(find(family, "re-plug"), "if forgotten")["XO-R"] == "lifters A starve; behind the flywheel"


def test_every_plug_says_on_a_card_what_it_costs(find: Find) -> None:
    counted = {"curlew": 13, "plover": 10, "bittern": 13, "dunlin": 12, "avocet": 12}
    for family, many in counted.items():
        told = column(find(family, "re-plug"), "if forgotten")
        assert len(told) == many
        assert all(told.values())


def test_the_groove_that_carries_the_main_oil(find: Find) -> None:
    """Avocet's shells come out, whatever they look like, and the card gives the reason as a conclusion."""
    card = find("avocet", "cam-bearings")
    decided = {d.name: d for step in card.steps for d in step.decisions if isinstance(d, Conclusion)}
    assert "Replace" in decided["keep_or_replace"].action
    assert "groove" in decided["keep_or_replace"].because
    others = [d for step in find("bittern", "cam-bearings").steps for d in step.decisions if isinstance(d, Way)]
    assert "keep_or_replace" in {d.name for d in others}


def test_a_shell_may_be_turned_off_by_so_much(find: Find) -> None:
    """In degrees, on the clock, and at the shell's outside, where it is seen: Dunlin's 7 mm over 5 mm on 25.3 mm."""
    rows = {row.name: row.figures[0] for step in find("dunlin", "cam-in").steps for row in step.rows}
    assert rows["clock_error_max"].text == "4.5"
    assert rows["clock_minutes_max"].text == "9"
    assert rows["offset_max"].text == "1.99"


def test_what_is_an_estimate_says_so(find: Find) -> None:
    rows = {row.name: row for step in find("bittern", "cam-bearings").steps for row in step.rows}
    assert rows["leak_at_limit"].figures[0].text == "18"  # (0.130 / 0.050)³ = 17.6
    assert "estimate" in rows["leak_at_limit"].label
