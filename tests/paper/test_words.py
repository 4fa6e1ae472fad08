"""Text on its way into a card's template."""

from __future__ import annotations

from procgen.model.card import Run
from procgen.paper.words import NBSP, prose


def test_the_space_before_emphasis_stands_inside_it() -> None:
    """Between two elements WeasyPrint breaks a line inside the text before a space that stands last in it."""
    assert prose((Run("Find "), Run("all", strong=True), Run(" of "), Run("them", emphasis=True))) == (
        "Find<b> all</b> of<i> them</i>"
    )
    assert prose((Run("under "), Run("5 kPa", figure=True), Run(" "), Run("now", strong=True))) == (
        f"under 5{NBSP}kPa<b> now</b>"
    )
