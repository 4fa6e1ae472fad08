"""What schemas say of the parts of a file beside its form: quantity, quantities, formula, each, title."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Set
from typing import TypeAlias

from procgen.files.document import Document, Path
from procgen.files.schemas import Schema, Schemas
from procgen.values import dataclass

KEYWORDS = ("quantity", "quantities", "formula", "each", "title", "enum")
ANY_KEY = "*"
ANY_ENTRY = "[]"

Says: TypeAlias = Mapping[str, object]
_Base: TypeAlias = tuple[Schemas, str]
"""The schema that a `$ref` is written in, by its name among all."""

_TYPE_NAMES = {dict: "object", list: "array", str: "string", type(None): "null"}


@dataclass(frozen=True, slots=True)
class Field:
    """One part of a form. In `path` ANY_KEY stands for a key of the author's choice, ANY_ENTRY for a list's entries."""

    path: tuple[str, ...]
    says: Says
    types: tuple[str, ...]  # JSON Schema's names; () where the schema does not say
    leaf: bool  # whether nothing lies below it


def annotated(document: Document, schemas: Schemas, but: Set[str] = frozenset()) -> dict[Path, Says]:
    """For each path that a document has, what its schema says there; {} where its `format` picks none. Below the
    entries at its top that are in `but` nothing is looked for.

    Follows $ref, allOf, and of anyOf and oneOf the forms that take a value of that type.
    """
    name, _ = schemas.kind_of(document)
    if not name:
        return {}
    found: dict[Path, Says] = {}
    _walk(schemas.schema(name, but), (schemas, name), document.data, (), found)
    return found


def fields(schemas: Schemas, name: str) -> tuple[Field, ...]:
    """Every part of the form `name`, also those that a file leaves out, in the schema's order."""
    return tuple(_fields(schemas.by_name[name], (schemas, name), (), ()))


def _layers(schema: Schema, base: _Base, data_type: str = "") -> Iterator[tuple[Schema, _Base]]:
    """A schema and those that hold beside it, nearest first; with a type, only alternatives that take it."""
    if not isinstance(schema, Mapping):
        return
    yield schema, base
    if "$ref" in schema:
        found, name = base[0].follow(schema["$ref"], base[1])
        yield from _layers(found, (base[0], name), data_type)
    for inner in schema.get("allOf", ()):
        yield from _layers(inner, base, data_type)
    for inner in (*schema.get("anyOf", ()), *schema.get("oneOf", ())):
        layers = list(_layers(inner, base, data_type))
        if not data_type or all(data_type in types for layer, _ in layers if (types := _types(layer))):
            yield from layers


def _walk(schema: Schema, base: _Base, data: object, path: Path, found: dict[Path, Says]) -> None:
    if not isinstance(schema, Mapping):
        return  # `false`: an unknown key, told elsewhere; `true`: nothing to be said
    says: dict[str, object] = dict(found.get(path, {}))
    data_type = _TYPE_NAMES.get(type(data), "number")
    for layer, where in _layers(schema, base, data_type):
        for keyword in KEYWORDS:
            if keyword in layer:
                says.setdefault(keyword, layer[keyword])
        if isinstance(data, dict):
            for key, value in data.items():
                for inner in _for_key(layer, key):
                    _walk(inner, where, value, (*path, key), found)
        elif isinstance(data, list):
            first = layer.get("prefixItems", ())
            for i, value in enumerate(data):
                entry: Schema | None = first[i] if i < len(first) else layer.get("items")
                if entry is not None:
                    _walk(entry, where, value, (*path, i), found)
    found[path] = says


def _for_key(schema: Schema, key: str) -> list[Schema]:
    inner = [schema["properties"][key]] if key in schema.get("properties", {}) else []
    inner += [sub for pattern, sub in schema.get("patternProperties", {}).items() if re.search(pattern, key)]
    return inner or ([schema["additionalProperties"]] if "additionalProperties" in schema else [])


def _fields(schema: Schema, base: _Base, path: tuple[str, ...], seen: tuple[int, ...]) -> Iterator[Field]:
    layers = [(layer, where) for layer, where in _layers(schema, base) if id(layer) not in seen]
    says: dict[str, object] = {}
    below: list[Field] = []
    for layer, where in layers:
        for keyword in KEYWORDS:
            if keyword in layer:
                says.setdefault(keyword, layer[keyword])
        for key, inner in _inside(layer):
            below += _fields(inner, where, (*path, key), (*seen, *(id(each) for each, _ in layers)))
    types = next((types for layer, _ in layers if (types := _types(layer))), ())
    yield Field(path, says, types, not below)
    yield from below


def _inside(schema: Schema) -> Iterator[tuple[str, Schema]]:
    yield from schema.get("properties", {}).items()
    for inner in (*schema.get("patternProperties", {}).values(), schema.get("additionalProperties")):
        if isinstance(inner, Mapping):
            yield ANY_KEY, inner
    for inner in (*schema.get("prefixItems", ()), schema.get("items")):
        if isinstance(inner, Mapping):
            yield ANY_ENTRY, inner


def _types(schema: Schema) -> tuple[str, ...]:
    types = schema.get("type", ())
    return (types,) if isinstance(types, str) else tuple(types)
