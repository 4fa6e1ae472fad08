"""A deck of like cards for Typst: the words, figures, tables, boxes and drawings of ours, in plain settings.

Run as a process with a Python that has Typst: `python typst_deck.py DECK.typ`.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from procgen.model.card import Card, Figure, Panel, StepItem

_HEAD = """#set document(title: "Deck")
#set page(width: 148mm, height: 210mm, margin: 8mm, footer: context [face #counter(page).display()])
#set text(size: 14pt, lang: "en")
#let panel(level, words) = block(stroke: 1pt, inset: 4pt, width: 100%)[*#level* #words]
#let fill = box(width: 30mm, height: 11mm, stroke: 1pt)
"""


def write(cards: Sequence[Card], draw: Callable[[object], str], path: Path) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    lines = [_HEAD]
    for number, card in enumerate(cards):
        lines += _card(card, f"{number}", draw, path.parent)
    path.write_text("\n".join(lines))


def _s(text: str) -> str:
    """Text as code: nothing in it is markup."""
    return "#" + json.dumps(text, ensure_ascii=False)


def _card(card: Card, name: str, draw: Callable[[object], str], folder: Path) -> Iterator[str]:
    from procgen.model.card import plain

    yield f"#pagebreak(weak: true)\n= {_s(card.title)}\n{_s(card.question)}\n\n{_s(plain(card.reason))}"
    yield f"*Bring* {_s(', '.join(card.bring))}\n\n*Not yet known:* {_s('; '.join(card.missing))}"
    yield from map(_panel, card.panels)
    for step in card.steps:
        yield from _step(step)
        for key in step.drawings:
            (folder / f"{name}-{key}.svg").write_text(draw(card.scenes[key]))
            yield f'#image("{name}-{key}.svg")'
    if card.hold:
        yield f"*HOLD* {_s(plain(card.hold.text))} #fill"


def _panel(panel: Panel) -> str:
    words = f"{panel.hazard} {panel.consequence} {panel.avoid} {panel.defers_to}"
    return f"#panel[{_s(panel.level)}][{_s(words)}]"


def _step(step: StepItem) -> Iterator[str]:
    from procgen.model.card import Path as Decision
    from procgen.model.card import plain

    yield from map(_panel, step.panels)
    yield f"== {step.number}\n*{_s(plain(step.action))}* {_s(plain(step.detail))}\n"
    yield f"{_s(plain(step.right))} {_s(plain(step.because))}\n"
    if step.rows:
        yield _table(2, [[row.label, " ".join(map(_figure, row.figures))] for row in step.rows])
    for grid in step.grids:
        yield _table(len(grid.head), [grid.head, *([name, *map(_figure, of)] for name, of in grid.rows)])
    for box in step.boxes:
        yield f"*{_s(box.title)}* {_s(' '.join((*box.members, box.gauge, box.where, box.how)))} #fill"
    for decision in step.decisions:
        yield f"*{_s(decision.title)}*"
        if isinstance(decision, Decision):
            yield _table(
                2, [[_conditions(arm.conditions), f"{arm.action} {plain(arm.detail)}"] for arm in decision.arms]
            )
        else:
            yield _s(f"{decision.action} {plain(decision.detail)} {decision.because}")


def _conditions(conditions: object) -> str:
    from procgen.model.card import plain

    return " or ".join(" and ".join(map(plain, clauses)) for clauses in conditions)  # type: ignore[attr-defined]


def _figure(figure: Figure) -> str:
    return f"{figure.relation} {figure.text} {figure.unit}".strip()


def _table(columns: int, rows: Sequence[Sequence[str]]) -> str:
    cells = ", ".join(f"[{_s(cell)}]" for row in rows for cell in row)
    return f"#table(columns: {columns}, {cells})"


if __name__ == "__main__":
    import typst  # type: ignore[import-not-found]

    typst.compile(sys.argv[1], output=sys.argv[1].replace(".typ", ".pdf"))
