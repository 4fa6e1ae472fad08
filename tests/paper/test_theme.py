"""Contrast, held to published check values, and every pair of colours that a card sets text in."""

from __future__ import annotations

import pytest

from procgen.paper.theme import COLOUR, MONO, PAPER, THEMES, contrast, luminance


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [  # Source: WCAG 2.2's formula; #767676 and #777777 are its well-known pair either side of 4.5, worked by hand
        ("#000000", "#ffffff", 21.0),
        ("#767676", "#ffffff", 4.5422),
        ("#777777", "#ffffff", 4.4781),
        ("#595959", "#ffffff", 7.0047),
        ("#0000ff", "#ffffff", 8.5925),
        ("#ff0000", "#ffffff", 3.9985),
        ("#ff0000", "#000000", 5.2520),
        ("#808080", "#ffffff", 3.9494),
    ],
)
def test_contrast(one: str, other: str, ratio: float) -> None:
    assert contrast(one, other) == pytest.approx(ratio, abs=5e-5)
    assert contrast(other, one) == contrast(one, other)


def test_luminance_of_middle_grey() -> None:
    assert luminance("#808080") == pytest.approx(0.215861, abs=5e-7)  # Source: WCAG 2.2's formula


@pytest.mark.parametrize("theme", THEMES.values(), ids=list(THEMES))
def test_text_colours_reach_aaa_on_paper(theme: object) -> None:
    assert theme in (COLOUR, MONO)
    for colour in (theme.ink, theme.accent, theme.quiet):  # type: ignore[attr-defined]
        assert contrast(colour, PAPER) >= 7.0  # Source: WCAG 2.2, 1.4.6


@pytest.mark.parametrize("theme", [COLOUR, MONO], ids=["colour", "mono"])
def test_signal_words_stand_out_from_their_strips(theme: object) -> None:
    for signal in theme.signals.values():  # type: ignore[attr-defined]
        assert contrast(signal.word, signal.ground) >= 4.5  # Source: WCAG 2.2, 1.4.6, large text


def test_signal_panels_differ_without_colour() -> None:
    for theme in (COLOUR, MONO):
        borders = [signal.border for signal in theme.signals.values()]
        assert len(set(borders)) == 4
    dress = {(s.ground, s.hatch, s.rule, s.border_style) for s in MONO.signals.values()}
    assert len(dress) == 4
