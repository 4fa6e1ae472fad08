"""A page says all that its card says."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass
from html import unescape

from made_up import DECKS, SEATS
from reading import read, squeezed

from procgen.check.guide import guide
from procgen.compose.revision import dump
from procgen.model.card import Card, Deck, Origin, Run, plain

UNSEEN = {
    "id", "step", "family", "name", "symbols", "state", "scenes", "drawings", "level", "taken", "stations_unit", "live",
}  # fmt: skip
"""Names for machines, and the numbers of signs, which are drawn or left out but never read."""


def _said(thing: object, owner: str = "") -> Iterator[str]:
    if isinstance(thing, str):
        yield thing
    elif isinstance(thing, tuple) and thing and all(isinstance(part, Run) for part in thing):
        yield plain(thing)
    elif isinstance(thing, tuple) and owner in ("choices", "axes"):
        yield from (words for _, words in thing)
    elif isinstance(thing, Mapping):
        for value in thing.values():
            yield from _said(value)
    elif isinstance(thing, tuple):
        for part in thing:
            yield from _said(part)
    elif isinstance(thing, Origin):
        yield from (thing.title, thing.formula, thing.source, thing.place)
        yield from _said(thing.inputs)
    elif is_dataclass(thing):
        if type(thing).__name__ == "Stage":
            return  # held by its own test
        for part in fields(thing):
            if part.name not in UNSEEN:
                yield from _said(getattr(thing, part.name), part.name)


def _plainest(text: str) -> str:
    """As sentences begin and end differently where they are joined."""
    return squeezed(text).rstrip(".").casefold()


def _assert_says_all(card: Card, content: bytes) -> int:
    text = _plainest(read(content).text)
    said = [s for s in map(_plainest, _said(card)) if s]
    for words in said:
        assert words in text, f"{card.address}: {words!r} is not on the page"
    return len(said)


def test_every_text_of_the_card_is_on_its_page(site: Mapping[str, bytes]) -> None:
    assert _assert_says_all(SEATS, site["teal/seats.html"]) > 80


def test_every_text_of_every_demo_card_is_on_its_page(demo: Mapping[str, bytes], demo_decks: tuple[Deck, ...]) -> None:
    for deck in demo_decks:
        for card in deck.cards:
            _assert_says_all(card, demo[f"{card.address}.html"])


def test_apostrophes_are_typeset_as_on_cards(demo: Mapping[str, bytes], demo_decks: tuple[Deck, ...]) -> None:
    pages = [demo[f"{card.address}.html"].decode() for deck in demo_decks for card in deck.cards]
    shown = [unescape(re.sub(r"<script.*?</script>|<[^>]*>", " ", page, flags=re.DOTALL)) for page in pages]
    assert [found.group() for page in shown for found in re.finditer(r".*\w'\w.*", page)] == []
    assert sum("\u2019" in page for page in shown) > 50


def test_in_the_order_of_the_dump(demo: Mapping[str, bytes], demo_decks: tuple[Deck, ...]) -> None:
    """The steps' own words, as the revision reads them, stand on the page in the same order."""
    for card in (card for deck in demo_decks for card in deck.cards):
        text, at = read(demo[f"{card.address}.html"]).text, 0
        for line in (squeezed(line) for line in dump(card) if re.match(r"\d+ ", line)):
            found = text.find(line, at)
            assert found >= 0, f"{card.address}: {line}"
            at = found


def test_panels_stand_before_their_step(site: Mapping[str, bytes]) -> None:
    text = read(site["teal/seats.html"]).text
    places = [text.index(words) for words in ("The block will fall.", "Chips fly.", "Edges cut.", "Look at each seat.")]
    assert places == sorted(places)


def test_where_a_figure_comes_from(site: Mapping[str, bytes]) -> None:
    text = read(site["teal/seats.html"]).text
    assert "depth + depth" in text
    assert "Gauge block table, row 4." in text
    assert "families/teal.yaml:8:3" in text
    assert text.count("Where from?") == 3  # once for a value, once for an input that has its row, and one not on a row


def test_the_family_page(site: Mapping[str, bytes]) -> None:
    text = read(site["teal/index.html"]).text
    for words in (
        "6.2, 5.7",
        "98.40 mm (3.874 in)",
        "grey iron stated",
        "the cylinders stand in a vee",
        "Rod length every card",
    ):
        assert words in text
    assert "width of the groove Seats" in text


def test_the_shop_page_lists_families_and_cards_in_order(
    demo: Mapping[str, bytes], demo_decks: tuple[Deck, ...]
) -> None:
    page = read(demo["index.html"])
    links = [link for _, link in page.having("href") if link.endswith(".html") and not link.endswith("index.html")]
    cards = [f"{card.address}.html" for deck in demo_decks for card in deck.cards]
    assert links == [*cards, "compare.html", "guide.html"]
    assert page.text.count("hold") >= sum(card.hold is not None for deck in demo_decks for card in deck.cards)


def test_the_guide_is_opened_at_the_name_in_brackets(demo: Mapping[str, bytes]) -> None:
    page = read(demo["guide.html"])
    codes = [link.removeprefix("#") for _, link in page.having("href") if link.startswith("#")]
    assert codes.pop(0) == "content"
    assert codes == sorted(code for code, _, _ in guide())
    assert set(codes) < {value for _, value in page.having("id")}


def test_the_foot_says_whether_the_card_is_approved(site: Mapping[str, bytes], demo: Mapping[str, bytes]) -> None:
    assert "issued 2026-11-20, R. Ames 7KQ4M" in read(site["teal/seats.html"]).text
    assert DECKS[0].cards[0].revision == "7KQ4M"


def test_the_way_taken_is_told_in_words(site: Mapping[str, bytes]) -> None:
    page = read(site["teal/mischief.html"])
    assert any("taken" in value.split() for _, value in page.having("class"))
    assert "Taken:" in page.text
    assert "Taken:" not in read(site["teal/seats.html"]).text
