"""Commented files to begin with: each passes the check at once, and explains its parts to somebody new to the form."""

from __future__ import annotations

import textwrap
from string import Template

from procgen.files.home import resources

KINDS = ("family", "procedure", "job")
LONGEST_TITLE = 20  # of a procedure, as its schema has it


def starter(kind: str, id: str, name: str) -> str:
    """The text of a new file of that kind.

    Args:
        kind: one of KINDS.
        id: lower-case-with-hyphens; the file is to be called by it.
        name: what people call it; a procedure's title is cut to what fits on the card's edge.

    Raises:
        ValueError: for another kind.
    """
    if kind not in KINDS:
        raise ValueError(f"`{kind}` is none of {', '.join(KINDS)}")
    template = Template((resources("templates") / "starters" / f"{kind}.yaml").read_text("utf-8"))
    title = textwrap.shorten(name, LONGEST_TITLE, placeholder="") or name.strip()[:LONGEST_TITLE]
    return template.substitute(id=id, name=_quoted(name), title=_quoted(title))


def _quoted(text: str) -> str:
    """A text that YAML reads back as it is, whatever stands in it; only runs of white space become one space."""
    return f'"{"".join(_escaped(character) for character in " ".join(text.split()))}"'


def _escaped(character: str) -> str:
    if character in '"\\':
        return f"\\{character}"
    return character if character.isprintable() else f"\\U{ord(character):08X}"
