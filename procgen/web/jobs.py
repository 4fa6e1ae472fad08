"""What the page of a job shows beside its packet."""

from __future__ import annotations

from markupsafe import Markup

from procgen.draw.verdict_bar import verdict_bar
from procgen.model.packet import Line
from procgen.web.words import tidy

BAR = 46.0  # mm of the drawing, which the style sheet stretches


def bar(line: Line) -> Markup:
    return Markup(tidy(verdict_bar(line, BAR)))
