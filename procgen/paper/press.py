"""The card printer: a Card in, a PDF out, at the largest type that costs no further sheet."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property, partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from procgen.draw.fonts import HEAD, Fonts
from procgen.draw.signs import Signs
from procgen.draw.svg import Drawer
from procgen.files.memory import digest
from procgen.files.problems import Place, Problem
from procgen.files.templating import environment
from procgen.model.card import Card, Shop
from procgen.model.workshop import ReadFrom, Sheets, Stock
from procgen.paper import gates, told, words
from procgen.paper.boxes import pages
from procgen.paper.bundles import Bundles, Shelf
from procgen.paper.card_css import card_css
from procgen.paper.content import drawn, said
from procgen.paper.context import Draw, context
from procgen.paper.context import drawn as drawings_of
from procgen.paper.engine import Engine, listening
from procgen.paper.faces import Heights, Turn, ended, faces_of, parts_of, room_of, turns
from procgen.paper.fit import Fit
from procgen.paper.imposing import grid
from procgen.paper.ink import meet
from procgen.paper.narrow import narrowed
from procgen.paper.pack import Part, Plan, ends_alone, pack
from procgen.paper.page import line, page
from procgen.paper.pictures import blank, picture
from procgen.paper.pieces import Known
from procgen.paper.placing import place
from procgen.paper.printed import Printed
from procgen.paper.setting import Setting
from procgen.paper.sizes import FLOOR, LADDER, points, sizes
from procgen.paper.theme import THEMES
from procgen.units.lists import listed
from procgen.units.printing import headed

if TYPE_CHECKING:  # what one card does not need is imported where it is used: most of an edit is getting ready
    from procgen.paper.glance_press import GlancePress
    from procgen.paper.lead import Listed
    from procgen.paper.packet import PacketPress

_SHEETS_WORTH_IT = 3


@dataclass(frozen=True)
class _Order:
    """What a card is printed for."""

    shop: Shop
    stock: Stock
    read_from: ReadFrom
    theme: str


@dataclass(frozen=True)
class _Measured:
    """A card in one size: its heights, and what stands on which face."""

    setting: Setting
    context: Mapping[str, Any]
    heard: tuple[str, ...]
    heights: Heights
    parts: tuple[Part, ...]
    plan: Plan

    def is_no_worse_than(self, other: _Measured) -> bool:
        """Whether no more is cut, overflows or stays undrawn, and no face is added to sign on alone."""
        mine, theirs = self.plan, other.plan
        drawn = len(self.context["undrawn"]) <= len(other.context["undrawn"])
        signed = ends_alone(other.parts, theirs) or not ends_alone(self.parts, mine)
        return drawn and signed and len(mine.split) <= len(theirs.split) and len(mine.tall) <= len(theirs.tall)


class Press:
    """Kept for a process's life; hand it cards one after the other.

    `templates`: directories in which `cards/card.html` and the like are looked for, the first that has one wins.
    `draw` makes a scene into an SVG; the Drawer does, unless another is handed in.
    """

    def __init__(self, fonts: Fonts, templates: Sequence[Path], draw: Draw | None = None) -> None:
        self._fonts, self._templates = fonts, templates
        self._draw = draw or Drawer(fonts, templates)
        self._signs = Signs(templates)
        self._engine = Engine(fonts)
        self._known = Known()
        self._bundles = Bundles(self._known)
        self._has_met_fonts = False
        self._settings: dict[tuple[Stock, ReadFrom, str, float], Setting] = {}
        self._jinja = environment(templates)
        for name in ("tidy", "joined", "prose", "sentence", "deferral", "breakable"):
            self._jinja.filters[name] = getattr(words, name)
        self._jinja.filters.update(listed=listed, picture=picture, blank=blank, headed=headed)
        self._jinja.tests["words"] = words.is_words

    @cached_property
    def glances(self) -> GlancePress:
        """The printer of glance cards that shares this one's engine."""
        from procgen.paper.glance_press import GlancePress

        self._meet_fonts()
        return GlancePress(self._fonts, self._jinja, self._engine)

    @cached_property
    def packets(self) -> PacketPress:
        """The printer of packets that shares this one's engine."""
        from procgen.paper.packet import PacketPress

        return PacketPress(self._fonts, self._templates, self._engine)

    def get_ready(self, shop: Shop, stock: Stock, read_from: ReadFrom, theme: str = "colour") -> None:
        """Read the style in which most cards are set."""
        _ = self._setting(_Order(shop, stock, read_from, theme), FLOOR).blank
        self._meet_fonts()

    def recall(self, name: str, shelf: Shelf) -> None:
        """Remember what any process laid out when it last printed what is kept on that shelf under that name. Its code,
        templates, fonts and libraries must be ours."""
        self._meet_fonts()
        self._bundles.recall(name, shelf)

    def keep(self, name: str) -> Mapping[str, bytes]:
        """What to put on the shelf, so that the card that was just printed can be recalled."""
        return self._bundles.keep(name)

    def card(self, card: Card, shop: Shop, stock: Stock, read_from: ReadFrom, theme: str = "colour") -> Printed:
        """One card as a PDF of its own, tagged (PDF/UA-1).

        It takes the largest size of the ladder that needs no more sheets than the floor does: paper has two sides, so a
        back that would stay empty is spent on larger type. A card of many sheets is set at the floor: there larger type
        gains little, and each try costs as much as the card.
        """
        self._meet_fonts()
        self._known.touched.clear()
        texts = tuple(said(card, shop))
        problems = gates.coverage(card, (*texts, *drawn(card)), self._fonts)
        chosen = self._choose(card, _Order(shop, stock, read_from, theme))
        document, heard = self._faces(card, chosen)
        with listening() as drawing:
            pdf = self._engine.pdf(document, card.address)
        problems += gates.wide_words(card, texts, chosen.setting.fit)
        problems += told.plan(card, chosen.plan, chosen.context["title_wraps"], read_from)
        problems += tuple(told.undrawn(card, key, why) for key, why in chosen.context["undrawn"].items())
        if not chosen.plan.tall:  # else the gates would only tell of its echoes
            keys = [part.key for part in chosen.parts]
            problems += gates.faces(card, texts, document, chosen.setting.fit, stock, keys, self._fonts)
        problems += tuple(told.engine(card, message) for message in dict.fromkeys((*heard, *drawing)))
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

    def sheets(
        self, pdfs: Sequence[bytes], cards: Sequence[Listed], family: str, shop: Shop, stock: Stock, sheets: Sheets
    ) -> tuple[bytes, tuple[Problem, ...]]:
        """The cards of a family of that name, in these PDFs, several to a sheet; b"" where they fit on none."""
        from procgen.paper.lead import lead
        from procgen.paper.sheets import sheets_pdf  # pikepdf among it

        one = grid(stock, sheets)
        if one is None:
            return b"", (told.no_sheet(stock, sheets),)
        title = f"Sheets, {family}"
        names = lead(title, cards, shop, stock, one, sheets.duplex)
        page = self._engine.layout(self._jinja.get_template("cards/lead.html").render(**names))
        faces = [card.faces for card in cards]
        return sheets_pdf(pdfs, faces, stock, one, sheets.duplex, self._engine.pdf(page), title), ()

    def _meet_fonts(self) -> None:
        """So that what was drawn in another process can be set here, and is always set alike."""
        if not self._has_met_fonts:
            meet(self._engine.layout(self._fonts.sample()))
            self._has_met_fonts = True

    def _choose(self, card: Card, order: _Order) -> _Measured:
        return self._narrowed(card, self._sized(card, order))

    def _sized(self, card: Card, order: _Order) -> _Measured:
        floor = self._measure(card, order, FLOOR)
        sheets = -(-floor.plan.faces // 2)
        if sheets > _SHEETS_WORTH_IT:
            return floor
        larger: _Measured | None = None
        for minutes in LADDER[:-1]:
            if self._expected_faces(order, minutes, floor, larger) <= 2 * sheets:
                larger = self._measure(card, order, minutes)
                if larger.plan.faces <= 2 * sheets and larger.is_no_worse_than(floor):
                    return larger
        return floor

    def _narrowed(self, card: Card, chosen: _Measured) -> _Measured:
        """With narrower drawings, where that saves a face."""
        setting, names = chosen.setting, chosen.context
        fit, room = setting.fit, room_of(setting.fit, chosen.heights)

        def draw(share: float) -> Mapping[str, str]:
            return drawings_of(card, round(share * fit.text, 3), fit, setting.theme, self._draw)[0]

        found = narrowed(card, chosen.parts, room, chosen.plan, names["drawings"], draw)
        if found is None:
            return chosen
        parts, plan, drawings = found
        return replace(chosen, parts=parts, plan=plan, context={**names, "drawings": drawings})

    def _expected_faces(self, order: _Order, minutes: float, floor: _Measured, larger: _Measured | None) -> int:
        """How many faces a size would take at best, by growth from the floor or between two measured sizes.

        Heights grow nearly evenly between sizes. Where only the floor is measured, by less than the power of the size
        that text in a column shows (1.4 to 2.1 over a deck), so that no size is passed over that might serve.
        """
        low, small = floor.heights, floor.setting.fit.sizes.minutes
        if larger is None:
            heights = {key: height * (minutes / small) ** 1.4 for key, height in low.items()}
        elif larger.heights.keys() != low.keys():
            return 0
        else:
            share = (minutes - small) / (larger.setting.fit.sizes.minutes - small)
            heights = {key: height + share * (larger.heights[key] - height) for key, height in low.items()}
        return pack(parts_of(heights), room_of(self._setting(order, minutes).fit, heights)).faces

    def _setting(self, order: _Order, minutes: float) -> Setting:
        key = (order.stock, order.read_from, order.theme, minutes)
        if key not in self._settings:
            name = digest(repr((replace(order.stock, place=Place("")), *key[1:])))
            found, paper = sizes(self._fonts, order.read_from, minutes), page(order.stock)
            fit, theme = Fit(self._fonts, found, paper, line(found)), THEMES[order.theme]
            self._settings[key] = Setting(
                self._engine, fit, theme, partial(card_css, self._jinja, fit, theme), self._known, name
            )
        return self._settings[key]

    def _measure(self, card: Card, order: _Order, minutes: float) -> _Measured:
        setting = self._setting(order, minutes)
        least_title = points(order.read_from.title, FLOOR, self._fonts.face(HEAD).cap)
        names = context(card, order.shop, setting.fit, setting.theme, least_title, self._draw, self._signs.draw)
        measured = setting.pieces.measure(self._render(names, {}, 0))
        heights = measured.heights
        parts = parts_of(heights)
        return _Measured(setting, names, measured.heard, heights, parts, pack(parts, room_of(setting.fit, heights)))

    def _faces(self, card: Card, chosen: _Measured) -> tuple[Any, tuple[str, ...]]:
        """The document, and what the engine warned of."""
        setting, plan = chosen.setting, chosen.plan
        turning = turns(card, chosen.parts, plan)
        pieces = setting.pieces.take(self._render(chosen.context, turning, plan.faces))
        (blank,) = pages(setting.blank)
        for piece in pieces.all:  # what has no place on these faces too: it may have one in the next card
            piece.ink.draw(piece.boxes, blank)
        placed = faces_of(setting.fit, pieces)
        title = f"{card.title}, {card.family_name}"
        return place(setting.blank, title, placed, pieces.steps), (*chosen.heard, *pieces.heard)

    def _render(self, context: Mapping[str, Any], turning: Mapping[str, Turn], faces: int) -> str:
        """`faces`: how many get a number, where that is known."""
        template = self._jinja.get_template("cards/card.html")
        html = template.render(**context, number=8, faces=8, turns=turning, numbered=faces, seated=False)
        return html if context["card"].hold else ended(html)


__all__ = ["Press", "Printed"]
