"""The card printer: a Card in, a PDF out, at the largest type that costs no further sheet."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path as FilePath
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from procgen.draw.fonts import HEAD, TEXT, Fonts
from procgen.files.problems import Problem
from procgen.model.card import Card, Shop
from procgen.model.workshop import ReadFrom, Stock
from procgen.paper import gates, told, words
from procgen.paper.arms import arms
from procgen.paper.boxes import part_heights
from procgen.paper.engine import Engine, listening
from procgen.paper.fit import BOXES_AT_MOST, Fit
from procgen.paper.pack import Part, Plan, Room, pack
from procgen.paper.page import line, page
from procgen.paper.qr import qr
from procgen.paper.scale import scale
from procgen.paper.sizes import FLOOR, LADDER, Sizes, points, sizes
from procgen.paper.style import style
from procgen.paper.tables import tables
from procgen.paper.theme import THEMES, Theme

Draw = Callable[[object, float, float, str], str]
"""scene, width that there is (mm), type size (pt), theme's name -> SVG"""

_MM = 25.4 / 72
_ENDLESS = 20_000.0  # mm
_SHEETS_WORTH_IT = 3


@dataclass(frozen=True)
class Printed:
    """A printed card or deck. `document` is WeasyPrint's, for joining and imposing."""

    pdf: bytes
    faces: int
    sizes: Sizes
    problems: tuple[Problem, ...]
    document: Any


@dataclass(frozen=True)
class _Turn:
    """Where a face ends: what its arrow says, and the number of the step that goes on, if one does."""

    text: str
    continued: str


@dataclass(frozen=True)
class _Setting:
    """A stock, theme and size with its style sheets, parsed once: one for measuring, one for the faces."""

    fit: Fit
    theme: Theme
    measuring: Any
    final: Any


@dataclass(frozen=True)
class _Measured:
    setting: _Setting
    context: Mapping[str, Any]
    heights: Mapping[str, float]
    parts: tuple[Part, ...]
    plan: Plan


class Press:
    """Kept for a process's life; hand it cards one after the other.

    `templates`: directories in which `cards/card.html` and the like are looked for, the first that has one wins.
    `draw` makes a scene into an SVG.
    """

    def __init__(self, fonts: Fonts, templates: Sequence[FilePath], draw: Draw | None = None) -> None:
        self._fonts = fonts
        self._draw = draw
        self._engine = Engine(fonts)
        self._settings: dict[tuple[Stock, ReadFrom, str, float], _Setting] = {}
        self._jinja = Environment(
            loader=FileSystemLoader([str(directory) for directory in templates]),
            undefined=StrictUndefined,
            autoescape=lambda name: name is not None and name.endswith(".html"),
            auto_reload=False,
        )
        for name in ("tidy", "joined", "prose", "sentence", "deferral", "breakable"):
            self._jinja.filters[name] = getattr(words, name)
        self._jinja.tests["words"] = words.is_words

    def card(self, card: Card, shop: Shop, stock: Stock, read_from: ReadFrom, theme: str = "colour") -> Printed:
        """One card as a PDF of its own, tagged (PDF/UA-1).

        It takes the largest size of the ladder that needs no more sheets than the floor does: paper has two sides, so a
        back that would stay empty is spent on larger type. A card of many sheets is set at the floor: there larger type
        gains little, and each try costs as much as the card.
        """
        problems = gates.coverage(card, shop, self._fonts)
        chosen = self._choose(card, shop, stock, read_from, theme)
        with listening() as heard:
            document = self._faces(card, chosen)
            pdf = self._engine.pdf(document)
        problems += told.plan(card, chosen.plan, chosen.context["title_wraps"])
        problems += gates.faces(card, shop, document, chosen.setting.fit, stock, chosen.parts, self._fonts)
        problems += tuple(told.engine(card, message) for message in heard)
        return Printed(pdf, len(document.pages), chosen.setting.fit.sizes, problems, document)

    def deck(
        self, cards: Sequence[Card], shop: Shop, stock: Stock, read_from: ReadFrom, theme: str = "colour"
    ) -> Printed:
        """Cards one after the other in one PDF, each with its own faces counted; at least one card."""
        return self.join([self.card(card, shop, stock, read_from, theme) for card in cards])

    def join(self, printed: Sequence[Printed]) -> Printed:
        """Printed cards in one PDF, tags kept; its title is the first card's."""
        pages = [page for one in printed for page in one.document.pages]
        document = printed[0].document.copy(pages)
        with listening() as heard:
            pdf = self._engine.pdf(document)
        problems = tuple(problem for one in printed for problem in one.problems)
        smallest = min((one.sizes for one in printed), key=lambda sizes: sizes.minutes)
        return Printed(pdf, len(pages), smallest, problems + tuple(told.joined(text) for text in heard), document)

    def _choose(self, card: Card, shop: Shop, stock: Stock, read_from: ReadFrom, theme: str) -> _Measured:
        def at(minutes: float) -> _Measured:
            return self._measure(card, shop, self._setting(stock, read_from, theme, minutes), read_from)

        floor = at(LADDER[-1])
        sheets = -(-floor.plan.faces // 2)
        if sheets > _SHEETS_WORTH_IT:
            return floor
        largest = at(LADDER[0])

        def serves(one: _Measured) -> bool:
            worse = len(one.plan.split) > len(floor.plan.split) or len(one.plan.tall) > len(floor.plan.tall)
            return one.plan.faces <= 2 * sheets and not worse

        if serves(largest):
            return largest
        for minutes in LADDER[1:-1]:
            if self._may_serve(largest, floor, stock, read_from, theme, minutes, 2 * sheets):
                between = at(minutes)
                if serves(between):
                    return between
        return floor

    def _may_serve(
        self, large: _Measured, small: _Measured, stock: Stock, read_from: ReadFrom, theme: str, minutes: float, most: int
    ) -> bool:
        """Whether a size between two measured ones is worth measuring: heights grow near enough evenly with the angle."""
        if large.heights.keys() != small.heights.keys():
            return True
        share = (minutes - FLOOR) / (LADDER[0] - FLOOR)
        heights = {key: low + share * (large.heights[key] - low) for key, low in small.heights.items()}
        fit = self._setting(stock, read_from, theme, minutes).fit
        return pack(_parts(heights), _room(fit, heights)).faces <= most

    def _setting(self, stock: Stock, read_from: ReadFrom, theme: str, minutes: float) -> _Setting:
        key = (stock, read_from, theme, minutes)
        if key not in self._settings:
            found, paper = sizes(self._fonts, read_from, minutes), page(stock)
            fit = Fit(self._fonts, found, paper, line(found))
            names = style(fit, THEMES[theme], self._fonts)
            template = self._jinja.get_template("cards/card.css")
            sheets = [self._engine.sheet(template.render(final=final, **names)) for final in (False, True)]
            self._settings[key] = _Setting(fit, THEMES[theme], *sheets)
        return self._settings[key]

    def _measure(self, card: Card, shop: Shop, setting: _Setting, read_from: ReadFrom) -> _Measured:
        context = self._context(card, shop, setting, read_from)
        page_css = context["foot_css"] + f"@page {{ size: {setting.fit.page.width}mm {_ENDLESS}mm }}"
        html = self._render(context, page_css=Markup(page_css), turns={}, faces=8, last="")
        with listening():
            document = self._engine.layout(html, setting.measuring)
        heights = part_heights(document)
        parts = _parts(heights)
        return _Measured(setting, context, heights, parts, pack(parts, _room(setting.fit, heights)))

    def _faces(self, card: Card, chosen: _Measured) -> Any:
        fit, heights, parts = chosen.setting.fit, chosen.heights, chosen.parts
        paper = fit.page
        later_top, first_top = _tops(fit, heights)
        page_css = chosen.context["foot_css"] + (
            f"@page {{ margin-top: {later_top:.3f}mm; margin-bottom: {heights['foot-later'] + paper.foot:.3f}mm }}"
            f"@page :first {{ margin-top: {first_top:.3f}mm; margin-bottom: {heights['foot-first'] + paper.foot:.3f}mm }}"
        )
        numbers = {step.id: str(step.number) for step in card.steps}
        turns = {}
        for face, start in enumerate(chosen.plan.opens[1:], start=2):
            part, before = parts[start], parts[start - 1]
            number = numbers.get(part.step, "")
            continued = number if part.step == before.step else ""
            what = f"rest of {number}" if continued else number or _NAMED.get(part.key, "more")
            turns[part.key] = _Turn(f"{what} {'overleaf' if face % 2 == 0 else f'on face {face}'}", continued)
        last = "" if parts[-1].key == "hold" else parts[-1].key
        html = self._render(
            chosen.context, page_css=Markup(page_css), turns=turns, faces=chosen.plan.faces, last=last
        )
        return self._engine.layout(html, chosen.setting.final)

    def _render(self, context: Mapping[str, Any], **more: Any) -> str:
        return self._jinja.get_template("cards/card.html").render(**context, **more)

    def _context(self, card: Card, shop: Shop, setting: _Setting, read_from: ReadFrom) -> dict[str, Any]:
        fit, theme = setting.fit, setting.theme
        least = points(read_from.title, FLOOR, self._fonts.face(HEAD).cap)
        title_size = fit.title(card.title, fit.sizes.title, least)
        site = shop.site.rstrip("/")
        address = f"{site}/{card.address}.html" if site else f"{card.address}.html"
        code, side = qr(f"{address}#r={card.revision}", theme.ink) if site else ("", 0.0)
        lines = [shop.name, f"issued {shop.approved_on}, {shop.approved_by}", "not yet approved"]
        who = max(fit.width(text, TEXT, fit.sizes.hand) for text in lines) + 1
        who = min(who, fit.page.across * 0.38)
        draw = self._draw
        drawings = {
            key: Markup(draw(scene, fit.text, fit.sizes.step, theme.name)) for key, scene in card.scenes.items()
        } if draw else {}
        return {
            "card": card,
            "shop": shop,
            "title_size": round(title_size, 2),
            "title_wraps": fit.width(card.title, HEAD, title_size) > fit.page.across,
            "scale": Markup(scale(card.stage, fit.page.across, self._fonts, fit.sizes, theme)),
            "qr": Markup(code),
            "address": address.removeprefix("https://").removeprefix("http://"),
            "foot_css": f"table.foot td.qr {{ width: {side}mm }} table.foot td.who {{ width: {who:.3f}mm }}",
            "drawings": drawings,
            "value_table": fit.value_table,
            "tables_of": lambda grid, key: tables(grid, fit, key),
            "arms_of": lambda path: arms(path, fit),
            "hold_beside": fit.hold_beside,
            "reading_count": fit.reading_count,
            "boxes_at_most": BOXES_AT_MOST,
        }


_NAMED = {"hold": "hold", "record": "record"}
_MARGINS = ("head-first", "head-later", "foot-first", "foot-later")


def _parts(heights: Mapping[str, float]) -> tuple[Part, ...]:
    """The parts in reading order, the title glued to what follows it.

    A table is measured whole as its first row's part, the other rows on their own and its head beside them ("~").
    """
    rest: dict[str, float] = {}
    for key, height in heights.items():
        table, _, row = key.rpartition("/")
        if f"~{table}" in heights and row != "1":
            rest[table] = rest.get(table, 0.0) + height
    parts = []
    glued = heights["title"]
    for key, height in heights.items():
        if key in _MARGINS or key == "title" or key.startswith("~"):
            continue
        table, _, row = key.rpartition("/")
        again = heights.get(f"~{table}", 0.0) if row != "1" else 0.0
        parts.append(Part(key, height + glued - (rest.get(table, 0.0) if row == "1" else 0.0), again))
        glued = 0.0
    return tuple(parts)


def _tops(fit: Fit, heights: Mapping[str, float]) -> tuple[float, float]:
    """Top margins of later faces and of the first."""
    paper = fit.page
    return paper.top + heights["head-later"], max(paper.top + heights["head-first"], paper.row_bottom)


def _room(fit: Fit, heights: Mapping[str, float]) -> Room:
    paper, text_line = fit.page, 1.24 * fit.sizes.step * _MM
    later_top, first_top = _tops(fit, heights)
    slack = 0.3  # mm: layout rounds
    return Room(
        first=paper.height - first_top - heights["foot-first"] - paper.foot - slack,
        later=paper.height - later_top - heights["foot-later"] - paper.foot - slack,
        arrow=fit.line.gap + text_line,
        label=text_line,
    )
