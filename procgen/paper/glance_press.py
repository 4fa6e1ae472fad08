"""The printer of glance cards: a Card in, a PDF out, a face each decision."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Any

from jinja2 import Environment
from markupsafe import Markup

from procgen.draw.fonts import HEAD, Fonts
from procgen.model.card import Card, Shop
from procgen.model.workshop import ReadFrom, Stock
from procgen.paper import gates, told
from procgen.paper.arms import ArmRow, arms
from procgen.paper.card_css import card_css
from procgen.paper.context import address_of, foot_widths
from procgen.paper.engine import Engine, listening
from procgen.paper.faces import face, room_of
from procgen.paper.fit import Fit
from procgen.paper.glance import ASK, FULL, Shown, View, apart, fold, said, views
from procgen.paper.page import glance_line, page
from procgen.paper.pieces import Known, Pieces
from procgen.paper.placing import Face, place
from procgen.paper.printed import Printed
from procgen.paper.setting import Setting
from procgen.paper.sizes import FLOOR, LADDER, POINT, points, sizes
from procgen.paper.stage_mark import scale
from procgen.paper.theme import THEMES
from procgen.paper.words import typed

_ACTION = 1.25
"""How much farther off than the rest actions and figures are to be seen."""

_TITLES = (2.0, 1.5)
"""And the title: it gives way where that shows another branch."""

_OVER = 0.25
"""Of the size of large letters: how far they reach out of a line as close as theirs."""


@dataclass(frozen=True)
class _Order:
    """What a card is printed for."""

    card: Card
    shop: Shop
    stock: Stock
    read_from: ReadFrom
    theme: str


@dataclass(frozen=True)
class _Seen:
    """A setting, the distance that it is made for, mm, and the title's floor, pt."""

    setting: Setting
    distance: float
    least_title: float


@dataclass(frozen=True)
class _Planned:
    """A card in one size: what of it the faces show."""

    seen: _Seen
    context: Mapping[str, Any]
    heights: Mapping[str, float]
    room: float  # mm, on a face
    shown: tuple[Shown, ...]
    tall: tuple[View, ...]  # not even their first branch has room

    def may_show_as_much_at(self, minutes: float) -> bool:
        """Told without a layout: in larger type everything is higher by as much at least."""
        by = minutes / self.seen.setting.fit.sizes.minutes
        heights = {key: height * by for key, height in self.heights.items()}
        return all(fold(one.view, heights, self.room).arms >= one.arms for one in self.shown)

    def is_no_less_than(self, other: _Planned) -> bool:
        """Whether it shows as much."""
        fewer = len(self.tall) > len(other.tall) or len(self.shown) < len(other.shown)
        return not fewer and _arms_shown(self) >= _arms_shown(other)


def _arms_shown(planned: _Planned) -> int:
    return sum(one.arms for one in planned.shown)


class GlancePress:
    """Kept for a process's life; templates and engine are the card press's."""

    def __init__(self, fonts: Fonts, templates: Environment, engine: Engine) -> None:
        self._fonts, self._jinja, self._engine, self._known = fonts, templates, engine, Known()
        self._settings: dict[tuple[Stock, ReadFrom, str, float, float], _Seen] = {}

    def card(self, card: Card, shop: Shop, stock: Stock, read_from: ReadFrom, theme: str = "colour") -> Printed | None:
        """The card's glance card at the largest type that shows as much as the floor does; None where it has neither
        limits nor decisions, or none that a face can hold."""
        order = _Order(card, shop, stock, read_from, theme)
        faces = views(card)
        planned = self._plan(order, faces, FLOOR, _TITLES[-1])
        if any(view.rows for view in planned.tall):
            faces = tuple(one for view in faces for one in (apart(view) if view in planned.tall else (view,)))
            planned = self._plan(order, faces, FLOOR, _TITLES[-1])
        if not planned.shown:
            return None
        for title in _TITLES:
            for minutes in LADDER:
                if planned.may_show_as_much_at(minutes) and (
                    larger := self._plan(order, faces, minutes, title)
                ).is_no_less_than(planned):
                    return self._print(order, larger)
        return self._print(order, planned)

    def _print(self, order: _Order, planned: _Planned) -> Printed:
        card, shop, stock = order.card, order.shop, order.stock
        setting, shown = planned.seen.setting, planned.shown
        texts = tuple(said(card, shop, shown))
        problems = gates.coverage(card, texts, self._fonts)
        pieces = setting.pieces.take(self._render(planned.context, shown, len(shown)))
        faces = [_face(setting.fit, pieces, one, number) for number, one in enumerate(shown, start=1)]
        document = place(setting.blank, f"{card.title} at a glance, {card.family_name}", faces, pieces.steps)
        with listening() as drawing:
            pdf = self._engine.pdf(document, card.address)
        problems += gates.wide_words(card, texts, setting.fit)
        problems += told.glance(card, shown, planned.tall, setting.fit.sizes, planned.seen.distance)
        keys = [f"{one.view.key}/head" for one in shown]
        keys += [f"{one.view.key}/{n}" for one in shown for n in range(1, one.arms + 1)]
        problems += gates.faces(card, texts, document, setting.fit, stock, keys, self._fonts)
        problems += tuple(told.engine(card, message) for message in (*pieces.heard, *drawing))
        return Printed(pdf, len(document.pages), setting.fit.sizes, problems, document)

    def _plan(self, order: _Order, faces: Sequence[View], minutes: float, title: float) -> _Planned:
        seen = self._seen(order, minutes, title)
        setting, names = seen.setting, _context(order, seen, self._fonts)
        every = tuple(Shown(view, len(view.path.arms) if view.path else 0) for view in faces)
        heights = setting.pieces.take(self._render(names, every, 0)).heights
        room = room_of(setting.fit, heights).first - _OVER * setting.fit.sizes.value * POINT
        folded = [fold(view, heights, room) for view in faces]
        tall = tuple(one.view for one in folded if one.view.path is not None and not one.arms)
        shown = tuple(one for one in folded if one.view not in tall or _has_room(one.view, heights, room))
        return _Planned(seen, names, heights, room, shown, tall)

    def _seen(self, order: _Order, minutes: float, title: float) -> _Seen:
        key = (order.stock, order.read_from, order.theme, minutes, title)
        if key not in self._settings:
            distance = order.read_from.glance
            tiers = replace(order.read_from, steps=distance, values=_ACTION * distance, title=title * distance)
            found, theme = sizes(self._fonts, tiers, minutes), THEMES[order.theme]
            fit = Fit(self._fonts, found, page(order.stock), glance_line(found))
            name = str(len(self._settings))
            setting = Setting(self._engine, fit, theme, partial(card_css, self._jinja, fit, theme), self._known, name)
            self._settings[key] = _Seen(setting, distance, points(distance, FLOOR, self._fonts.face(HEAD).cap))
        return self._settings[key]

    def _render(self, context: Mapping[str, Any], shown: Sequence[Shown], faces: int) -> str:
        """`faces`: how many get a foot, where that is known."""
        return self._jinja.get_template("cards/glance.html").render(**context, shown=shown, numbered=faces)


def _has_room(view: View, heights: Mapping[str, float], room: float) -> bool:
    """Whether a face can ask its question and send to the full card, in one line or two."""
    return heights[f"{view.key}/head"] + 2 * heights[f"{view.key}/ask"] <= room


def _face(fit: Fit, pieces: Pieces, one: Shown, number: int) -> Face:
    rows = [str(n) for n in range(1, one.arms + 1)] + (["ask"] if one.folded else [])
    body = [pieces.named(f"{one.view.key}/{row}") for row in ("head", *rows)]
    return face(fit, pieces, f"foot/{number}", body, number == 1, {})


def _context(order: _Order, seen: _Seen, fonts: Fonts) -> dict[str, Any]:
    """Names for `cards/glance.html`."""
    card, shop, fit, theme = order.card, order.shop, seen.setting.fit, seen.setting.theme
    address, code, side = address_of(card, shop, theme)
    alone = replace(card.stage, before="", after="")  # no neighbours in small type
    return {
        "card": card,
        "shop": shop,
        "distance": f"{seen.distance / 1000:g}",
        "title_size": round(fit.title(card.title, fit.sizes.title, seen.least_title), 2),
        "scale": Markup(scale(alone, fit.page.across, fonts, fit.sizes, theme)),
        "qr": Markup(code),
        "address": typed(address),
        **foot_widths(side, shop, fit),
        "value_table": fit.value_table,
        "arms_of": partial(_arms, fit),
    }


def _arms(fit: Fit, shown: Shown) -> tuple[bool, tuple[float, float, float], Sequence[ArmRow], ArmRow]:
    """Form and columns that all branches are set in, whether shown or not; those that are shown; the one that asks."""
    assert shown.view.path is not None
    every = arms(replace(shown.view.path, arms=(*shown.view.path.arms, ASK)), fit)
    rows = [replace(row, classes="") for row in every.rows[: shown.arms]]
    if not shown.folded:
        rows[-1] = replace(rows[-1], classes="last")
    rest = every.rows[-1] if shown.arms else replace(every.rows[-1], arm=FULL, above=(), on=None)
    return every.long, every.widths, rows, rest
