"""Printing families' cards, in worker processes where that pays.

WeasyPrint holds Python's lock, so threads gain nothing; each worker is a process with one Press that it keeps.
"""

from __future__ import annotations

import multiprocessing
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor, as_completed
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from procgen.files.problems import Problem
from procgen.model.card import Card, Shop
from procgen.model.workshop import ReadFrom, Stock

if TYPE_CHECKING:
    from procgen.paper.press import Press

FEW = 3
"""Fewer cards than this are printed in this process: starting workers would take longer."""


@dataclass(frozen=True, slots=True)
class Setting:
    """What all cards of one printing share. `fonts` is the folder of prepared fonts."""

    shop: Shop
    stock: Stock
    read_from: ReadFrom
    theme: str
    fonts: Path
    templates: tuple[Path, ...]


@dataclass(frozen=True, slots=True)
class Batch:
    """Cards of one family; `deck` where they are all of its deck and go into one PDF too."""

    family: str
    cards: tuple[Card, ...]
    deck: bool


@dataclass(frozen=True, slots=True)
class PrintedBatch:
    batch: Batch
    files: tuple[tuple[str, bytes], ...]  # path below the output, content
    faces: tuple[int, ...]  # by card
    problems: tuple[Problem, ...]


def card_path(family: str, card: str) -> str:
    return f"print/{family}/{card}.pdf"


def deck_path(family: str) -> str:
    return f"print/{family}/deck.pdf"


class NoLayout(RuntimeError):
    """The layout engine's libraries are not there; the message says what to install."""


def require_layout() -> None:
    """Raise NoLayout unless cards can be laid out here."""
    try:
        import weasyprint  # noqa: F401
    except OSError as missing:  # its libraries are found when it is imported
        lines = "apt-get install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0, or brew install pango"
        raise NoLayout(f"cards need Pango, which is not installed: {lines} (README, “Pango”)") from missing


def print_batches(batches: Sequence[Batch], setting: Setting, workers: int) -> Iterator[PrintedBatch]:
    """The batches as they get ready, in any order."""
    require_layout()
    if workers == 1 or len(batches) == 1 or sum(len(batch.cards) for batch in batches) < FEW:
        _start(setting)
        yield from map(_print, batches)
        return
    method = "fork" if "fork" in multiprocessing.get_all_start_methods() else "spawn"
    if method == "fork":
        import procgen.paper.press  # noqa: F401  # so that the workers inherit what it imports

    context = multiprocessing.get_context(method)
    longest_first = sorted(batches, key=lambda batch: -len(batch.cards))
    with ProcessPoolExecutor(min(workers, len(batches)), context, _start, (setting,)) as pool:
        for done in as_completed([pool.submit(_print, batch) for batch in longest_first]):
            yield done.result()


_printing: Callable[[Batch], PrintedBatch]


def _start(setting: Setting) -> None:
    """Once in each process."""
    global _printing
    from procgen.draw.fonts import prepare
    from procgen.draw.svg import Drawer
    from procgen.paper.press import Press

    fonts = prepare(setting.fonts)
    press = Press(fonts, setting.templates, Drawer(fonts, setting.templates))
    _printing = lambda batch: _with(press, setting, batch)  # noqa: E731


def _print(batch: Batch) -> PrintedBatch:
    return _printing(batch)


def _with(press: Press, setting: Setting, batch: Batch) -> PrintedBatch:
    printed = [press.card(card, setting.shop, setting.stock, setting.read_from, setting.theme) for card in batch.cards]
    files = [(card_path(batch.family, card.id), one.pdf) for card, one in zip(batch.cards, printed, strict=True)]
    if batch.deck:
        files.append((deck_path(batch.family), press.join(printed).pdf))
    problems = tuple(problem for one in printed for problem in one.problems)
    return PrintedBatch(batch, tuple(files), tuple(one.faces for one in printed), problems)
