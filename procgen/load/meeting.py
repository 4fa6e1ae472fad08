"""Whether what a family's drillings and plugs name is there: plugs, passages, bearings, banks."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from procgen.files.document import Cursor
from procgen.files.problems import Problem, error
from procgen.load.facts import follow
from procgen.load.reader import entries, placed
from procgen.model.family import Family
from procgen.units.nearest import did_you_mean

AXES = {"plug": "plug", "passage": "passage", "main": "main", "cam": "cam_bearing", "groove": "cam_bearing"}
"""What an opening's word is an opening to."""

WORDS = {
    "plug": "plug", "passage": "passage", "main": "main bearing", "cam_bearing": "cam bearing", "cylinder": "cylinder",
    "bank": "bank",
}  # fmt: skip

FEW = 8

NAMED = (
    ("passages", "opens", ""),
    ("passages", "crosses", "passage"),
    ("plugs", "closes", "passage"),
    ("core_plugs", "bank", "bank"),
    ("drain_plugs", "bank", "bank"),
)
"""Section, field, and what the field names; "" for openings, which say it themselves."""


def meeting_problems(root: Cursor, family: Family) -> Iterator[Problem]:
    """Every plug, passage, bearing or bank that the file names but does not have.

    Of an axis that the family says nothing of, nothing is known, and anything may be named.
    """
    for section, field, axis in NAMED:
        yield from _named(root.get(section), field, axis, family)
    yield from _named(follow(root, ("lifters", "banks")), "galley", "passage", family)


def _named(section: Cursor | None, field: str, axis: str, family: Family) -> Iterator[Problem]:
    for member, spec, _ in entries(section):
        for text, place in placed(spec.get(field)):
            kind, _, id = (axis, "", text) if axis else text.partition(" ")
            of = AXES.get(kind, kind)
            known = family.members.get(of)
            if known is not None and id not in known:
                message = f"`{member}` names the {WORDS[of]} `{id}`, which the family does not have"
                yield error("no-such-part", message, place, did_you_mean(id, known) or _listed(known))


def _listed(known: Collection[str]) -> str:
    """The few there are; a long list would help nobody."""
    return f"it has {', '.join(known)}" if 0 < len(known) <= FEW else ""
