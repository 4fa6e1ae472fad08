"""Every worked figure there is for the trade's formulas, row by row; each names whose rule or arithmetic it is.

Where a card says a thing by a plain formula, its row is put to that formula, through the language of the cards.
"""

import math

import pytest
import rows_cylinder
import rows_fits
import rows_stand
from check_rows import Row

ROWS = [*rows_cylinder.ROWS, *rows_fits.ROWS, *rows_stand.ROWS]


@pytest.mark.parametrize("row", [pytest.param(row, id=row.what) for row in ROWS])
def test_row(row: Row) -> None:
    found = row.work()
    if isinstance(row.want, (bool, str)) or row.want is None:
        assert found == row.want, row.source
    else:
        assert isinstance(found, (int, float))
        assert math.isclose(found, row.want, rel_tol=row.rel, abs_tol=row.abs), f"{found:.10g}: {row.source}"


def test_rows_are_told_apart_and_sourced() -> None:
    names = [row.what for row in ROWS]
    assert len(set(names)) == len(names) > 300
    assert all(row.source for row in ROWS)
