"""The stage mark: a scale with a graduation a stage, the card's own a solid block on it. In percent of its width."""

from __future__ import annotations

from procgen.model.card import Stage
from procgen.values import dataclass


@dataclass(frozen=True)
class Graduations:
    """`ticks`: where each stands and whether it is a long one. The label begins with the block, or ends with it."""

    ticks: tuple[tuple[str, bool], ...]
    block: str
    width: str
    label: str
    anchor: str


def graduations(stage: Stage) -> Graduations:
    one = 100 / stage.total
    left, right = (stage.number - 1) * one, stage.number * one
    early = left <= 60  # room for a stage's name on a narrow screen
    return Graduations(
        ticks=tuple((_percent(i * one), i % 5 == 0) for i in range(stage.total + 1)),
        block=_percent(left),
        width=_percent(one),
        label=_percent(left if early else right),
        anchor="start" if early else "end",
    )


def _percent(value: float) -> str:
    return f"{value:.3f}".rstrip("0").rstrip(".") + "%"
