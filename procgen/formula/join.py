"""Bringing spreads together: cells meet where their members agree on the axes that they share."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from procgen.formula.cells import Cell, Spread
from procgen.units.dimension import NUMBER, Dimension

Key = tuple[str, ...]
Rows = dict[Key, tuple[Cell, ...]]


def lift(
    parts: Sequence[Spread], operation: Callable[[tuple[Cell, ...]], Cell], dimension: Dimension = NUMBER
) -> Spread:
    """`operation` on the cells of all `parts` that belong together, over the axes of all of them."""
    over = [part.axes for part in parts]
    if not any(over):  # one cell each: by far the most often
        cells = tuple([cell for part in parts for cell in part.cells.values()])
        return Spread((), {(): operation(cells)} if len(cells) == len(parts) else {}, dimension)
    axes, rows = joined(parts)
    return Spread(axes, {key: operation(cells) for key, cells in rows.items()}, dimension)


def joined(parts: Sequence[Spread]) -> tuple[tuple[str, ...], Rows]:
    axes: tuple[str, ...] = ()
    rows: Rows = {(): ()}
    for count, part in enumerate(parts):
        axes, rows = _join(axes, rows, part, count)
    return axes, rows


def _join(axes: tuple[str, ...], rows: Rows, part: Spread, count: int) -> tuple[tuple[str, ...], Rows]:
    if count == 0:
        return part.axes, {key: (cell,) for key, cell in part.cells.items()}
    if not part.axes:  # the same for all rows: by far the most there are
        return axes, {key: (*cells, cell) for cell in part.cells.values() for key, cells in rows.items()}
    shared = [axis for axis in part.axes if axis in axes]
    here, there = [axes.index(axis) for axis in shared], [part.axes.index(axis) for axis in shared]
    new = [index for index, axis in enumerate(part.axes) if axis not in axes]
    by_shared: dict[Key, list[tuple[Key, Cell]]] = {}
    for key, cell in part.cells.items():
        by_shared.setdefault(_at(key, there), []).append((_at(key, new), cell))
    result: Rows = {}
    met: set[Key] = set()
    for key, cells in rows.items():
        common = _at(key, here)
        met.add(common)
        if common in by_shared:
            for rest, cell in by_shared[common]:
                result[key + rest] = (*cells, cell)
        elif "" in common:  # what is not there yet never drops out
            result[key + ("",) * len(new)] = (*cells, cells[0])
    for common, partners in by_shared.items():
        if "" in common and common not in met:
            for rest, cell in partners:
                members = dict(zip(shared, common, strict=True))
                key = tuple(members.get(axis, "") for axis in axes) + rest
                result[key] = (cell,) * (count + 1)
    return axes + tuple(part.axes[index] for index in new), result


def _at(key: Key, indices: Sequence[int]) -> Key:
    return tuple(key[index] for index in indices)


def grouped(spread: Spread, keep: tuple[str, ...]) -> tuple[tuple[str, ...], Mapping[Key, list[Cell]]]:
    """The cells of `spread` gathered under the axes in `keep`; the others are run over."""
    axes = tuple(axis for axis in spread.axes if axis in keep)
    indices = [spread.axes.index(axis) for axis in axes]
    groups: dict[Key, list[Cell]] = {} if axes else {(): []}
    for key, cell in spread.cells.items():
        groups.setdefault(_at(key, indices), []).append(cell)
    return axes, groups
