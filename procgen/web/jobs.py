"""What the page of a job shows beside its packet."""

from __future__ import annotations

from markupsafe import Markup

from procgen.draw.verdict_bar import verdict_bar
from procgen.model.packet import WAITING, Finding, Line, Packet
from procgen.model.verdict import CLEAR, CLOSE, PERSON
from procgen.web.words import tidy

BAR = 46.0  # mm of the drawing, which the style sheet stretches


def told(packet: Packet) -> tuple[Finding, ...]:
    """The findings of cards that were begun, and whatever else is settled."""
    begun = {one.card for one in packet.progress if one.state != WAITING}
    return tuple(f for f in packet.findings if f.card in begun or f.state in (CLEAR, CLOSE, PERSON))


def bar(line: Line) -> Markup:
    return Markup(tidy(verdict_bar(line, BAR)))
