"""Text on its way into a template: escaped, and with numbers and units that never part."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import lru_cache
from itertools import pairwise

from markupsafe import Markup

from procgen.draw.typeset import NBSP, as_deferral, as_sentence, marked_up, typeset
from procgen.model.card import Figure, Prose

_RELATION = re.compile("([<>≤≥±]) ")


@lru_cache(maxsize=8192, typed=True)  # marked-up text stays that; a card's are asked for again by gates and measures
def tidy(text: str) -> str:
    """As it is printed: a typeset apostrophe, the plain unbreaking space, which every face has, and no line's end
    between a relation and its figure."""
    return _RELATION.sub(rf"\1{NBSP}", typeset(text.replace("\u202f", NBSP)))


def joined(text: str) -> str:
    """A figure: all its spaces unbreaking."""
    return tidy(text).replace(" ", NBSP)


def is_words(figure: Figure) -> bool:
    """Whether a figure is words or a name, set in the text face, where 0 and O differ; not a number."""
    return any(character.isalpha() for character in figure.text)


def prose(runs: Prose) -> Markup:
    """Runs as HTML, escaped, with the space before emphasis inside it: WeasyPrint may else end that line too early."""
    moved = list(runs)
    for at, (run, after) in enumerate(pairwise(runs)):
        if (after.emphasis or after.strong) and not after.figure and run.text.endswith(" "):
            moved[at] = replace(moved[at], text=moved[at].text[:-1])
            moved[at + 1] = replace(after, text=f" {after.text}")
    return marked_up(tuple(moved), tidy, joined)


def sentence(text: str) -> str:
    """As a sentence: a capital first, a stop last."""
    return as_sentence(tidy(text))


def deferral(text: str) -> str:
    """What a caution defers to, as a sentence of its own."""
    return as_deferral(tidy(text))


def breakable(address: str) -> Markup:
    """An address that may break after its slashes."""
    return Markup("/\u200b").join(address.split("/"))


def typed(address: str) -> str:
    """An address as it is printed: people type it without its beginning."""
    return address.removeprefix("https://").removeprefix("http://")
