"""What the page of a job shows beside its packet."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from markupsafe import Markup

from procgen.draw.verdict_bar import taken_arm, verdict_bar
from procgen.model.packet import WAITING, Line, Packet
from procgen.model.verdict import CLEAR, CLOSE, PERSON
from procgen.web.words import tidy

BAR = 46.0  # mm of the drawing, which the style sheet stretches


def job_names(packet: Packet) -> Mapping[str, Any]:
    """Names for `site/job.html`: `told` are the findings of cards that were begun, and whatever else is settled."""
    begun = {one.card for one in packet.progress if one.state != WAITING}
    told = [f for f in packet.findings if f.card in begun or f.state in (CLEAR, CLOSE, PERSON)]
    return {"told": told, "bar": bar, "arm": Markup(taken_arm(BAR))}


def bar(line: Line) -> Markup:
    return Markup(tidy(verdict_bar(line, BAR)))
