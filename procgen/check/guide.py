"""The guide: what each code that stands behind a problem means, why it matters, and how it is mended."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import groupby

from procgen.files.document import Cursor
from procgen.files.home import resources
from procgen.files.reading import read
from procgen.trade.registry import FUNCTIONS
from procgen.units.table import UNITS

PATH = "site/guide.yaml"
_QUOTED = re.compile(r"`([^`]+)`")


def guide() -> tuple[tuple[str, str, str], ...]:
    """(code, title, text) of every code, in the order in which files are read. Paragraphs are set apart by an empty
    line; one of lines that are set further in is an example.

    Raises:
        ValueError: where the guide itself can't be read; the package is then broken.
    """
    document, problems = read(PATH, (resources("templates") / PATH).read_bytes())
    if document is None or problems:
        raise ValueError("; ".join(f"{problem.place}: {problem.message}" for problem in problems))
    lists = {"{units}": ", ".join(_units()), "{functions}": ", ".join(sorted(FUNCTIONS))}
    return tuple(_entry(at, lists) for at in document.root())


def _entry(at: Cursor, lists: dict[str, str]) -> tuple[str, str, str]:
    text = _QUOTED.sub(r"“\1”", "\n\n".join(_paragraphs(at["text"].text().value)))
    for hole, words in lists.items():
        text = text.replace(hole, words)
    return at["code"].text().value, at["title"].text().value, text


def _paragraphs(text: str) -> Iterator[str]:
    for is_example, group in groupby(filter(None, text.split("\n")), lambda line: line.startswith(" ")):
        lines = list(group)
        yield from ["\n".join(lines)] if is_example else lines


def _units() -> Iterator[str]:
    """Every unit as it prints, each once."""
    yield from dict.fromkeys(unit.symbol for unit in UNITS.values() if unit.symbol)
