"""A grey printer takes no word, no caution and no way away: measured on the picture of the page, not on the style."""

from __future__ import annotations

import io
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from itertools import combinations

import numpy as np
import pdfplumber
import pypdfium2
import pytest
from sample_parts import EYES
from samples import PARTIAL, READ_FROM, SHOP, STOCKS, TAKEN

from procgen.model.card import Path
from procgen.paper.press import Press, Printed

DPI = 300
MM = DPI / 25.4
DARK = 110  # of 255: black, and what stands for it
LEVELS = ("DANGER", "WARNING", "CAUTION", "NOTICE")


def _grey(pdf: bytes, face: int = 0) -> np.ndarray:
    page = pypdfium2.PdfDocument(pdf)[face]
    return np.asarray(page.render(scale=DPI / 72).to_pil().convert("L"), dtype=int)


def _runs(line: np.ndarray) -> list[tuple[int, int]]:
    """Start and length of each dark stretch."""
    edges = np.flatnonzero(np.diff(np.concatenate(([0], (line < DARK).astype(int), [0]))))
    return [(int(a), int(b - a)) for a, b in zip(edges[::2], edges[1::2], strict=True)]


class Panel:
    """A panel's measures in mm and greys, found by its left border: the longest dark stretch at the left margin."""

    def __init__(self, press: Press, theme: str, level: str) -> None:
        card = replace(PARTIAL, panels=(replace(EYES, level=level, symbols=()),))
        picture = _grey(press.card(card, SHOP, STOCKS["a5"], READ_FROM, theme).pdf)
        at = round(8.0 * MM) + 2
        top, height = max(_runs(picture[:, at]), key=lambda run: run[1])
        low = picture[top + height - round(3 * MM)]  # beneath the strip, beside the message
        rows = [_runs(picture[y])[0] for y in range(top + height - round(6 * MM), top + height - round(2 * MM))]
        self.border = float(np.median([length for _, length in rows])) / MM
        self.doubled = len([run for run in _runs(low) if run[0] < 8.0 * MM + 1.5 * MM]) > 1
        inside = picture[top + round(1.3 * MM) : top + round(6.5 * MM), round(9.5 * MM) : round(139 * MM)]
        self.ground = int(np.median(inside[:, :8]))  # at the strip's left end, before symbol and word
        self.right = float((inside[:, -round(60 * MM) :] < DARK).mean())  # hatch, or solid


@cache
def _panels(press: Press, theme: str) -> dict[str, Panel]:
    return {level: Panel(press, theme, level) for level in LEVELS}


@pytest.mark.parametrize("theme", ["colour", "mono"])
def test_signal_panels_are_told_apart_by_measure(press: Press, theme: str) -> None:
    panels = _panels(press, theme)
    for one, other in combinations(LEVELS, 2):
        a, b = panels[one], panels[other]
        border = abs(a.border - b.border) >= 0.12 or a.doubled != b.doubled
        ground = abs(a.ground - b.ground) >= 40 or abs(a.right - b.right) >= 0.2
        assert border or ground, (one, other)
        if {one, other} != {"DANGER", "NOTICE"} and theme == "mono":
            assert border, (one, other)


def test_borders_have_their_widths(press: Press) -> None:
    for theme, widths in (("colour", (1.0, 0.8, 0.5, 0.35)), ("mono", (1.0, 1.2, 0.7, None))):
        for level, width in zip(LEVELS, widths, strict=True):
            if width is not None:
                assert _panels(press, theme)[level].border == pytest.approx(width, abs=0.1), (theme, level)


@pytest.mark.parametrize("theme", ["colour", "mono"])
def test_the_word_itself_says_which(press: Press, theme: str) -> None:
    for level in LEVELS:
        card = replace(PARTIAL, panels=(replace(EYES, level=level),))
        with pdfplumber.open(io.BytesIO(press.card(card, SHOP, STOCKS["a5"], READ_FROM, theme).pdf)) as pdf:
            words = [word["text"] for word in pdf.pages[0].extract_words()]
        assert [word for word in words if word in LEVELS] == [level]


@pytest.mark.parametrize("theme", ["colour", "mono"])
def test_the_way_that_is_taken_is_twice_as_wide(printed: Callable[..., Printed], theme: str) -> None:
    """The bar before each action, measured where the action stands."""
    one = printed(TAKEN, "a5", theme)
    pdf = one.pdf
    (path,) = TAKEN.steps[0].decisions
    assert isinstance(path, Path)
    bars: dict[bool, list[float]] = {True: [], False: []}
    with pdfplumber.open(io.BytesIO(pdf)) as document:
        for number, page in enumerate(document.pages):
            picture = _grey(pdf, number)
            for arm in path.arms:
                for found in page.search(arm.action, regex=False):
                    if found["chars"][0]["size"] != pytest.approx(one.sizes.value, abs=0.1):
                        continue  # the title says it too
                    y = round((found["top"] + found["bottom"]) / 2 / 72 * DPI)
                    x = round(found["x0"] / 72 * DPI)
                    before = _runs(picture[y, : x - 1])[-1]
                    bars[arm.taken].append(before[1] / MM)
    assert len(bars[True]) == 1
    assert len(bars[False]) == len(path.arms) - 1
    assert min(bars[True]) >= 2 * max(bars[False])
