"""What each role of a scene is drawn with: ink, weight, dash. Weights are for type of 15 pt and scale with it."""

from __future__ import annotations

from collections.abc import Mapping

from procgen.values import dataclass

PAPER = "#FFFFFF"
AT = 15.0  # pt of type that the weights are for


@dataclass(frozen=True, slots=True)
class Pen:
    """What a line is drawn with."""

    colour: str
    width: float  # mm
    dash: tuple[float, ...] = ()  # mm


@dataclass(frozen=True, slots=True)
class Inks:
    """One theme. `fills` of areas by role; what is filled with a tint is always edged by a line too."""

    ink: str
    accent: str
    pens: Mapping[str, Pen]
    fills: Mapping[str, str]


def _inks(ink: str, accent: str, quiet: str, hairline: str, oil: str, iron: str) -> Inks:
    pens = {
        "deck": Pen(ink, 1.0),
        "outline": Pen(ink, 0.6),
        "behind": Pen(ink, 0.35),
        "edge": Pen(ink, 0.35),  # of a tube, each side
        "axis": Pen(hairline, 0.35, (4.0, 1.0, 0.8, 1.0)),
        "leader": Pen(ink, 0.3),
        "accent leader": Pen(accent, 0.3),
        "dimension": Pen(ink, 0.35),
        "hatch": Pen(quiet, 0.2),
        "accent": Pen(accent, 1.15),
        "limit": Pen(ink, 0.7, (0.0, 1.5)),
    }
    fills = {"iron": iron, "oil": oil, "solid": ink, "paper": PAPER, "accent": accent}
    return Inks(ink, accent, pens, fills)


THEMES: Mapping[str, Inks] = {
    "colour": _inks("#141416", "#5A1D9C", "#55555B", "#A9A9B0", "#EFE8F6", "#EDEDF0"),
    "mono": _inks("#000000", "#000000", "#4A4A4A", "#A9A9B0", PAPER, PAPER),
}
HATCH_PITCH = 1.65  # mm apart, at 45°
