"""The packet printer: a job's Packet in, a PDF out, to be read in the hand."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from markupsafe import Markup

from procgen.draw.fonts import TEXT, Fonts
from procgen.draw.svg import Drawer
from procgen.draw.typeset import NBSP
from procgen.draw.verdict_bar import taken_arm, verdict_bar
from procgen.files.problems import Place, Problem, error
from procgen.files.templating import environment
from procgen.model.card import Shop
from procgen.model.packet import UNCALLED, Packet, SheetTable
from procgen.model.scene import Scene
from procgen.paper import shapes, words
from procgen.paper.engine import Engine, listening
from procgen.paper.imposing import PAPERS
from procgen.paper.qr import qr
from procgen.paper.sizes import FLOOR, POINT, points
from procgen.paper.stages import stages
from procgen.paper.theme import THEMES

HAND = 500.0  # mm from the eye
WANTED = 17.0  # minutes of arc of its text
SIDE = 10.0  # mm, margin: two bores are written side by side
BAR, MAP_BAR = 40.0, 27.0  # mm
MAP = 0.26  # width of a bore map to the height of the paper, so that four go on a page
BOX, LETTER, TICK, HOLD = (40.0, 11.0), (14.0, 11.0), (9.0, 9.0), (17.0, 10.5)
GAP = 2.0


@dataclass(frozen=True, slots=True)
class PacketPrint:
    """`document` is WeasyPrint's, as it was laid out."""

    pdf: bytes
    pages: int
    problems: tuple[Problem, ...]
    document: Any


@dataclass(frozen=True, slots=True)
class TablePart:
    """As many columns of a sheet's table as stand side by side; mm."""

    label: float
    corner: str
    head: tuple[str, ...]
    wide: tuple[bool, ...]
    widths: tuple[float, ...]
    rows: tuple[tuple[str, tuple[str | None, ...]], ...]


class PacketPress:
    """Kept for a process's life. `engine`: one that is there already, since a second would leak."""

    def __init__(self, fonts: Fonts, templates: Sequence[Path], engine: Engine | None = None) -> None:
        self._fonts, self._engine, self._draw = fonts, engine or Engine(fonts), Drawer(fonts, templates)
        self._sizes = _sizes(fonts)
        self._jinja = environment(templates)
        for name in ("tidy", "joined", "breakable"):
            self._jinja.filters[name] = getattr(words, name)

    def packet(self, packet: Packet, shop: Shop, paper: str, theme: str = "colour") -> PacketPrint:
        """`paper`: a4 or letter, "" for a4."""
        size = PAPERS[paper or "a4"]
        problems = list(_coverage(packet, self._fonts))
        names = self._context(packet, shop, size, theme)
        css = self._jinja.get_template("packet/packet.css").render(**names)
        html = self._jinja.get_template("packet/packet.html").render(**names)
        with listening() as heard:
            document = self._engine.layout(html, self._engine.sheet(css))
            pdf = self._engine.pdf(document)
        place = Place(packet.address)
        problems += [error("printing", f"packet {packet.id}: {message}", place) for message in heard]
        return PacketPrint(pdf, len(document.pages), tuple(problems), document)

    def _context(self, packet: Packet, shop: Shop, paper: tuple[float, float], theme: str) -> Mapping[str, Any]:
        colours, across = THEMES[theme], paper[0] - 2 * SIDE
        address = f"{shop.site.rstrip('/')}/{packet.address}/" if shop.site else f"{packet.address}/index.html"
        code, side = qr(address, colours.ink) if shop.site else ("", 0.0)
        wide = min(across / 2 - 10, MAP * paper[1])
        return {
            "packet": packet,
            "shop": shop,
            "paper": paper,
            "side": SIDE,
            "c": colours,
            "s": self._sizes,
            "scale": Markup(stages(packet, across, self._sizes["text"], self._fonts, colours)),
            "bar": lambda line, width=BAR: Markup(verdict_bar(line, width, theme)),
            "arm": Markup(taken_arm(BAR, theme)),
            "bar_width": BAR,
            "map_bar": MAP_BAR,
            "qr": Markup(code),
            "qr_side": side,
            "address": words.typed(address),
            "holds": [one for one in packet.progress if len(one.signers) > 1 and one.state != UNCALLED],
            "worked_from": packet.begun,
            "told": packet.told,
            "drawings": dict(self._drawings([map.scene for map in packet.maps], wide, theme)),
            "parts_of": lambda table: list(self._parts(table, across)),
            **_boxes(colours.accent),
        }

    def _drawings(self, scenes: Sequence[Scene], width: float, theme: str) -> Iterator[tuple[str, Markup]]:
        for scene, svg in zip(scenes, self._draw.alike(scenes, width, self._sizes["small"], theme), strict=True):
            yield scene.id, Markup(svg.replace("\u202f", NBSP))  # no face has the narrow space

    def _parts(self, table: SheetTable, across: float) -> Iterator[TablePart]:
        label = max(self._width(label) for label in (table.corner, *(label for label, _ in table.rows))) + 3.0
        columns = [
            max(BOX[0] if wide else LETTER[0], min(self._width(head), 30.0)) + GAP
            for head, wide in zip(table.head, table.wide, strict=True)
        ]
        start = 0
        while start < len(columns):
            end = start + 1
            while end < len(columns) and label + sum(columns[start : end + 1]) <= across:
                end += 1
            rows = tuple((text, cells[start:end]) for text, cells in table.rows)
            shown = table.head[start:end], table.wide[start:end], tuple(columns[start:end])
            yield TablePart(label, table.corner, *shown, rows)
            start = end

    def _width(self, text: str) -> float:
        return self._fonts.width(text, TEXT, self._sizes["text"] * POINT, bold=True)


def _sizes(fonts: Fonts) -> Mapping[str, float]:
    """Type in pt for paper in the hand: nothing under the floor at that distance."""
    cap = fonts.face(TEXT).cap
    text, small = points(HAND, WANTED, cap), points(HAND, FLOOR, cap)
    return {name: round(size, 2) for name, size in
            {"text": text, "small": small, "lead": text * 1.25, "title": text * 3.2}.items()}  # fmt: skip


def _boxes(accent: str) -> Mapping[str, str]:
    found = {"box": BOX, "letter": LETTER, "tick": TICK, "hold": HOLD}
    return {name: shapes.uri(shapes.cut_box(*size, 0.6, accent)) for name, size in found.items()}


def _coverage(packet: Packet, fonts: Fonts) -> Iterator[Problem]:
    """Characters that people wrote and the fonts lack."""
    people = (part for finding in packet.findings for part in (finding.by, finding.reason))
    said = [packet.title, *(mark for _, mark in packet.marks), *people]
    lacking = fonts.missing([words.tidy(text) for text in said], TEXT)
    if lacking:
        listed = ", ".join(f"{character} (U+{ord(character):04X})" for character in lacking)
        message = f"packet {packet.id} uses {listed}, which the fonts do not have"
        yield error("no-such-letter", message, Place(packet.address), "write it in words")
