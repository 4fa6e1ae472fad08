"""Each gate stops what it is there to stop: cards and templates broken in one place."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from sample_parts import say
from samples import CAM, CHOICE, PARTIAL, READ_FROM, SHOP, STOCKS, SURVEY
from weasyprint.urls import FatalURLFetchingError

from procgen.draw.fonts import Fonts
from procgen.files.home import resources
from procgen.files.problems import Problem
from procgen.model.card import Card
from procgen.model.workshop import Hole
from procgen.paper.engine import NotHandedIn, OnlyHanded
from procgen.paper.press import Press

CARDS = resources("templates") / "cards"


def _codes(problems: tuple[Problem, ...]) -> set[str]:
    return {problem.code for problem in problems}


def _broken(fonts: Fonts, folder: Path, name: str, old: str, new: str, card: Card = PARTIAL) -> tuple[Problem, ...]:
    """The problems of a card printed through one template in which `old` is made `new`."""
    text = (CARDS / name).read_text("utf-8")
    assert old in text
    (folder / "cards").mkdir()
    (folder / "cards" / name).write_text(text.replace(old, new), "utf-8")
    return Press(fonts, [folder, resources("templates")]).card(card, SHOP, STOCKS["a5"], READ_FROM).problems


def test_a_text_left_out_is_missed(fonts: Fonts, tmp_path: Path) -> None:
    problems = _broken(fonts, tmp_path, "parts.html", "{{ panel.avoid | tidy }}", "", CAM)
    assert _codes(problems) == {"not-printed"}
    assert any("Stand out of line with the screw" in problem.message for problem in problems)
    assert all("step 3 (press) of card cam-bearings" in problem.message for problem in problems)


def test_a_step_clipped_away_is_missed(fonts: Fonts, tmp_path: Path) -> None:
    problems = _broken(fonts, tmp_path, "card.css", "ol { list-style: none }", "ol { list-style: none; display: none }")
    assert "not-printed" in _codes(problems)


def test_a_part_on_two_faces_is_told(fonts: Fonts, tmp_path: Path) -> None:
    twice = '<b data-part="{{ key }}"></b></p>'
    problems = _broken(fonts, tmp_path, "turns.html", "{{ turns[key].text }}</p>", "{{ turns[key].text }}" + twice, CAM)
    assert "not-once" in _codes(problems)


def test_small_type_is_told(fonts: Fonts, tmp_path: Path) -> None:
    problems = _broken(fonts, tmp_path, "card.css", ".note {", ".question { font-size: 6pt } .note {")
    assert _codes(problems) == {"too-small"}
    assert "6.0 pt" in problems[0].message


def test_what_runs_out_of_its_place_is_told(fonts: Fonts, tmp_path: Path) -> None:
    problems = _broken(fonts, tmp_path, "card.css", ".note {", ".question { padding-left: 90mm } .note {")
    assert "outside-the-face" not in _codes(problems)  # it wraps
    other = tmp_path / "other"
    other.mkdir()
    problems = _broken(
        fonts, other, "card.css", ".note {", ".question { padding-left: 90mm; white-space: pre } .note {"
    )
    assert "outside-the-face" in _codes(problems)


def test_a_foreign_font_is_told(fonts: Fonts, tmp_path: Path) -> None:
    problems = _broken(fonts, tmp_path, "card.css", ".note {", ".question { font-family: sans-serif } .note {")
    assert "strange-font" in _codes(problems)


def test_bad_css_is_told(fonts: Fonts, tmp_path: Path) -> None:
    problems = _broken(
        fonts, tmp_path, "margins.html", '<table class="row">', '<table class="row" style="colour: red">'
    )
    assert _codes(problems) == {"printing"}
    assert "colour" in problems[0].message


def test_a_letter_that_the_fonts_lack_is_told(press: Press) -> None:
    step = replace(PARTIAL.steps[0], detail=say("and lay it in its cup ⌀ 12."))
    problems = press.card(replace(PARTIAL, steps=(step,)), SHOP, STOCKS["a5"], READ_FROM).problems
    letters = [problem for problem in problems if problem.code == "no-such-letter"]
    assert len(letters) == 1
    assert "step 1 (count) of card count-plugs" in letters[0].message
    assert "U+2300" in letters[0].message


def test_ink_in_the_hole_is_told(fonts: Fonts, tmp_path: Path) -> None:
    wide = "table.row td.left { width: 80mm; text-align: right } .note {"
    problems = _broken(fonts, tmp_path, "card.css", ".note {", wide)
    assert "in-the-hole" in _codes(problems)


@pytest.mark.parametrize("centre", [(20.0, 9.0), (74.0, 9.0), (74.0, 201.0), (9.0, 105.0), (139.0, 105.0)])
def test_a_hole_anywhere_at_the_edge_is_kept_clear(press: Press, centre: tuple[float, float]) -> None:
    stock = replace(STOCKS["a5"], hole=Hole("round", 6.0, centre, 4.0))
    assert "in-the-hole" not in _codes(press.card(PARTIAL, SHOP, stock, READ_FROM).problems)


def test_a_step_taller_than_a_face_is_told(press: Press) -> None:
    step = replace(PARTIAL.steps[0], detail=say("and lay it in its numbered cup. " * 60))
    problems = press.card(replace(PARTIAL, steps=(step,)), SHOP, STOCKS["a6"], READ_FROM).problems
    tall = [problem for problem in problems if problem.code == "taller-than-a-face"]
    assert len(tall) == 1
    assert "step 1 (count) of card count-plugs" in tall[0].message
    assert tall[0].place.path == "dunlin/count-plugs#count"


def test_a_title_too_long_is_told(press: Press) -> None:
    long = replace(CHOICE, title="Hone or bore, or sleeve it")
    found = press.card(long, SHOP, STOCKS["a6"], READ_FROM).problems
    assert _codes(found) - {"cut-by-a-face"} == {"title-too-long"}  # two lines of title leave little room
    assert not any(problem.is_error for problem in found)


@pytest.mark.parametrize(
    "url",
    [
        "file:///etc/hostname",
        "file://localhost/etc/hostname",
        "http://saltings.example/x.png",
        "https://saltings.example/x.css",
        "ftp://saltings.example/x",
    ],
)
def test_only_what_was_handed_in_is_read(fonts: Fonts, url: str) -> None:
    allowed = frozenset(face.path.resolve().as_uri() for face in fonts.faces)
    with pytest.raises(FatalURLFetchingError, match="not handed in"):
        OnlyHanded(allowed).fetch(url)
    assert OnlyHanded(allowed).fetch(next(iter(allowed))).read(4) == b"\x00\x01\x00\x00"


def test_a_picture_from_elsewhere_stops_the_card(fonts: Fonts, tmp_path: Path) -> None:
    with pytest.raises(NotHandedIn, match="not handed in"):
        _broken(fonts, tmp_path, "margins.html", "{{ face() }}", '<img src="file:///etc/hostname" alt="x">', SURVEY)
