"""What a card's page judges by: the card's own data whole, and of other cards what its formulas and words ask for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

Json = Any  # of procgen/compose/live.py
Names = dict[str, dict[str, None]]  # by card

_NAMED = ("values", "readings", "decisions")
_ASKED: Mapping[str, tuple[str, ...]] = {
    "values": ("each", "tree", "when", "show", "side"),
    "readings": ("each", "choices", "units", "gauge", "measures", "stations", "expect", "least", "when"),
    "decisions": ("each", "branches", "when"),
}


def of_page(id: str, cards: Mapping[str, Json]) -> Json:
    """{"shared": what all of them share, "cards": by id}, of the family's `cards`."""
    own = cards[id]
    named = _reached(own, cards)
    kept = {id: _whole(own)} | {other: _slice(cards[other], names) for other, names in named.items() if other != id}
    readings = [reading for card in kept.values() for reading in _entries(card, "readings")]
    gauges, units = (dict(pair for card in kept for pair in cards[card][part].items()) for part in ("gauges", "units"))
    symbols = {show[2] for card in kept.values() for pair in card["shows"] for show in pair if show}
    measured = {reading.get("measures") for reading in readings}
    kinds = {reading.get("gauge") for reading in readings}
    _ask_once(list(kept.values()))
    return {
        "shared": {
            "guard": own["guard"],
            "gauges": {name: gauge for name, gauge in gauges.items() if gauge[0] in kinds},
            "units": {name: unit for name, unit in units.items() if name in symbols or unit[4] in measured},
        },
        "cards": kept,
    }


def _whole(card: Json) -> Json:
    return {part: card[part] for part in ("title", "shows", "variants")}


def _reached(own: Json, cards: Mapping[str, Json]) -> Names:
    """What `own` names of other cards, with all that that names in turn."""
    found: Names = {}
    waiting = [(card, name) for card, name in _names(own["variants"], "", cards) if card]
    while waiting:
        card, name = waiting.pop()
        if card not in cards or name in found.setdefault(card, {}):
            continue
        found[card][name] = None
        depths = ("readings",) if name == "depth" else ()
        entries = [entry for part in _NAMED for entry in _entries(cards[card], part, name)]
        waiting += [(card, axis) for entry in entries for axis in entry["each"]]
        waiting += [(card, other) for entry in entries for other in entry.get("least", ())]
        waiting += [(card, other) for part in depths for other in _at_depths(cards[card], part)]
        for entry in entries:
            worked = [entry.get("tree"), entry.get("when"), entry.get("expect")]
            waiting += _names([*worked, [branch.get("tree") for branch in entry.get("branches", ())]], card, cards)
    return found


def _at_depths(card: Json, part: str) -> list[str]:
    """The readings taken at depths: at which ones is told by all of them together."""
    each = (variant.get(part, {}).items() for variant in card["variants"].values())
    return [name for entries in each for name, entry in entries if "depth" in entry["each"]]


def _names(part: Json, card: str, cards: Mapping[str, Json]) -> Iterator[tuple[str, str]]:
    """The cards and names that trees and marked texts within `part` speak of; `card`: whose they are."""
    match part:
        case ["name", str(name)]:
            yield card, name
        case ["of", str(other), str(name)]:
            yield other, name
        case [str(mark)] if "." in mark and (other := mark.partition(".")[0].replace("_", "-")) in cards:
            yield other, mark.partition(".")[2]
        case list():
            for one in part:
                yield from _names(one, card, cards)
        case dict():
            for one in part.values():
                yield from _names(one, card, cards)


def _entries(card: Json, part: str, name: str | None = None) -> Iterator[Json]:
    for variant in card["variants"].values():
        yield from (entry for named, entry in variant.get(part, {}).items() if name in (None, named))


def _slice(card: Json, names: Mapping[str, None]) -> Json:
    return {"shows": card["shows"], "variants": {id: _of(one, names) for id, one in card["variants"].items()}}


def _of(variant: Json, names: Mapping[str, None]) -> Json:
    kept = {part: variant[part] for part in ("members", "ask") if part in variant}
    for part in _NAMED:
        if part in variant:
            entries = {name: entry for name, entry in variant[part].items() if name in names}
            kept[part] = {name: _entry(entry, part) for name, entry in entries.items()}
    return kept


def _entry(entry: Json, part: str) -> Json:
    """Without what only the card's own page shows."""
    kept = {key: entry[key] for key in _ASKED[part] if key in entry}
    if part == "decisions":
        kept["branches"] = [{key: one[key] for key in ("id", "tree") if key in one} for one in entry["branches"]]
    if "choices" in kept:
        kept["choices"] = {}  # that it is one; the words are not said
    return kept


def _ask_once(cards: list[Json]) -> None:
    """Of what to ask for, only what the others lack, by the names that other cards may wait for."""
    asked = set(next(iter(cards[0]["variants"].values()))["ask"])
    for card in cards[1:]:
        for variant in card["variants"].values():
            ask = {name: words for name, words in variant.get("ask", {}).items() if "." in name and name not in asked}
            if "ask" in variant:
                variant["ask"] = ask
        asked |= set(next(iter(card["variants"].values()))["ask"])
