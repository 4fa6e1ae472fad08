"""Glance cards: less than the card, never other than the card; read back from their PDFs."""

from __future__ import annotations

import io
from dataclasses import replace
from pathlib import Path as File

import page
import pdfplumber
import pikepdf
import pypdfium2
import pytest
import zxingcpp
from sample_parts import mm, say
from samples import CAM, CHOICE, PARTIAL, READ_FROM, SHOP, STOCKS, SURVEY

from procgen.draw.fonts import TEXT, Fonts
from procgen.model.card import Arm, Card, Conclusion, Path, Row, plain
from procgen.paper.glance import ROWS, Shown, View, fold, said, views
from procgen.paper.press import Press, Printed
from procgen.paper.sizes import FLOOR, points

LETTER = STOCKS["letter"]
SEEN = [SURVEY, CAM, CHOICE]
NOTES = ("faces", "not-at-a-glance")


def _glance(press: Press, card: Card, theme: str = "colour") -> Printed:
    found = press.glances.card(card, SHOP, LETTER, READ_FROM, theme)
    assert found is not None
    return found


def _bare(text: str) -> str:
    return "".join(text.split())


def _text(printed: Printed) -> list[str]:
    with pdfplumber.open(io.BytesIO(printed.pdf)) as pdf:
        return [_bare(page.extract_text(use_text_flow=True)) for page in pdf.pages]


@pytest.mark.parametrize("theme", ["colour", "mono"])
@pytest.mark.parametrize("card", SEEN, ids=lambda card: card.id)
def test_they_pass_every_gate_and_keep_to_pdf_ua(press: Press, card: Card, theme: str, tmp_path: File) -> None:
    one = _glance(press, card, theme)
    assert [problem for problem in one.problems if problem.code not in NOTES] == []
    path = tmp_path / "glance.pdf"
    path.write_bytes(one.pdf)
    assert page.validate_pdf(str(path), profile=page.ValidationProfile.PDF_UA_1).failures == []
    with pikepdf.open(path) as pdf:  # qpdf's own check, through its library
        assert pdf.check_pdf_syntax() == []


@pytest.mark.parametrize("card", SEEN, ids=lambda card: card.id)
def test_all_but_the_foot_is_read_from_two_metres(press: Press, fonts: Fonts, card: Card) -> None:
    one = _glance(press, card)
    least = points(2000.0, FLOOR, fonts.face(TEXT).cap)
    assert one.sizes.step >= least
    with pdfplumber.open(io.BytesIO(one.pdf)) as pdf:
        for face in pdf.pages:
            small = [
                char for char in face.chars if char["text"].strip() and char["size"] < 0.9 * least
            ]  # the head face has higher capitals
            assert all(char["top"] > float(face.height) * 0.88 for char in small)  # in the foot
            assert all(char["size"] >= one.sizes.hand - 0.02 for char in small)


def test_it_says_where_the_full_card_is_and_how_many_faces(press: Press) -> None:
    one = _glance(press, SURVEY)
    texts = _text(one)
    assert len(texts) == one.faces
    for number, text in enumerate(texts, start=1):
        assert _bare(f"face {number} of {one.faces}. Glance card for 2 m: the full card hangs behind it.") in text
        assert SURVEY.revision in text
        assert _bare(SURVEY.title) in text


def test_the_code_is_the_full_cards(press: Press) -> None:
    first = pypdfium2.PdfDocument(_glance(press, SURVEY).pdf)[0].render(scale=150 / 72).to_pil()
    assert [code.text for code in zxingcpp.read_barcodes(first)] == [
        f"{SHOP.site}/{SURVEY.address}.html#r={SURVEY.revision}"
    ]


def test_nothing_but_limits_and_decisions(press: Press) -> None:
    text = "".join(_text(_glance(press, SURVEY)))
    assert _bare("≤ 0.05 mm") in text
    for unsaid in (plain(SURVEY.reason), plain(SURVEY.steps[0].action), SURVEY.panels[0].hazard, "HOLD"):
        assert _bare(unsaid) not in text


def test_without_limits_or_decisions_there_is_none(press: Press) -> None:
    bare = replace(PARTIAL, steps=(replace(PARTIAL.steps[0], rows=(), decisions=()),))
    assert views(bare) == ()
    assert press.glances.card(bare, SHOP, LETTER, READ_FROM) is None


def _arms(count: int, words: str = "gap {n} of the ring ≤ {{0.{n}0 mm}}") -> tuple[Arm, ...]:
    some = (Arm(f"a{n}", ((say(words.format(n=n)),),), f"Do {n}", say("and so on.")) for n in range(1, count))
    return (*some, Arm("rest", (), "Leave it", ()))


@pytest.mark.parametrize("count", [3, 6, 7, 8, 14])
def test_seven_rows_at_most_and_the_first_branches_as_they_are(count: int) -> None:
    path = Path("ring", "Which ring?", "each cylinder", _arms(count))
    view = View("step-1", path=path)
    heights = {"step-1/head": 10.0, "step-1/ask": 5.0} | {f"step-1/{n}": 5.0 for n in range(1, count + 1)}
    shown = fold(view, heights, 1000.0)
    assert shown.arms == (count if count <= ROWS else ROWS - 1)  # the last of seven says to ask
    assert shown.view.path == path
    tight = fold(view, heights, 10.0 + 5.0 * 2)
    assert tight.arms == 1  # and the row that asks
    texts = [one.text for one in said(CHOICE, SHOP, (tight,))]
    assert "Ask" in texts
    assert "Do 1" in texts
    assert "Do 2" not in texts


def test_limits_take_rows_from_the_branches() -> None:
    limits = tuple(Row(f"l{n}", f"Limit {n}", (mm("0.05", "≤"),)) for n in range(3))
    view = View("step-1", limits, path=Path("ring", "Which?", "", _arms(5)))
    heights = {"step-1/head": 30.0, "step-1/ask": 5.0} | {f"step-1/{n}": 5.0 for n in range(1, 6)}
    shown = fold(view, heights, 1000.0)
    assert shown.arms + view.rows + 1 <= ROWS
    assert shown.folded


def test_no_condition_is_widened(press: Press) -> None:
    """Every line of a branch that is shown stands there, and so does what the decision waits on."""
    both = Arm("both", ((say("crown under deck ≥ {0.30 mm}"), say("wall left ≥ {1.0 mm}")),), "Fit it", ())
    path = Path("fit", "Does it fit?", "each cylinder, if rings are new", (both, *_arms(9)))
    step = replace(PARTIAL.steps[0], only_if=say("If “bore it”:"), decisions=(path,), rows=())
    one = _glance(press, replace(PARTIAL, steps=(step,)))
    (text,) = _text(one)
    for line in (
        "crown under deck ≥ 0.30 mm and",
        "wall left ≥ 1.0 mm",
        "If “bore it”:",
        "each cylinder, if rings are new",
    ):
        assert _bare(line) in text
    assert _bare("otherwise Ask") in text
    assert "Leaveit" not in text  # what is folded is not there at all


def test_what_the_layout_settles_stands_with_the_next_decision() -> None:
    settled = Conclusion("keep", "Keep it?", "Replace", (), "Oil runs behind it.")
    first = replace(PARTIAL.steps[0], decisions=(settled,), rows=())
    second = replace(PARTIAL.steps[0], id="then", decisions=(Path("ring", "Which?", "", _arms(3)),), rows=())
    (view,) = views(replace(PARTIAL, steps=(first, second)))
    assert view.settled == (settled,)
    assert view.path is not None
    assert [arm.detail for arm in view.path.arms] == [()] * 3


def test_a_decision_that_no_face_holds_is_told(press: Press) -> None:
    long = Arm("long", (tuple(say(f"the housing number {n} is dark or polished") for n in range(9)),), "Stop", ())
    step = replace(PARTIAL.steps[0], decisions=(Path("x", "Which housing?", "", (long, *_arms(3))),), rows=())
    other = replace(step, id="other", decisions=(Path("y", "Which ring?", "", _arms(3)),))
    one = _glance(press, replace(PARTIAL, steps=(step, other)))
    told = [problem for problem in one.problems if problem.code == "not-at-a-glance"]
    assert len(told) == 1
    assert "“Which housing?” is left to the full card" in told[0].message
    assert not told[0].is_error
    assert one.faces == 2
    assert all(_bare(said) in _text(one)[0] for said in ("Which housing?", "Full card"))


def test_shown_counts_what_it_folds() -> None:
    path = Path("ring", "Which?", "", _arms(5))
    assert Shown(View("a-1", path=path), 3).folded == 2
    assert Shown(View("a-1", path=path), 5).folded == 0
