"""What one process laid out, another sets, in the same bytes; of an edited card it lays out what the edit changed."""

from __future__ import annotations

import pickle
import re
import shutil
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

import pytest
from samples import CAM, CARDS, READ_FROM, SHOP, STOCKS, SURVEY

from procgen.draw.fonts import Fonts
from procgen.files.home import resources
from procgen.make.cache import Cache
from procgen.make.printing import Ready, Setting, start
from procgen.model.card import Card, Run
from procgen.model.workshop import Sheets
from procgen.paper import bundles, dried, ink
from procgen.paper.pieces import PieceStore
from procgen.paper.press import Press, Printed

TEMPLATES = (resources("templates"),)
A5, A6 = STOCKS["a5"], STOCKS["a6"]
Shelf = dict[str, bytes]


def _press(fonts: Fonts) -> Press:
    """As another process has it: nothing is known to it, not even a font."""
    ink._PLAIN.clear()
    return Press(fonts, [resources("templates")])


def _print(press: Press, card: Card, shelf: Shelf, theme: str = "colour") -> Printed:
    name = f"{card.id} {theme}"
    press.recall(name, shelf.get)
    printed = press.card(card, SHOP, A5, READ_FROM, theme)
    shelf |= press.keep(name)
    return printed


@pytest.fixture(scope="module")
def whole(fonts: Fonts) -> tuple[Mapping[str, Printed], Shelf]:
    shelf: Shelf = {}
    press = _press(fonts)
    return {card.id: _print(press, card, shelf) for card in CARDS}, shelf


@pytest.fixture
def laid_out(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The HTML of each piece that is laid out."""
    found: list[str] = []
    lay_out = PieceStore._laid_out

    def noted(self: PieceStore, texts: tuple[str, ...]) -> object:
        found.extend(texts)
        return lay_out(self, texts)

    monkeypatch.setattr(PieceStore, "_laid_out", noted)
    return found


@pytest.mark.parametrize("card", CARDS, ids=lambda card: card.id)
def test_it_has_the_same_bytes_in_another_process(
    card: Card, fonts: Fonts, whole: tuple[Mapping[str, Printed], Shelf], laid_out: list[str]
) -> None:
    first, shelf = whole[0][card.id], dict(whole[1])
    again = _print(_press(fonts), card, shelf)
    assert again.pdf == first.pdf
    assert again.problems == first.problems
    assert again.sizes == first.sizes
    assert laid_out == []


def test_only_what_an_edit_changed_is_laid_out(
    fonts: Fonts, whole: tuple[Mapping[str, Printed], Shelf], laid_out: list[str]
) -> None:
    shelf, first = dict(whole[1]), CAM.steps[0]
    edited = replace(CAM, steps=(replace(first, detail=(Run("Other words."),)), *CAM.steps[1:]))
    printed = _print(_press(fonts), edited, shelf)
    assert laid_out
    assert all("Other words." in text for text in laid_out)
    fresh = _press(fonts).card(edited, SHOP, A5, READ_FROM)
    assert printed.pdf == fresh.pdf
    laid_out.clear()
    assert _print(_press(fonts), edited, shelf).pdf == printed.pdf
    assert laid_out == []


def test_another_revision_leaves_the_feet_as_they_are(
    fonts: Fonts, whole: tuple[Mapping[str, Printed], Shelf], laid_out: list[str]
) -> None:
    edited = replace(CAM, revision="ZZZZ9")
    printed = _print(_press(fonts), edited, dict(whole[1]))
    assert {part for text in laid_out for part in re.findall('data-part="(.*?)"', text)} == {"code", "issue"}
    assert printed.pdf == _press(fonts).card(edited, SHOP, A5, READ_FROM).pdf


def test_who_gets_ready_for_a_card_needs_the_shelf_no_more(
    font_directory: Path, tmp_path: Path, laid_out: list[str]
) -> None:
    cache, setting = Cache(tmp_path), Setting(SHOP, A5, READ_FROM, "colour", font_directory, (), Sheets())
    for key, content in start(font_directory, TEMPLATES, tmp_path)((setting, CAM, "ground")).kept:
        cache.put(key, content)
    ink._PLAIN.clear()
    work = start(font_directory, TEMPLATES, tmp_path)
    work((setting, Ready(decks=False, family=CAM.family, cards=(CAM.id,)), "ground"))
    shutil.rmtree(tmp_path)
    laid_out.clear()
    work((setting, CAM, "ground"))
    assert laid_out == []


def test_each_theme_has_its_own(fonts: Fonts, laid_out: list[str]) -> None:
    shelf: Shelf = {}
    press = _press(fonts)
    printed = {theme: _print(press, CAM, shelf, theme) for theme in ("colour", "mono")}
    press = _press(fonts)
    laid_out.clear()
    assert all(_print(press, CAM, shelf, theme).pdf == one.pdf for theme, one in printed.items())
    assert laid_out == []


def test_many_edits_leave_few_bundles_to_look_into(fonts: Fonts, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(bundles, "_MANY", 2)
    shelf: Shelf = {}
    looked, steps = [], list(SURVEY.steps)
    for turn in range(8):
        at = turn % len(steps)
        steps[at] = replace(steps[at], detail=(Run(f"Words {turn}."),))
        press, edited = _press(fonts), replace(SURVEY, steps=tuple(steps))
        assert _print(press, edited, shelf).pdf == press.card(edited, SHOP, A5, READ_FROM).pdf
        looked.append(len(dried.restore(shelf[f"{SURVEY.id} colour"])))
    assert max(looked) == 3
    assert looked.count(1) > 1  # at first, and where all were put into one again


@pytest.mark.parametrize("damage", [b"", b"nothing of ours", pickle.dumps(Path("a")), pickle.dumps(print)])
def test_what_is_damaged_is_laid_out_again(
    damage: bytes, fonts: Fonts, whole: tuple[Mapping[str, Printed], Shelf], laid_out: list[str]
) -> None:
    printed, shelf = whole
    for name in (f"{CAM.id} colour", *dried.restore(shelf[f"{CAM.id} colour"])):
        assert _print(_press(fonts), CAM, shelf | {name: damage}).pdf == printed[CAM.id].pdf
        assert laid_out
        laid_out.clear()


def test_nothing_but_pieces_can_be_had(whole: tuple[Mapping[str, Printed], Shelf]) -> None:
    """See “Restricting Globals” in Python's documentation of pickle."""
    assert all(dried.restore(content) is not None for content in whole[1].values())
    for value in (print, Path("a"), replace):
        with pytest.raises(pickle.UnpicklingError):
            dried.restore(pickle.dumps(value))
