"""The two themes: what ink is printed where. Nothing moves between them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True)
class Signal:
    """A signal panel's dress: its strip's ground and word, and its border in millimetres."""

    ground: str
    word: str
    border: float
    border_style: str = "solid"
    hatch: bool = False
    rule: bool = False  # under the word, where the strip has no ground


@dataclass(frozen=True)
class Theme:
    """Colours as "#rrggbb", and how each level of caution is dressed."""

    name: str
    ink: str
    accent: str
    quiet: str
    hairline: str
    signals: Mapping[str, Signal]


PAPER = "#FFFFFF"

COLOUR = Theme(
    name="colour",
    ink="#141416",
    accent="#5A1D9C",
    quiet="#55555B",
    hairline="#A9A9B0",
    signals={
        "DANGER": Signal("#C8102E", PAPER, 1.0),
        "WARNING": Signal("#FF8200", "#000000", 0.8),
        "CAUTION": Signal("#FFD100", "#000000", 0.5),
        "NOTICE": Signal("#0072CE", PAPER, 0.35),
    },
)

MONO = Theme(
    name="mono",
    ink="#000000",
    accent="#000000",
    quiet="#4A4A4A",
    hairline="#A9A9A9",
    signals={
        "DANGER": Signal("#000000", PAPER, 1.0),
        "WARNING": Signal(PAPER, "#000000", 1.2, hatch=True, rule=True),
        "CAUTION": Signal(PAPER, "#000000", 0.7, rule=True),
        "NOTICE": Signal(PAPER, "#000000", 1.05, border_style="double"),
    },
)

THEMES = {theme.name: theme for theme in (COLOUR, MONO)}


def luminance(colour: str) -> float:
    """Relative luminance of an sRGB colour "#rrggbb", 0 to 1. Source: WCAG 2.2."""
    channels = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours, 1 to 21. Source: WCAG 2.2."""
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)
