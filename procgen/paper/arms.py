"""How a decision is drawn: where its arms' conditions stand, and which of two forms takes less of the card.

Long arms carry the last line of the condition and end at the action, all bars in one column. Where that takes much more
height, the condition stands across the card above a short arm, and action and detail follow it in one paragraph.
"""

from __future__ import annotations

from dataclasses import dataclass

from procgen.draw.fonts import HEAD, TEXT
from procgen.model.card import Arm, Path, Prose, plain
from procgen.paper.fit import Fit

Widths = tuple[float, float, float]
"""Columns of bend, condition and action, mm."""


@dataclass(frozen=True)
class Clause:
    """One line of a condition.

    `alternative`: begins another way to take the arm; `more`: the next clause must hold too.
    """

    words: Prose
    alternative: bool = False
    more: bool = False
    otherwise: bool = False

    @property
    def text(self) -> str:
        if self.otherwise:
            return "otherwise"
        return ("or " if self.alternative else "") + plain(self.words) + (" and" if self.more else "")


@dataclass(frozen=True)
class ArmRow:
    """One arm, and where the lines of its condition stand."""

    arm: Arm
    above: tuple[Clause, ...]  # lines across the card
    on: Clause | None  # the line that sits on a long arm
    classes: str


@dataclass(frozen=True)
class Arms:
    """`widths` are for long arms. `waits_for`: what the family does not state yet and no condition names already."""

    rows: tuple[ArmRow, ...]
    long: bool
    widths: Widths
    waits_for: tuple[str, ...] = ()


def arms(path: Path, fit: Fit) -> Arms:
    """The arms in the form that takes less height; long ones where it is much the same."""
    conditions = [_clauses(arm) for arm in path.arms]
    widths = min(_widths(path, fit), key=lambda widths: _long_height(path, conditions, fit, widths))
    long = _long_height(path, conditions, fit, widths) <= 1.15 * _short_height(path, conditions, fit, widths[0])
    taken = next((i for i, arm in enumerate(path.arms) if arm.taken), None)
    rows = []
    for i, (arm, lines) in enumerate(zip(path.arms, conditions, strict=True)):
        names = [] if taken is None else ["taken" if i == taken else "before" if i < taken else "beyond"]
        names += ["last"] if i == len(path.arms) - 1 else []
        split = len(lines) - 1 if long else len(lines)
        rows.append(ArmRow(arm, lines[:split], lines[-1] if long else None, " ".join(names)))
    said = " ".join(line.text for lines in conditions for line in lines)
    return Arms(tuple(rows), long, widths, tuple(what for what in path.waits_for if f"“{what}”" not in said))


def _clauses(arm: Arm) -> tuple[Clause, ...]:
    if not arm.conditions:
        return (Clause((), otherwise=True),)
    return tuple(
        Clause(words, alternative=n > 0 and k == 0, more=k < len(clauses) - 1)
        for n, clauses in enumerate(arm.conditions)
        for k, words in enumerate(clauses)
    )


def _widths(path: Path, fit: Fit) -> list[Widths]:
    """Divisions of the card between condition and action that leave room for every action's longest word."""
    line, step, value = fit.line, fit.sizes.step, fit.sizes.value
    bend = line.x + line.thick + line.bend
    rest = fit.page.across - bend
    pad = line.thick * 1.15 + 0.1 * step + 0.5
    least = max(fit.width(word, HEAD, value) for arm in path.arms for word in arm.action.split() or [""]) + pad
    thens = [max(share * rest, least) for share in (0.4, 0.5, 0.6, 0.7)]
    return [(round(bend, 3), round(rest - then, 3), round(then, 3)) for then in thens]


def _long_height(path: Path, conditions: list[tuple[Clause, ...]], fit: Fit, widths: Widths) -> float:
    """In points, spacing that both forms have left out."""
    step, value = fit.sizes.step, fit.sizes.value
    across, height = fit.page.across - widths[0], 0.0
    for arm, lines in zip(path.arms, conditions, strict=True):
        height += 1.16 * step * sum(fit.lines(line.text, TEXT, step, across, True) for line in lines[:-1])
        on = 1.12 * step * fit.lines(lines[-1].text, TEXT, step, widths[1] - 1.5, True)
        then = widths[2] - 0.1 * step - 1.5
        height += max(on, 1.3 * value * fit.lines(arm.action, HEAD, value, then))
        height += 1.12 * step * fit.lines(plain(arm.detail), TEXT, step, then)
    return height


def _short_height(path: Path, conditions: list[tuple[Clause, ...]], fit: Fit, bend: float) -> float:
    step, value = fit.sizes.step, fit.sizes.value
    across, height = fit.page.across - bend, 0.0
    for arm, lines in zip(path.arms, conditions, strict=True):
        height += 1.16 * step * sum(fit.lines(line.text, TEXT, step, across, True) for line in lines)
        first = fit.width(arm.action + " ", HEAD, value)
        height += 1.16 * step * fit.lines(plain(arm.detail), TEXT, step, across - 5, used=first) + 0.5 * value
    return height
