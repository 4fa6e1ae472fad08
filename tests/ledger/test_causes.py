"""One change behind many cards is told once; what is worked out from it follows."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from small_shed import SHOP, TEAL, WEAR, Files, card_file, shed, teal, text_of

from procgen.compose import compose_deck
from procgen.ledger.adding import added
from procgen.ledger.causes import causes
from procgen.ledger.noting import prints, texts
from procgen.ledger.report import counted, data, lines
from procgen.ledger.standing import CURRENT, GONE, SUPERSEDED, Hung, hanging, since
from procgen.model.card import Card
from procgen.model.ledger import Ledger
from procgen.model.workshop import Workshop

MORE = """\
values:
  top: {title: Top of travel, formula: geometry.deck_clearance + geometry.compression_height, show: 0.1 mm}
  bottom: {title: Bottom of travel, formula: top + geometry.stroke, show: 0.1 mm}
steps:
  - {id: look, do: Look between the two., show: [top, bottom]}
"""
LOW = """\
values:
  low: {title: Lowest ring, formula: travel.bottom + geometry.bore, show: 0.1 mm}
steps:
  - {id: look, do: Look below it., show: [low]}
"""
SIZES = "bore: 70.0, stroke: 80.0, deck_clearance: 0.4, compression_height: 40.0"
FILES: Files = {
    **card_file("travel", MORE),
    **card_file("low", LOW),
    **teal(geometry=SIZES),
    SHOP: text_of(SHOP).replace("deck: [wear]", "deck: [wear, travel, low]"),
}


def cards(workshop: Workshop) -> Mapping[str, Card]:
    decks = (compose_deck(workshop, family) for family in workshop.families.values())
    return {card.address: card for deck in decks for card in deck.cards}


def noted(workshop: Workshop, on: str = "2026-03-14") -> str:
    """The ledger's file, with everything printed."""
    found = cards(workshop).values()
    text, problems = added("", list(prints(found, "a5", on, Ledger())), list(texts(found, Ledger())))
    assert not problems
    return text


def hung(root: Path, *changed: tuple[str, str, str], printed: str = "") -> list[Hung]:
    """What hangs once these texts of the workshop have changed."""
    ledger = printed or noted(shed(root / "old", FILES))
    files = dict(FILES)
    for path, old, new in changed:
        text = files.get(path) or text_of(path)
        assert old in text
        files[path] = text.replace(old, new)
    workshop = shed(root / "new", {**files, "procedures/printed.yaml": ledger})
    return list(hanging(workshop.ledger, cards(workshop)))


def told(found: list[Hung]) -> list[tuple[str, list[str], list[str]]]:
    return [
        (cause.change.said, [one.said for one in cause.follows], [one.noted.address for one in cause.hung])
        for cause in causes(one for one in found if one.state == SUPERSEDED)
    ]


def test_all_is_current_as_long_as_nothing_changes(tmp_path: Path) -> None:
    found = hung(tmp_path)
    assert [one.state for one in found] == [CURRENT] * 6
    assert counted(found) == "all 6 printed cards are current"
    assert list(lines(found, {})) == []


@pytest.mark.parametrize(
    ("path", "old", "new"),
    [
        (SHOP, "stock: a5", "stock: a6"),
        (SHOP, "name: Test Shop", "name: Test Shop\nsite: https://shed.example/cards/\ntheme: mono"),
        (SHOP, "stock: a5", "stock: a5\napproved: {by: A. Teal, on: 2026-03-14}\nread_from: {steps: 0.5 m}"),
    ],
)
def test_stock_theme_approval_and_address_supersede_nothing(tmp_path: Path, path: str, old: str, new: str) -> None:
    assert {one.state for one in hung(tmp_path, (path, old, new))} == {CURRENT}


def test_what_is_worked_out_from_a_value_follows_from_it(tmp_path: Path) -> None:
    """Teal's compression height moves the top, the top the bottom, the bottom the lowest ring on another card."""
    found = told(hung(tmp_path, (TEAL, "compression_height: 40.0", "compression_height: 41.5")))
    assert found == [
        (
            "Top of travel: 40.4 → 41.9 mm",
            ["Bottom of travel: 120.4 → 121.9 mm", "Lowest ring: 190.4 → 191.9 mm"],
            ["teal/travel", "teal/low"],
        )
    ]


def test_a_step_across_families_is_told_once(tmp_path: Path) -> None:
    found = hung(tmp_path, (WEAR, "Wipe it first.", "Wipe it dry."))
    assert told(found) == [("step “Measure the bore.”: Wipe it first. → Wipe it dry.", [], ["smew/wear", "teal/wear"])]
    assert list(lines(found, {"smew": "Smew", "teal": "Teal"})) == [
        "Smew, Teal: step “Measure the bore.”: Wipe it first. → Wipe it dry.",
        "    card: wear",
        "",
        "Take down, and print anew:",
        "  family  card  says   now    printed     stock",
        *(
            f"  {one.noted.family.title():6}  wear  {one.noted.revision}  {one.card.revision}  2026-03-14  a5"
            for one in found
            if one.card is not None and one.state == SUPERSEDED
        ),
        "",
    ]
    assert counted(found) == "2 of 6 printed cards are superseded"


def test_a_shops_limit_is_one_cause(tmp_path: Path) -> None:
    found = told(hung(tmp_path, (SHOP, "is: 0.10 mm", "is: 0.12 mm")))
    assert found[0][2] == ["smew/wear", "teal/wear"]
    assert found[0][0].endswith("0.10 → 0.12 mm")


def test_a_card_more_in_the_deck_is_told_once(tmp_path: Path) -> None:
    found = hung(tmp_path, (SHOP, "[wear, travel, low]", "[wear, low]"))
    assert [one.noted.address for one in found if one.state == GONE] == ["smew/travel", "teal/travel"]
    assert told(found)[0] == ("cards in the deck: 3 → 2", [], ["smew/wear", "smew/low", "teal/wear", "teal/low"])
    assert counted(found) == "4 of 6 printed cards are superseded, 2 are no longer in the deck"
    assert "No longer in the deck:" in list(lines(found, {}))


def test_what_was_not_noted_is_said_to_be_so(tmp_path: Path) -> None:
    ledger = "format: printed/1\nprinted:\n  - {family: teal, card: wear, revision: K7Q2X}\n"
    (one,) = hung(tmp_path, printed=ledger)
    assert (one.state, one.changes) == (SUPERSEDED, None)
    assert list(lines([one], {"teal": "Teal"}))[:2] == [
        "What these said was not noted, so nobody can say what changed:",
        "  card: wear",
    ]
    assert data([one])["hanging"][0]["changes"] is None


def test_which_print_hangs(tmp_path: Path) -> None:
    """The last of a place and stock; none that was taken down."""
    entry = "  - {{family: teal, card: {}, revision: {}{}}}\n"
    rows = [
        ("wear", "AAAAA", ""), ("wear", "BBBBB", ""), ("wear", "CCCCC", ", where: stand 2"),
        ("low", "DDDDD", ""), ("low", "EEEEE", ", down: 2026-05-02"), ("travel", "FFFFF", ", down: 2026-05-02"),
        ("travel", "GGGGG", ""), ("wear", "HHHHH", ", stock: a6"),
    ]  # fmt: skip
    ledger = "format: printed/1\nprinted:\n" + "".join(entry.format(*row) for row in rows)
    assert [one.noted.revision for one in hung(tmp_path, printed=ledger)] == ["BBBBB", "CCCCC", "GGGGG", "HHHHH"]


def test_what_a_page_is_told_of_older_revisions(tmp_path: Path) -> None:
    old = shed(tmp_path / "old", FILES)
    ledger = noted(old) + "  teal/wear/AAAAA: Teal\n"
    new = shed(tmp_path / "new", {**FILES, WEAR: text_of(WEAR).replace("Wipe it first.", "Wipe it dry."),
                                  "procedures/printed.yaml": ledger})  # fmt: skip
    found = since(new.ledger, cards(new)["teal/wear"])
    assert list(found) == [cards(old)["teal/wear"].revision, "AAAAA"]
    assert since(new.ledger, cards(new)["teal/low"]) == {}
