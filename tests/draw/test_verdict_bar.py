"""The verdict bar: limits drawn last and where they are, whisker to scale, the dot at the end when it is beyond."""

from __future__ import annotations

import re
from dataclasses import replace
from xml.etree import ElementTree

import pytest

from procgen.compose.packet.lines import line
from procgen.draw.verdict_bar import verdict_bar
from procgen.model.verdict import INSIDE, OUTSIDE, TOO_CLOSE, Margin

CLOSE = Margin("running clearance", 0.077, 0.08, 0.006, 0.006, "most", TOO_CLOSE, "0.077\u202fmm", "0.080\u202fmm",
               "0.003\u202fmm", "0.006\u202fmm", ("cam_bore 4",))  # fmt: skip
WIDTH = 40.0


def dot(svg: str) -> float:
    return float(re.findall(r'cx="([\d.]+)"', svg)[-1])


def ticks(svg: str) -> list[float]:
    return [float(x) for x in re.findall(r"M([\d.]+) 0\.6V", svg)]


def test_one_limit_is_drawn_from_nought() -> None:
    found = line([CLOSE], "cam bearing 4", str)
    svg = verdict_bar(found, WIDTH)
    assert found.bar.from_nought
    (tick,) = ticks(svg)
    assert dot(svg) / tick == pytest.approx(0.077 / 0.080, abs=0.001)
    low, high = found.bar.low * WIDTH, found.bar.high * WIDTH
    assert (high - low) / tick == pytest.approx(2 * 0.006 / 0.080, abs=0.001)
    assert svg.rindex("0.6V") > svg.rindex("<circle")  # nothing hides a limit
    assert "running clearance 0.077 of ≤ 0.080" in svg
    ElementTree.fromstring(svg)


def test_two_limits_have_a_tick_each() -> None:
    least = replace(CLOSE, limit=0.03, limit_is="least", limit_text="0.030\u202fmm", side=INSIDE)
    found = line([least, CLOSE], "", str)
    low, high = ticks(verdict_bar(found, WIDTH))
    assert (dot(verdict_bar(found, WIDTH)) - low) / (high - low) == pytest.approx((0.077 - 0.03) / 0.05, abs=0.001)
    assert found.limit == "0.030–0.080\u202fmm"
    assert found.side == TOO_CLOSE


def test_beyond_the_scale_the_dot_stands_at_the_end() -> None:
    far = replace(CLOSE, value=0.3, value_text="0.300\u202fmm", side=OUTSIDE)
    found = line([far], "", str)
    assert found.bar.beyond
    assert dot(verdict_bar(found, WIDTH)) > 0.95 * WIDTH


def test_a_large_size_near_its_limit_is_not_drawn_from_nought() -> None:
    size = replace(CLOSE, value=66.205, limit=66.21, value_text="66.205\u202fmm", limit_text="66.210\u202fmm")
    found = line([size], "", str)
    assert not found.bar.from_nought
    (tick,) = ticks(verdict_bar(found, WIDTH))
    assert 3.0 < tick - dot(verdict_bar(found, WIDTH)) < 15.0


def test_nothing_but_ink_changes_between_the_themes() -> None:
    colour, mono = (verdict_bar(line([CLOSE], "", str), WIDTH, theme) for theme in ("colour", "mono"))
    assert re.sub("#[0-9A-F]{6}", "", colour) == re.sub("#[0-9A-F]{6}", "", mono)
