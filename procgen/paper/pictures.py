"""Drawings as pictures of their own, so that the layout engine reads them as XML and not element by element as text of
the page: no style is worked out for what no style reaches.
"""

from __future__ import annotations

import re
from base64 import b64encode
from html import unescape

from markupsafe import Markup

_TITLE = re.compile(r"<title>(.*?)</title>", re.DOTALL)


def blank(svg: str) -> str:
    """A drawing with nothing in it that takes as much room."""
    return f"{svg[: svg.index('>') + 1]}</svg>"


def picture(svg: str) -> Markup:
    """An <img> of the same size; its alternative is the drawing's title. "" for no drawing."""
    if not svg:
        return Markup("")
    title = _TITLE.search(svg)
    source = f"data:image/svg+xml;base64,{b64encode(svg.encode()).decode()}"
    return Markup('<img src="{}" alt="{}"/>').format(source, unescape(title[1]) if title else "drawing")
