"""More entries in the text of a ledger. What stands in it stays as it is, to the letter: new lines go between."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

import yaml

from procgen.files import scalars
from procgen.files.problems import Place, Problem, error
from procgen.files.reading import read
from procgen.load.folder import MOST_PRINTED, PRINTED
from procgen.model.ledger import Print, Said

START = """\
# What hangs on walls. `procgen printed` adds to the end of both lists; `procgen reprint` says what is superseded, and
# why. By hand: `where: stand 2` where one card hangs in several places, `down: 2026-09-01` once one is taken down.
format: printed/1
"""
_PLAIN = re.compile(r"[A-Za-z0-9][A-Za-z0-9/-]*")
_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


def added(text: str, prints: Sequence[Print], texts: Sequence[Said]) -> tuple[str, tuple[Problem, ...]]:
    """The ledger's text ("" for none yet) with these prints and texts after those that it has.

    It is read again, and must then hold what it held and the new: else it comes back as it was, with the reason.
    """
    text = text or START
    try:
        written = _with(
            _with(text, "printed", [_print(one) for one in prints]), "revisions", [_said(one) for one in texts]
        )
    except _Written as flow:
        hint = "write it as a list, each entry on a line of its own"
        return text, (
            error("ledger-shape", f"nothing can be added to `{flow.key}` as it is written", flow.place, hint),
        )
    except yaml.YAMLError:
        written = ""
    if not _holds(text, written, prints, texts):
        hint = "end it with its last entry; or move it away, and let procgen begin another"
        return text, (
            error("ledger-shape", "nothing can be added to this file without changing it", Place(PRINTED), hint),
        )
    return written, ()


class _Written(Exception):
    """A list in brackets."""

    def __init__(self, key: str, node: Any) -> None:
        self.key = key
        self.place = Place(PRINTED, node.start_mark.line + 1, node.start_mark.column + 1)


def _print(one: Print) -> str:
    said = {"family": one.family, "card": one.card, "revision": one.revision, "stock": one.stock, "on": one.on}
    return "- {" + ", ".join(f"{key}: {_word(value)}" for key, value in said.items() if value) + "}"


def _said(one: Said) -> str:
    return f"{one.address}/{one.revision}: |-\n" + "\n".join(
        f"  {line}" if line.strip() else "" for line in one.text.split("\n")
    )


def _word(text: str) -> str:
    """Quoted where a reader would take it for something else: 2E345 for a number."""
    plain = _PLAIN.fullmatch(text) and not scalars.is_number(text) and scalars.refusal(text) is None
    return text if plain else '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def _with(text: str, key: str, new: Sequence[str]) -> str:
    """The text with these entries after the last one below a key of the file."""
    if not new:
        return text
    found = _value(text, key)
    if found is None:
        at, indent, head = len(text), 2, f"{key}:\n"
    elif not found.value:  # nothing yet, or [ ]
        text = text[: found.start_mark.index] + text[found.end_mark.index :]
        at, indent, head = _line_end(text, found.start_mark.index), 2, ""
    elif found.flow_style:
        raise _Written(key, found)
    else:
        at, indent, head = _line_end(text, _end(found)), found.start_mark.column, ""
    lines = "".join(f"{' ' * indent}{line}\n" if line else "\n" for entry in new for line in entry.split("\n"))
    before = text[:at] + ("" if not at or text[at - 1] == "\n" else "\n")
    newline = "\r\n" if "\r\n" in text else "\n"
    return before + (head + lines).replace("\n", newline) + text[at:]


def _value(text: str, key: str) -> Any:
    """The YAML node below a key of the file; None where there is no such key."""
    root: Any = yaml.compose(text, Loader=_LOADER)
    return next((value for name, value in root.value if name.value == key), None)


def _end(node: Any) -> int:
    """Where the last thing of a node ends. A block's own end lies behind the comments that follow it."""
    while not isinstance(node, yaml.ScalarNode) and not node.flow_style and node.value:
        last = node.value[-1]
        node = last[1] if isinstance(last, tuple) else last
    return int(node.end_mark.index)


def _line_end(text: str, at: int) -> int:
    """The start of the next line; where `at` starts one, that behind the last line with anything in it."""
    if at and text[at - 1] == "\n":
        filled = text[:at].rstrip("\r\n ")
        return text.index("\n", len(filled)) + 1
    end = text.find("\n", at)
    return len(text) if end < 0 else end + 1


def _holds(old: str, new: str, prints: Sequence[Print], texts: Sequence[Said]) -> bool:
    was, now = (_data(text) for text in (old, new))
    if was is None or now is None or len(new.encode()) > MOST_PRINTED:
        return False
    keys = ("family", "card", "revision", "stock", "on")
    noted = [{key: getattr(one, key) for key in keys if getattr(one, key)} for one in prints]
    was["printed"] = [*(was.get("printed") or []), *noted]
    was["revisions"] = {**(was.get("revisions") or {}), **{f"{one.address}/{one.revision}": one.text for one in texts}}
    same: bool = {**now, "printed": now.get("printed") or [], "revisions": now.get("revisions") or {}} == was
    return same


def _data(text: str) -> Any:
    document, problems = read(PRINTED, text.encode(), MOST_PRINTED)
    return document.data if document is not None and not problems else None
