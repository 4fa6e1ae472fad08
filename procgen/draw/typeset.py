"""Text as it is set in type."""

from __future__ import annotations

import re

_APOSTROPHE = re.compile(r"(?<=\w)'(?=\w)|(?<=s)'(?=\s|$)")


def typeset(text: str) -> str:
    """With typeset apostrophes; `templates/site/live/dom.js` has the same for what a page says by itself."""
    return _APOSTROPHE.sub("\u2019", text)
