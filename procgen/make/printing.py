"""One piece of printing: a card, or printed cards as a deck or on sheets. What a worker process does, with a Press
that it keeps.

WeasyPrint holds Python's lock, so threads gain nothing: see pool.py.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, TypeAlias

from procgen.make import native
from procgen.make.cache import Cache, digest
from procgen.make.pool import Work
from procgen.values import dataclass

if TYPE_CHECKING:  # workers begin by importing this, and what lays out takes long enough
    from procgen.files.problems import Problem
    from procgen.model.card import Card, Shop
    from procgen.model.packet import Packet
    from procgen.model.workshop import ReadFrom, Sheets, Stock
    from procgen.paper.lead import Listed
    from procgen.paper.press import Press

Printable: TypeAlias = "Card | DeckJob | SheetsJob | Packet | Ready"

Asked: TypeAlias = "tuple[Setting, Printable, str]"
"""The last: the ground on which pieces of cards are known, see `prints`; "" where they are not to be looked for."""


@dataclass(frozen=True, slots=True)
class Setting:
    """What all cards of one printing share. `fonts` is the folder of prepared fonts."""

    shop: Shop
    stock: Stock
    read_from: ReadFrom
    theme: str
    fonts: Path
    templates: tuple[Path, ...]
    sheets: Sheets
    folder: str = ""  # below the family's, where cards are made on several stocks
    glance: bool = False  # glance cards, not whole ones

    def path(self, family: str, name: str) -> str:
        """Of a PDF, below the output."""
        return print_path(family, self.folder, name)

    def kept_as(self, family: str, card: str) -> str:
        """What the pieces of a card are kept under."""
        return f"{self.path(family, card)} {self.theme}"


@dataclass(frozen=True, slots=True)
class Ready:
    """Nothing yet, only get ready for it; with `decks`, for joining cards too. `family` and `cards`: what will most
    likely come first."""

    decks: bool
    family: str = ""
    cards: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class DeckJob:
    """All cards of a family, from the files that they are printed in, in one."""

    family: str
    files: tuple[Path, ...]


@dataclass(frozen=True, slots=True)
class SheetsJob:
    """The same cards several to a sheet of paper; `name` is what the family is called."""

    family: str
    name: str
    cards: tuple[Listed, ...]
    files: tuple[Path, ...]


@dataclass(frozen=True, slots=True)
class Said:
    """All that a card says on paper, which may be much: how long that is, and what it is known by."""

    length: int
    digest: str


def as_printed(card: Card) -> Card:
    """Without what only its page shows, which is much to send to a worker."""
    return replace(card, origins={}, live=None)


def said(card: Card) -> Said:
    text = repr(as_printed(card))
    return Said(len(text), digest(text))


@dataclass(frozen=True, slots=True)
class Piece:
    """What came out: PDFs by path below the output. `faces`: of a card. `kept`: what the cache is to keep, so that the
    next process need not lay all of it out again."""

    files: tuple[tuple[str, bytes], ...]
    problems: tuple[Problem, ...]
    faces: int = 0
    kept: tuple[tuple[str, bytes], ...] = ()


GLANCE = "glance"
"""The folder of glance cards."""


def print_path(family: str, folder: str, name: str) -> str:
    return "/".join(part for part in ("print", family, folder, f"{name}.pdf") if part)


def packet_path(job: str) -> str:
    return f"jobs/{job}/packet.pdf"


class NoLayout(RuntimeError):
    """The layout engine's libraries are not there; the message says what to install."""


def require_layout() -> None:
    """Raise NoLayout unless cards can be laid out here."""
    from procgen.paper.subsetter import in_python_later

    try:
        with native.by_name(), in_python_later():
            import weasyprint  # noqa: F401
    except OSError as missing:  # its libraries are found when it is imported
        lines = "apt-get install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0, or brew install pango"
        raise NoLayout(f"cards need Pango, which is not installed: {lines} (README, “Pango”)") from missing


def start(fonts: Path, templates: tuple[Path, ...], cache: Path) -> Work[Asked, Piece]:
    """Once in each process, which keeps its press: it remembers what it has laid out. `fonts`: the folder of prepared
    ones; `cache`: where pieces that others laid out are looked for.

    Raises:
        NoLayout: where nothing can be laid out here.
    """
    require_layout()
    from procgen.draw.fonts import prepare
    from procgen.draw.svg import Drawer
    from procgen.paper.press import Press

    ready = prepare(fonts)
    press = Press(ready, templates, Drawer(ready, templates))
    kept = Cache(cache)
    return lambda asked: _printed(press, kept, *asked)


def _printed(press: Press, cache: Cache, setting: Setting, job: Printable, ground: str) -> Piece:
    from procgen.model.card import Card
    from procgen.paper import told

    if isinstance(job, Ready):
        if job.decks:
            from procgen.make import joining  # noqa: F401
            from procgen.paper import lead, sheets  # noqa: F401
        press.get_ready(setting.shop, setting.stock, setting.read_from, setting.theme)
        for card in job.cards:
            _recall(press, cache, setting.kept_as(job.family, card), ground)
        return Piece((), ())
    if isinstance(job, DeckJob):
        return _deck(setting, job)
    if isinstance(job, SheetsJob):
        return _sheets(press, setting, job)
    if not isinstance(job, Card):
        return packet_piece(press, setting, job)
    if setting.glance:
        glance = press.glances.card(job, setting.shop, setting.stock, setting.read_from, setting.theme)
        if glance is None:
            return Piece((), ())
        return Piece(((setting.path(job.family, job.id), glance.pdf),), glance.problems, glance.faces)
    name = setting.kept_as(job.family, job.id)
    _recall(press, cache, name, ground)
    printed = press.card(job, setting.shop, setting.stock, setting.read_from, setting.theme)
    faces = told.faces(job, printed.faces, printed.sizes, setting.read_from)
    kept = {digest(ground, one): content for one, content in press.keep(name).items()} if ground else {}
    files = ((setting.path(job.family, job.id), printed.pdf),)
    return Piece(files, (*printed.problems, faces), printed.faces, tuple(kept.items()))


def _recall(press: Press, cache: Cache, name: str, ground: str) -> None:
    if ground:
        press.recall(name, lambda one: cache.get(digest(ground, one)))


def packet_piece(press: Press, setting: Setting, packet: Packet) -> Piece:
    made = press.packets.packet(packet, setting.shop, setting.sheets.paper, setting.theme)
    return Piece(((packet_path(packet.id), made.pdf),), made.problems)


def _deck(setting: Setting, job: DeckJob) -> Piece:
    from procgen.make.joining import join

    return Piece(((setting.path(job.family, "deck"), join([file.read_bytes() for file in job.files])),), ())


def _sheets(press: Press, setting: Setting, job: SheetsJob) -> Piece:
    cards = [file.read_bytes() for file in job.files]
    pdf, problems = press.sheets(cards, job.cards, job.name, setting.shop, setting.stock, setting.sheets)
    return Piece(((setting.path(job.family, "sheets"), pdf),) if pdf else (), problems)
