"""What a family states, collected along its form: facts by the names that formulas use, and the members' own."""

from __future__ import annotations

from procgen.files.document import Cursor
from procgen.load.names import FamilyName, axis_paths, family_names
from procgen.load.reader import Reader, entries, word, words
from procgen.model.family import Fact
from procgen.trade.threads import printed

EVERY = "every"
"""The entry of a map of members that holds for all of them unless one says otherwise."""

MEANT = ("every", "all", "each", "any")
"""What people write for it; nobody calls one of several things so."""

Members = dict[str, dict[str, dict[str, Fact]]]


def facts(root: Cursor, reader: Reader) -> dict[str, Fact]:
    """The facts stated under `root`, of the family itself or of one variant. Left out: not there; left empty: None."""
    found = {}
    for name in family_names().values():
        at = None if name.axes else follow(root, name.path)
        if at is not None:
            found[name.name] = _fact(name, at, reader)
    return found


def members(root: Cursor, reader: Reader) -> Members:
    """The members that the family names, by axis: members["cam_bearing"]["1"]["block_bore"].

    An axis that the file says nothing of is left out: which members there are is not yet known.
    """
    found: Members = {}
    for axis, path in axis_paths().items():
        named = [name for name in family_names().values() if name.axes == (axis,)]
        at = follow(root, path)
        if at is not None and not at.is_empty:
            meant = [member for member, _, _ in entries(at) if member != EVERY and member.lower() in MEANT]
            for member in meant:
                said = f"`{member}` would be one more {axis.replace('_', ' ')}"
                reader.error("unknown-key", said, at.key_place(member), "did you mean `every`, for all of them?")
            every = _own(named, at.get(meant[0] if meant else EVERY), reader)
            own = {
                member: _own(named, content, reader)
                for member, content, _ in entries(at)
                if member not in (EVERY, *meant)
            }
            found[axis] = {member: every | facts for member, facts in own.items()}
    return found


def _own(named: list[FamilyName], member: Cursor | None, reader: Reader) -> dict[str, Fact]:
    """What one member states, by name without its axis."""
    found = {}
    for name in named:
        at = follow(member, name.inner)
        if at is not None:
            found["_".join(name.inner)] = _fact(name, at, reader)
    return found


def _fact(name: FamilyName, at: Cursor, reader: Reader) -> Fact:
    source = ""
    if at.is_map:  # {is: .., source: ..}
        source, at = word(at.get("source")), at["is"]
    elif name.name.startswith("limits."):
        source = "shop practice"
    if at.is_empty:
        return Fact(None, at.place, source)
    if name.kind == "quantity":
        return Fact(reader.quantity(at, name.dimension), at.place, source)
    if name.kind == "quantities":
        return Fact(reader.quantities(at, name.dimension), at.place, source)
    said = ", ".join(words(at))
    return Fact(printed(said) if name.name.endswith(".thread") else said, at.place, source)


def follow(at: Cursor | None, path: tuple[str, ...]) -> Cursor | None:
    """What stands at a path, or None where the file has nothing there."""
    for key in path:
        at = None if at is None else at.get(key)
    return at
