"""The names by which formulas call what a family states, read from the family's schema.

So a name exists, with its dimension, even where a family says nothing of it yet.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache
from types import MappingProxyType

from procgen.files.annotations import ANY_ENTRY, ANY_KEY, Field, fields
from procgen.files.schemas import Schemas
from procgen.units.dimension import NAMES, Dimension
from procgen.values import dataclass

PROSE = ("format", "id", "name", "describe", "units", "show", "traits", "variants", "notes", "amend")
"""Parts of a family that formulas don't read by these names."""

Keys = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class FamilyName:
    """What a name is: a `quantity`, a list of `quantities`, a `word` of a closed list, or free `text`.

    `axes` is () or the one thing that it has one of each for: `cam_bearing.journal` has ("cam_bearing",). `path` is
    where it stands in the file, or where the map of its members stands; `inner` where it stands in a member.
    """

    name: str
    title: str
    kind: str  # quantity quantities word text
    axes: Keys
    path: Keys
    inner: Keys = ()
    dimension: Dimension | None = None  # of the quantity, or of each in the list
    words: tuple[str, ...] = ()


@cache
def schemas() -> Schemas:
    """The package's schemas, loaded once."""
    return Schemas()


@cache
def family_names() -> Mapping[str, FamilyName]:
    """Every name that any family can state: `geometry.bore`, `limits.cylinder_taper_max`, `cam_bearing.journal`."""
    listed = fields(schemas(), "family")
    return MappingProxyType({name.name: name for name in _names({part.path: part for part in listed})})


@cache
def axis_paths() -> Mapping[str, Keys]:
    """Where a family's file names the members of each axis: cam_bearing at ("cam", "bearings")."""
    return MappingProxyType({name.axes[0]: name.path for name in family_names().values() if name.axes})


def _names(parts: Mapping[Keys, Field]) -> Iterator[FamilyName]:
    """A limit may also be a map that says the figure inside; what lies below a quantity is no name of its own."""
    for path, part in parts.items():
        kind = _kind(part)
        above = (parts[path[:i]] for i in range(1, len(path)))
        if not path or path[0] in PROSE or not kind or ANY_ENTRY in path or any(_kind(whole) for whole in above):
            continue
        if ANY_KEY in path:
            star = path.index(ANY_KEY)
            yield _member_name(part, kind, parts, path[:star], path[star + 1 :])
        else:
            yield _name(part, kind, ".".join(path), str(part.says["title"]), (), path, ())


def _member_name(part: Field, kind: str, parts: Mapping[Keys, Field], path: Keys, inner: Keys) -> FamilyName:
    """A title takes along those of the maps that it stands in, without which "clock" would say too little."""
    axis = str(parts[path].says["each"])
    titles = [str(parts[(*path, ANY_KEY, *inner[: i + 1])].says["title"]) for i in range(len(inner))]
    title = ", ".join([titles[0], *(title.lower() for title in titles[1:])])
    return _name(part, kind, f"{axis}.{'_'.join(inner)}", title, (axis,), path, inner)


def _name(part: Field, kind: str, name: str, title: str, axes: Keys, path: Keys, inner: Keys) -> FamilyName:
    dimension = part.says.get("quantity") or part.says.get("quantities")
    listed = part.says.get("enum")
    return FamilyName(
        name=name,
        title=title,
        kind=kind,
        axes=axes,
        path=path,
        inner=inner,
        dimension=NAMES[str(dimension)] if dimension else None,
        words=tuple(word for word in listed if isinstance(word, str)) if isinstance(listed, list) else (),
    )


def _kind(part: Field) -> str:
    for kind in ("quantity", "quantities"):
        if kind in part.says:
            return kind
    if "enum" in part.says:
        return "word"
    return "text" if {"string", "array"} & set(part.types) else ""
