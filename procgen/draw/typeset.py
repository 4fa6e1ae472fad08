"""Text as it is set in type: what paper and pages do alike."""

from __future__ import annotations

import re
from collections.abc import Callable

from markupsafe import Markup, escape

from procgen.model.card import Prose

NBSP = "\u00a0"

_APOSTROPHE = re.compile(r"(?<=\w)'(?=\w)|(?<=s)'(?=\s|$)")

Set = Callable[[str], str]


def typeset(text: str) -> str:
    """With typeset apostrophes; `templates/site/live/dom.js` has the same for what a page says by itself."""
    return _APOSTROPHE.sub("\u2019", text) if "'" in text else text


def marked_up(runs: Prose, words: Set, figure: Set) -> Markup:
    """Runs as HTML, escaped; `words` and `figure` say how each is set."""
    parts = []
    for run in runs:
        text = escape(figure(run.text) if run.figure else words(run.text))
        if run.emphasis:
            text = Markup("<i>{}</i>").format(text)
        if run.strong:
            text = Markup("<b>{}</b>").format(text)
        parts.append(text)
    return Markup("").join(parts)


def as_sentence(text: str) -> str:
    """A capital first, a stop last."""
    text = text.strip()
    return text and text[0].upper() + text[1:] + ("" if text[-1] in ".?!" else ".")


def as_deferral(text: str) -> str:
    """What a caution defers to, as a sentence of its own."""
    return f"Go by {text.strip().rstrip('.')}."
