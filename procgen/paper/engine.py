"""WeasyPrint on a short lead: one font configuration, only known files read, every warning heard."""

from __future__ import annotations

import logging
import re
from collections.abc import Iterator
from contextlib import contextmanager
from copy import copy
from functools import cache
from typing import Any
from urllib.parse import urlsplit
from xml.etree import ElementTree

import cssselect2
import weasyprint
from weasyprint.html import UA_STYLESHEET
from weasyprint.text.fonts import FontConfiguration
from weasyprint.urls import FatalURLFetchingError, URLFetcher, URLFetcherResponse

from procgen.draw.fonts import Fonts
from procgen.paper.quicker.arrays import name_arrays_once
from procgen.paper.quicker.by_style import ask_styles
from procgen.paper.quicker.deflating import Deflating, squeeze_less
from procgen.paper.quicker.glyphs import find_glyphs_once
from procgen.paper.quicker.images import Images
from procgen.paper.quicker.measures import describe_once
from procgen.paper.quicker.paths import draw_straight_paths
from procgen.paper.quicker.shared_styles import Styles, kept
from procgen.paper.quicker.svg_text import set_lines_whole
from procgen.paper.quicker.undeclared import take_short_way

_IMAGES = 150
"""Kept at most, give or take a card's."""

_SHEETS = 24
"""Sets of style sheets whose styles are kept: some sizes of some stocks, and of packets one each."""

_LOGGER = logging.getLogger("weasyprint")

_PSEUDO = 3
"""Where cssselect2's entry for a rule has what comes after "::"."""

_ASKS_FOR_NOTES = re.compile(r"\bfootnote\b|\bnote\(")


class NotHandedIn(Exception):
    """A template or picture asks for a file that the press was not given."""


class OnlyHanded(URLFetcher):  # type: ignore[misc]
    """Opens the font files that were handed in and data URIs; anything else stops the card."""

    def __init__(self, allowed: frozenset[str]) -> None:
        super().__init__(allowed_protocols=("file", "data"), allow_redirects=False, fail_on_errors=True)
        self._allowed = allowed

    def fetch(self, url: str, headers: dict[str, str] | None = None) -> URLFetcherResponse:
        if urlsplit(url).scheme != "data" and url not in self._allowed:
            raise FatalURLFetchingError(f"not handed in: {url}")
        return super().fetch(url, headers)


class Engine:
    """Kept for as long as a process lives: a second font configuration would leak."""

    def __init__(self, fonts: Fonts) -> None:
        name_arrays_once()
        take_short_way()
        ask_styles()
        describe_once()
        find_glyphs_once()
        squeeze_less()
        draw_straight_paths()
        set_lines_whole()
        self._fetcher = OnlyHanded(frozenset(face.path.resolve().as_uri() for face in fonts.faces))
        self._fonts = FontConfiguration()
        self._images = Images(listening)  # by data URI: the style sheets' shapes, and drawings
        self._styles: dict[tuple[Any, ...], Styles] = {}
        self._has_notes = False
        self.sheet(fonts.css())  # which makes the faces known to the configuration

    def sheet(self, css: str) -> Any:
        self._has_notes |= bool(_ASKS_FOR_NOTES.search(css))
        return weasyprint.CSS(string=css, font_config=self._fonts, url_fetcher=self._fetcher)

    def layout(self, html: str, *sheets: Any) -> Any:
        """The laid-out document (`weasyprint.Document`).

        Raises:
            NotHandedIn: where the card asks for a file that is none of the fonts.
        """
        source = _read(html, self._fetcher, self._has_notes or bool(_ASKS_FOR_NOTES.search(html)))
        if len(self._images) > _IMAGES:
            self._images.clear()
        try:
            with kept(self._styles_of(sheets)):
                return source.render(
                    stylesheets=sheets, font_config=self._fonts, pdf_variant="pdf/ua-1", cache=self._images
                )
        except FatalURLFetchingError as refused:  # not an Exception, so nothing above would expect it
            raise NotHandedIn(str(refused)) from None

    def _styles_of(self, sheets: tuple[Any, ...]) -> Styles:
        """What these sheets have come to so far; without any, the style is in the text itself."""
        styles = self._styles.pop(sheets, {})
        if sheets:
            self._styles[sheets] = styles  # what was used last at the end
        while len(self._styles) > _SHEETS:
            del self._styles[next(iter(self._styles))]
        return styles

    @staticmethod
    def pdf(document: Any, name: str = "") -> bytes:
        """`name`: goes before the names that tags have of one another, so that documents can be joined as they are."""
        with Deflating(document.pages) as deflating:

            def finish(document: Any, pdf: Any) -> None:
                if name:
                    _name_cells(name, pdf)
                deflating.finish(pdf)

            result: bytes = document.write_pdf(pdf_variant="pdf/ua-1", finisher=finish)
        return result


def _name_cells(name: str, pdf: Any) -> None:
    """Those that refer to a cell hold the same string as the cell."""
    for thing in pdf.objects:
        if isinstance(thing, dict) and "ID" in thing and thing.get("Type") == "/StructElem":
            thing["ID"].string = f"{name} {thing['ID'].string}"


def _read(html: str, fetcher: OnlyHanded, has_notes: bool) -> Any:
    """Our templates write what is XML too, which is read in a twentieth of the time; a shop's own need not."""
    try:
        root = ElementTree.fromstring(html)
    except ElementTree.ParseError:
        return weasyprint.HTML(string=html, url_fetcher=fetcher)
    for table in root.iter("table"):
        _group_rows(table)
    return _Tree(root, fetcher, UA_STYLESHEET if has_notes else _plain())


def _group_rows(table: ElementTree.Element) -> None:
    """Rows in a table itself are rows of a body, as in HTML."""
    body = None
    for child in list(table):
        if child.tag != "tr":
            body = None
            continue
        if body is None:
            body = ElementTree.Element("tbody")
            table.insert(list(table).index(child), body)
        table.remove(child)
        body.append(child)


@cache
def _plain() -> Any:
    """WeasyPrint's rules for HTML without those of footnotes: they match every element, and each match makes a style.
    Markers are looked for in lists alone."""
    plain = copy(UA_STYLESHEET)
    matcher = plain.matcher = copy(plain.matcher)
    of_all = matcher.other_selectors
    markers = [rule for rule in of_all if rule[_PSEUDO] == "marker"]
    named = matcher.lower_local_name_selectors
    matcher.other_selectors = [rule for rule in of_all if not rule[_PSEUDO]]
    matcher.lower_local_name_selectors = {**named, "li": [*named["li"], *markers]}
    return plain


class _Tree(weasyprint.HTML):  # type: ignore[misc]
    """A document that is parsed already. `base`: the style of HTML itself."""

    def __init__(self, root: ElementTree.Element, fetcher: OnlyHanded, base: Any) -> None:
        self._base = base
        self.base_url, self.url_fetcher, self.media_type = None, fetcher, "print"
        self.wrapper_element = cssselect2.ElementWrapper.from_html_root(root, content_language=None)
        self.etree_element = self.wrapper_element.etree_element

    def _ua_stylesheets(self, forms: bool = False) -> list[Any]:
        return [self._base]


class _Listener(logging.Handler):
    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.heard: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        self.heard.append(record.getMessage())


@contextmanager
def listening() -> Iterator[list[str]]:
    """What the engine warns of meanwhile, in place of the terminal."""
    listener = _Listener()
    kept, propagated = _LOGGER.handlers[:], _LOGGER.propagate
    _LOGGER.handlers[:] = [listener]
    _LOGGER.propagate = False
    try:
        yield listener.heard
    finally:
        _LOGGER.handlers[:] = kept
        _LOGGER.propagate = propagated


def warn(message: str) -> None:
    """As the engine does."""
    _LOGGER.log(logging.WARNING, "%s", message)
