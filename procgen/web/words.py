"""Text on its way into a page: escaped, and with numbers and units that never part."""

from __future__ import annotations

from markupsafe import Markup

from procgen.draw.typeset import NBSP, as_deferral, as_sentence, marked_up, typeset
from procgen.model.card import Figure, Grid, Prose

_NUMERIC = frozenset("0123456789.,:−–-+±≤≥/·° ") | {NBSP}


def tidy(text: str) -> str:
    """Typeset apostrophes, and for the narrow unbreaking space the plain one, which every face has."""
    return typeset(text.replace("\u202f", NBSP))


def joined(text: str) -> str:
    """A figure: all its spaces unbreaking, but between the figures of a list."""
    return tidy(text).replace(" ", NBSP).replace(f"·{NBSP}", "· ").replace(f",{NBSP}", ", ")


def prose(runs: Prose) -> Markup:
    """Runs as HTML, escaped."""
    return marked_up(runs, tidy, joined)


def sentence(text: str) -> str:
    """As a sentence: a capital first, a stop last."""
    return as_sentence(tidy(text))


def deferral(text: str) -> str:
    """What a caution defers to, as a sentence of its own."""
    return as_deferral(tidy(text))


def is_short(text: str) -> bool:
    """One short word, as the name of a plug: never broken at its hyphen."""
    return " " not in text and len(text) <= 12


def numeric_columns(grid: Grid) -> tuple[bool, ...]:
    """Which columns of a grid hold figures only, and so stand to the right."""
    columns = zip(*(figures for _, figures in grid.rows), strict=True)
    return tuple(all(map(is_number, column)) for column in columns)


def is_number(figure: Figure) -> bool:
    """Whether it is set as a figure; anything else is words or an identifier."""
    return figure.state != "known" or not set(figure.text) - _NUMERIC
