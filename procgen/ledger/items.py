"""The text of a revision taken apart into what a person would point at: a step, a value, a caution, a drawing.

The lines are those of `compose.revision.dump`; one that it never wrote is an item too, so that nothing is passed over.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from procgen.values import dataclass

_STARTS = (
    ("stage", re.compile(r"stage (?P<text>\d+ of \d+ .*)")),
    ("reason", re.compile(r"reason: (?P<text>.*)")),
    ("bring", re.compile(r"bring: (?P<text>.*)")),
    ("caution", re.compile(r"(?P<name>DANGER|WARNING|CAUTION|NOTICE) (?P<text>.*)")),
    ("step", re.compile(r"\d+ (?P<text>.*)")),
    ("right", re.compile(r"  right: (?P<text>.*)")),
    ("because", re.compile(r"  because: (?P<text>.*)")),
    ("table", re.compile(r"  \| (?P<name>[^|]*?)(?: \| (?P<text>.*)|$)")),
    ("reading", re.compile(r"  read (?P<name>.*?) (?P<text>\[.*\])$")),
    ("decision", re.compile(r"  decide (?P<name>.*?)(?: (?P<text>each .*))?")),
    ("conclusion", re.compile(r"  concluded (?P<name>[^:]*): (?P<text>.*)")),
    ("drawing", re.compile(r"  drawing (?P<name>(?:\([^)]*\)|[^:(])*): (?P<text>.*)")),
    # a label may have a colon: what follows the last one before a figure is the figure
    ("value", re.compile(r"  (?P<name>\S.*?): (?P<text>(?:[≤≥–−+-]|\[ \]|\d).*)")),
    ("value", re.compile(r"  (?P<name>\S.*?): (?P<text>.*)")),
    ("hold", re.compile(r"HOLD (?P<text>.*)")),
    ("record", re.compile(r"record: (?P<text>.*)")),
    ("unknown", re.compile(r"not yet known: (?P<text>.*)")),
)
_HAS_MORE = ("reading", "decision", "drawing")
"""What is told on further lines, set in by four."""


@dataclass(frozen=True, slots=True)
class Item:
    """`name` is what it is known by ("" where only its text tells it from others); `lines` what it says."""

    kind: str
    name: str
    lines: tuple[str, ...]

    @property
    def text(self) -> str:
        return "\n".join(self.lines)


def items(text: str) -> tuple[Item, ...]:
    """What a revision says, in reading order. Steps go without their numbers: one more does not change all others."""
    return tuple(_items(text.replace("\u00a0", " ").replace("\u202f", " ").split("\n")))


def _items(lines: list[str]) -> Iterator[Item]:
    yield from (Item(kind, "", (line,)) for kind, line in zip(("family", "title"), lines, strict=False))
    open_item: Item | None = None
    more: list[str] = []  # of its lines
    members = ""  # what a table's rows are: its first cell
    for line in lines[2:]:
        if open_item is not None and line.startswith("    "):
            more.append(line.strip())
            continue
        if open_item is not None:
            yield _with(open_item, more)
            open_item, more = None, []
        item = _item(line)
        if item.kind != "table":
            members = ""
        elif members:
            item = Item(item.kind, f"{members} {item.name}", item.lines)
        else:
            members = item.name
        if item.kind in _HAS_MORE:
            open_item = item
        else:
            yield item
    if open_item is not None:
        yield _with(open_item, more)


def _with(item: Item, lines: list[str]) -> Item:
    return Item(item.kind, item.name, (*item.lines, *lines))


def _item(line: str) -> Item:
    for kind, pattern in _STARTS:
        if match := pattern.fullmatch(line):
            found = match.groupdict()
            said = found.get("text")
            return Item(kind, found.get("name") or "", () if said is None else (said,))
    return Item("other", "", (line.strip(),))
