"""What pages fetch beside themselves, as classic scripts: cards' live data, what cards say, and the search index."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence

from procgen.compose.revision import dump
from procgen.ledger.change import Change
from procgen.ledger.changes import told
from procgen.ledger.standing import since
from procgen.model.card import Card, Deck, Panel, plain
from procgen.model.ledger import Ledger
from procgen.web.part import Files
from procgen.web.slices import of_page
from procgen.web.tools import Tools


def live(tools: Tools, family: str, variants: Sequence[tuple[str, str]], live: Mapping[str, str]) -> Files:
    """What each page of a family judges by. `live`: of each card that reads or decides anything, by its id."""
    cards = {id: json.loads(text) for id, text in live.items()}
    files = {}
    for id in cards:
        content = of_page(id, cards)
        content["shared"]["names"] = dict(variants)
        files[f"data/{family}/{id}.js"] = _put(f"{family}/{id}", content)
    return files


def said(tools: Tools, card: Card, ledger: Ledger) -> Files:
    """What the card says, as `ledger.changes.told` takes it apart; and of each superseded revision that the ledger
    knows, the day it was last printed and what changed since: null where nobody can say, a text for what is
    short, else [what, was, now].
    """
    days = {one.revision: one.on for one in ledger.prints if one.address == card.address}
    printed = {
        code: {"on": days.get(code, ""), "changes": None if found is None else list(map(_change, found))}
        for code, found in since(ledger, card).items()
    }
    content = {"items": told("\n".join(dump(card))), "printed": printed}
    return {f"data/{card.address}.said.js": _put(f"{card.address}.said", content)}


def _change(one: Change) -> object:
    return [one.what, one.was, one.now] if one.is_long else one.said


def search(decks: Sequence[Deck]) -> bytes:
    """Every line once: its kind, its words, the cards that say it, where on them it stands."""
    cards = [card for deck in decks for card in deck.cards]
    lines: dict[tuple[str, str, str], list[int]] = {}
    for number, card in enumerate(cards):
        for line in dict.fromkeys(_lines(card)):
            lines.setdefault(line, []).append(number)
    ordered = sorted(lines.items(), key=lambda item: (_KINDS.index(item[0][0]), item[1][0]))
    content = {
        "cards": [[card.family_name, card.title, card.address] for card in cards],
        "lines": [[kind, text, found, anchor] for (kind, text, anchor), found in ordered],
    }
    return _put("search", content)


_KINDS = ("card", "plug", "value", "step", "caution")


def _lines(card: Card) -> Iterator[tuple[str, str, str]]:
    """Kind, words, and the id on the page."""
    yield "card", f"{card.title}: {card.question}".rstrip(": "), ""
    for panel in card.panels:
        yield "caution", _caution(panel), ""
    for step in card.steps:
        at = f"step-{step.id}"
        for panel in step.panels:
            yield "caution", _caution(panel), at
        yield "step", f"{plain(step.action)} {plain(step.detail)}".strip(), at
        for row in step.rows:
            yield "value", row.label, at
        for grid in step.grids:
            if "plug" in grid.head[0]:
                yield from (("plug", f"{member} {grid.head[0]}", at) for member, _ in grid.rows)
        for box in step.boxes:
            yield "value", box.title, at
        for decision in step.decisions:
            yield "step", decision.title, at
    for origin in card.origins.values():
        yield "value", origin.title, ""


def _caution(panel: Panel) -> str:
    return f"{panel.level}: {panel.hazard} {panel.avoid}"


def _put(name: str, content: object) -> bytes:
    text = json.dumps(content, ensure_ascii=False, separators=(",", ":"))
    return f"Data.put({json.dumps(name)},{text})\n".encode()
