"""What is held against what, and what for."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Row:
    """`one` and `base` are names of figures that a round finds; `needs` a peer that may not be there; `once`: measured
    in the first round only."""

    name: str
    what: str
    one: str
    other: str
    base: str
    goal: float
    needs: str = ""
    once: bool = False


ROWS = (
    Row("naive", "full cold make, {small} cards, 2 workers", "cold-2", "naive WeasyPrint, PDF alone", "naive", 0.42),
    Row("chromium", "the same", "cold-2", "Chromium, one warm session, tagged", "chromium", 0.75, "chromium"),
    Row("one", "the same with 1 worker", "cold-1", "naive", "naive", 0.80),
    Row("site", "site alone, {large} cards", "site", "full cold make", "large", 0.05),
    Row("kept", "cache kept, output gone, {large} cards", "gone", "full cold make", "large", 0.02),
    Row("family", "one family of {families} edited, {large} cards", "family", "full cold make", "large", 0.12),
    Row("card", "one card edited, new process", "card", "one `weasyprint` command on its HTML", "command", 1.15),
    Row("watch", "one card edited, `watch` resident", "watch", "Typst, {deck} like cards", "typst", 0.5, "typst"),
    Row("nothing", "nothing changed, {large} cards", "nothing", "`python -c pass`", "pass", 3.0),
    Row("help", "`procgen --help`", "help", "`python -c pass`", "pass", 2.5),
    Row("check", "`procgen check`, {large} cards", "check", "full cold make", "large", 0.05),
    Row("time", "time a card at {huge}", "huge per card", "at {small}", "cold-2 per card", 1.05, once=True),
    Row("worker", "most memory of a worker at {huge}", "huge worker", "at {small}", "cold-2 worker", 1.2, once=True),
    Row("parent", "most memory of the parent at {huge}", "huge parent", "at {small}", "cold-2 parent", 1.2, once=True),
)
