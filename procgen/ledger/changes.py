"""What changed between two revisions of a card, in words for a person: which value, step, caution, drawing."""

from __future__ import annotations

import re
from collections.abc import Iterator
from difflib import SequenceMatcher
from zlib import crc32

from procgen.ledger.arms import arms
from procgen.ledger.change import AS_PRINTED, Change
from procgen.ledger.items import Item, items

_ALIKE = 0.55
"""From here on two sentences are one that was reworded. Found by trying it on the demo's cards."""

_HEADS = {
    "family": "the family", "title": "title and question", "reason": "reason", "bring": "what to bring",
    "step": "step", "right": "how to know it is right", "because": "why", "hold": "hold point",
    "record": "what to write down", "unknown": "not yet known", "other": "text",
}  # fmt: skip
_NAMED = {
    "value": "{}", "table": "{}", "caution": "{}", "reading": "reading “{}”", "decision": "decision “{}”",
    "conclusion": "conclusion “{}”",
}  # fmt: skip
_LISTS = {"value": "; ", "table": " | ", "reading": "\n"}
"""What their parts are set apart by."""
_SENTENCE = re.compile(r"(?<=[.?!]) +")


def changes(was: str, now: str) -> tuple[Change, ...]:
    """What differs between the texts of two revisions, each once, in the order of the newer. Never nothing for texts
    that differ.
    """
    found = tuple(dict.fromkeys(_changes(items(was), items(now))))
    return found or ((Change("other", "text", was, now),) if was != now else ())


def told(text: str) -> tuple[tuple[str, str, str, str], ...]:
    """Each item of a text, for who compares it elsewhere: its kind, its name, what it is called, what it says. Of a
    drawing whatever is drawn counts, but is told by a number alone.
    """
    return tuple((one.kind, one.name, _head(one, one), _seen(one)) for one in items(text))


def _seen(item: Item) -> str:
    return f"{crc32(item.text.encode()):08x}" if item.kind == "drawing" else item.text


def _changes(old: tuple[Item, ...], new: tuple[Item, ...]) -> Iterator[Change]:
    gone: list[Item] = []
    come: list[Item] = []
    moved: list[Item] = []
    for tag, i, j, k, m in SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
        if tag != "equal":
            gone += old[i:j]
            come += new[k:m]
    for item in come:
        before = _counterpart(item, gone)
        if before is None:
            yield from _one(None, item)
            continue
        gone.remove(before)
        if before == item:
            moved.append(item)
        else:
            yield from _one(before, item)
    for item in gone:
        yield from _one(item, None)
    for item in moved:
        yield Change("order", _head(item, item), AS_PRINTED, "in another place")


def _counterpart(item: Item, among: list[Item]) -> Item | None:
    """What it was before: the very same elsewhere, that of the same name, or what reads most like it."""
    if item in among:
        return item
    same = [other for other in among if other.kind == item.kind]
    if item.name and item.kind != "caution":
        named = [other for other in same if other.name == item.name]
        return next(iter(named or [other for other in same if _is_namesake(item, other)]), None)
    if item.kind in ("family", "title", "stage", "reason", "bring", "record", "hold"):  # there is one at most
        return next(iter(same), None)
    rated = [(SequenceMatcher(None, other.text, item.text, autojunk=False).ratio(), other) for other in same]
    best = max(rated, key=lambda pair: pair[0], default=(0.0, None))
    return best[1] if best[0] >= _ALIKE else None


def _is_namesake(one: Item, other: Item) -> bool:
    """Whether the two differ only in the variant that a value or a drawing is for."""
    if one.kind == "drawing":
        return _title(one) == _title(other)
    return one.kind == "value" and (one.name.startswith(f"{other.name}: ") or other.name.startswith(f"{one.name}: "))


def _title(drawing: Item) -> str:
    """What follows says of which variant, and seen from where."""
    return re.split(r", (?![^(]*\))", drawing.name)[0]


def _one(was: Item | None, now: Item | None) -> Iterator[Change]:
    item = now or was
    assert item is not None
    head = _head(item, was)
    if item.kind == "stage":
        yield from _stage(was, now)
    elif was is None or now is None:
        said = item.name if item.kind == "drawing" else ", ".join(item.lines) or item.name
        yield Change(item.kind, _HEADS.get(item.kind, head), "" if was is None else said, "" if now is None else said)
    elif item.kind == "drawing":
        yield Change(item.kind, head, AS_PRINTED, "drawn otherwise")
    elif item.kind == "decision":
        yield from arms(head, was, now)
    elif was.name != now.name and item.kind == "value":
        name = min(was.name, now.name, key=len)
        yield Change(item.kind, name, *(f"{one.name}: {one.text}".removeprefix(f"{name}: ") for one in (was, now)))
    elif item.kind in _LISTS:
        yield Change(item.kind, head, *_parts(was.text, now.text, _LISTS[item.kind]))
    else:
        if was.name != now.name:  # of a caution: its signal word
            yield Change(item.kind, head.replace(now.name, item.kind, 1), was.name, now.name)
        if was.text != now.text:
            yield Change(item.kind, head, *_sentences(was.text, now.text))


def _head(item: Item, was: Item | None) -> str:
    """What it is called: by its name, by a first sentence that has stayed, or by its kind alone."""
    if item.kind in ("step", "caution"):
        first = _first(item)
        kind = item.name or "step"
        return f"{kind} “{first}”" if was is not None and _first(was) == first else kind
    if item.kind == "drawing":
        return f"drawing “{_title(item)}”"
    return _NAMED[item.kind].format(item.name) if item.name else _HEADS.get(item.kind, "text")


def _first(item: Item) -> str:
    """Its first sentence; a caution's goes without the numbers of its signs."""
    return _SENTENCE.split(re.sub(r"^[WMP\d ]*: ", "", item.text))[0]


def _stage(was: Item | None, now: Item | None) -> Iterator[Change]:
    """One more card in the deck moves the number of all that follow: that is one change."""
    said = [re.split(r" of | ", item.text if item else "0 of 0 ", maxsplit=2) for item in (was, now)]
    (_, of, name), (_, of_now, name_now) = said
    if of != of_now:
        yield Change("deck", "cards in the deck", of, of_now)
    if name != name_now:
        yield Change("deck", "stage", name, name_now)
    if of == of_now and name == name_now:
        yield Change("deck", "order of the deck", AS_PRINTED, "another")


def _sentences(was: str, now: str) -> tuple[str, str]:
    """Only those that differ."""
    old, new = _SENTENCE.split(was), _SENTENCE.split(now)
    gone, come = [one for one in old if one not in new], [one for one in new if one not in old]
    return (" ".join(gone), " ".join(come)) if gone or come else (was, now)


def _parts(was: str, now: str, by: str) -> tuple[str, str]:
    """Of two lists of the same length only what differs."""
    old, new = was.split(by), now.split(by)
    if len(old) != len(new):
        return was.replace("\n", ", "), now.replace("\n", ", ")
    differ = [(a, b) for a, b in zip(old, new, strict=True) if a != b]
    return ", ".join(a for a, _ in differ), ", ".join(b for _, b in differ)
