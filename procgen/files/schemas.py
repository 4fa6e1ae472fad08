"""The JSON Schemas: loaded once, each validator built once, picked by a file's `format`."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping, Set
from functools import cached_property
from pathlib import Path as FilePath
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, TypeAlias, cast

from procgen.files.document import Document
from procgen.files.home import resources
from procgen.files.problems import Problem, error
from procgen.units.nearest import did_you_mean

if TYPE_CHECKING:
    from jsonschema import Draft202012Validator

Schema: TypeAlias = Mapping[str, Any]

_NOTED = 20_000
"""Entries noted as sound at most: some thirty a file."""

_FORMAT = re.compile(r"(?P<kind>[^/\s]+)/(?P<edition>[0-9]+)")


class Schemas:
    """Every schema of a folder by its name ("family" for family.json). `$ref` may name a neighbour by its file name."""

    def __init__(self, folder: FilePath | None = None) -> None:
        """Load `folder`, or the package's own schemas. That each of them is one, tests hold: it takes long to check."""
        files = sorted((folder or resources("schemas")).glob("*.json"))
        self.by_name: Mapping[str, Schema] = MappingProxyType(
            {file.stem: json.loads(file.read_text(encoding="utf-8")) for file in files}
        )
        self.formats: Mapping[str, str] = MappingProxyType(
            {name: format_ for name, schema in self.by_name.items() if (format_ := _format_of(schema))}
        )

        self.sound: dict[str, None] = {}

    def are_sound(self, entries: Iterable[str]) -> None:
        """Note entries of files in which nothing was wrong, by a digest of what they say."""
        if len(self.sound) > _NOTED:
            self.sound.clear()
        self.sound.update(dict.fromkeys(entries))

    def schema(self, name: str, sound: Set[str] = frozenset()) -> Schema:
        """That form, which takes anything in the entries at its top that are known to be `sound`."""
        schema = self.by_name[name]
        if not sound:
            return schema
        entries = schema.get("properties", {})
        return {**schema, "properties": {key: key in sound or form for key, form in entries.items()}}

    def validator(self, name: str, sound: Set[str] = frozenset()) -> Draft202012Validator:
        """Of a `schema`."""
        whole = self._validators[name]
        return cast("Draft202012Validator", whole.evolve(schema=self.schema(name, sound))) if sound else whole

    @cached_property
    def _validators(self) -> Mapping[str, Draft202012Validator]:
        from jsonschema import Draft202012Validator  # importing it takes longer than reading a known workshop
        from referencing import Registry
        from referencing.jsonschema import DRAFT202012

        made = {name: DRAFT202012.create_resource(schema) for name, schema in self.by_name.items()}
        by_id = [(str(self.by_name[name]["$id"]), one) for name, one in made.items() if "$id" in self.by_name[name]]
        by_file = [(f"{name}.json", one) for name, one in made.items()]
        registry: Registry[Any] = Registry().with_resources([*by_file, *by_id]).crawl()
        return {name: Draft202012Validator(schema, registry=registry) for name, schema in self.by_name.items()}

    def follow(self, ref: str, base: str) -> tuple[Schema, str]:
        """What a `$ref` in the schema called `base` names, and the name of the schema that this is in."""
        file, _, pointer = ref.partition("#/")
        name = file.removesuffix(".json") or base
        found: Any = self.by_name[name]
        for key in pointer.split("/"):
            found = found[key]
        return found, name

    def kind_of(self, document: Document) -> tuple[str, Problem | None]:
        """The name of the schema that a document's `format` picks, or "" and what is wrong with the `format`."""
        root = document.root()
        listed = sorted(self.formats.values())
        which = f"begin the file with one of: {', '.join(f'format: {name}' for name in listed)}"
        if not root.is_map:
            return "", error("no-format", "the file holds no `key: value` at its top", root.place, which)
        found = root.known("format")
        if found is None:
            place = root.key_place("format") if "format" in root else root.place
            return "", error("no-format", "the file does not say its `format`", place, which)
        given = found.value
        match = _FORMAT.fullmatch(given) if isinstance(given, str) else None
        if match is None:
            written = found.node.raw or "this"
            return "", error("unknown-format", f"`format: {written}` is not a kind and an edition", found.place, which)
        kind, edition = match["kind"], int(match["edition"])
        if kind not in self.formats:
            hint = did_you_mean(f"{kind}/{edition}", listed) or which
            return "", error("unknown-format", f"`{kind}` is not a kind of file that procgen reads", found.place, hint)
        ours = int(self.formats[kind].partition("/")[2])
        if edition > ours:
            message = f"`{given}` is newer than this procgen reads ({self.formats[kind]})"
            return "", error("newer-format", message, found.place, "install a newer procgen")
        if edition < ours:
            message = f"`{given}` is older than this procgen reads ({self.formats[kind]})"
            return "", error("older-format", message, found.place, "the guide says what has changed")
        return kind, None


def _format_of(schema: Schema) -> str:
    """ "" for what is only ever written, and never a file of a workshop."""
    if schema.get("readOnly"):
        return ""
    return str(schema.get("properties", {}).get("format", {}).get("const", ""))
