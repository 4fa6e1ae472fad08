"""Columns of a table: numbers large and whole, words in the text face and free to wrap."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from procgen.draw.fonts import SUB, TEXT
from procgen.model.card import Figure, Grid
from procgen.paper.fit import Fit
from procgen.paper.words import is_words

LARGE_ROWS_AT_MOST = 8
"""A longer table is looked things up in from near by; large figures would only push it over more faces."""

_GAP = 2.5  # mm, right of each column but the last


@dataclass(frozen=True)
class Table:
    """A grid, or those of its columns that fit across together, with the members' column.

    `words`: which columns wrap.
    """

    key: str
    title: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, tuple[Figure, ...]], ...]
    widths: tuple[float, ...]  # mm
    words: tuple[bool, ...]
    large: bool  # numbers at value size; else at step size


@dataclass(frozen=True)
class _Column:
    """The widths that it needs and would like, mm; whether it holds words."""

    least: float
    wanted: float
    words: bool


def tables(grid: Grid, fit: Fit, key: str) -> tuple[Table, ...]:
    """One table, with large numbers if short and narrow enough, else at step size; else as many as it takes."""
    for large in (True, False) if len(grid.rows) <= LARGE_ROWS_AT_MOST else (False,):
        columns = _columns(grid, fit, large)
        if sum(column.least for column in columns) <= fit.text:
            return (_table(grid, fit, key, range(1, len(columns)), columns, large),)
    found: list[Table] = []
    start = 1
    while start < len(columns):
        end = start + 1
        while end < len(columns) and sum(c.least for c in (columns[0], *columns[start : end + 1])) <= fit.text:
            end += 1
        found.append(_table(grid, fit, f"{key}.{start}" if found else key, range(start, end), columns, False))
        start = end
    return tuple(found)


def _columns(grid: Grid, fit: Fit, large: bool) -> Sequence[_Column]:
    step = fit.sizes.step

    def longest(text: str, family: str, bold: bool = False) -> float:
        return max(fit.width(word, family, step, bold) for word in text.split() or [""])

    members = max([longest(grid.head[0], SUB)] + [fit.width(member, TEXT, step, True) for member, _ in grid.rows])
    columns = [_Column(members + _GAP + 0.5, members + _GAP + 0.5, False)]
    for index, head in enumerate(grid.head[1:]):
        figures = [figures[index] for _, figures in grid.rows]
        words = any(is_words(figure) for figure in figures)
        wanted = max(fit.figure(figure, large) for figure in figures)
        least = max(longest(f.text, TEXT, True) + 0.5 for f in figures) if words else wanted
        title = longest(head, SUB) + 0.3
        columns.append(_Column(max(least, title) + _GAP, max(wanted, title) + _GAP, words))
    return columns


def _table(grid: Grid, fit: Fit, key: str, chosen: range, columns: Sequence[_Column], large: bool) -> Table:
    """What is left over goes to the columns of words that want least of it first; what then remains, to all alike."""
    picked = [columns[0], *(columns[i] for i in chosen)]
    widths = [column.least for column in picked]
    spare = max(fit.text - sum(widths), 0.0)
    for i in sorted(range(len(picked)), key=lambda i: picked[i].wanted - picked[i].least):
        given = min(picked[i].wanted - picked[i].least, spare)
        widths[i] += given
        spare -= given
    return Table(
        key,
        grid.title if chosen.start == 1 else "",
        (grid.head[0], *(grid.head[i] for i in chosen)),
        tuple((member, tuple(figures[i - 1] for i in chosen)) for member, figures in grid.rows),
        tuple(round(width + spare / len(widths), 3) for width in widths),
        tuple(column.words for column in picked),
        large,
    )
