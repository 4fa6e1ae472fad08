"""The schemas are the published contract: each field explains itself, and each example is one that the schema accepts.

Validity is judged by the jsonschema library (JSON Schema 2020-12), not by our own reader.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from referencing import Registry, Resource

from procgen.compose.names import LOCAL_AXES
from procgen.files.home import resources
from procgen.load.names import axis_paths
from procgen.units.dimension import NAMES

Schema = dict[str, Any]
ALL: dict[str, Schema] = {p.name: json.loads(p.read_text("utf-8")) for p in resources("schemas").glob("*.json")}
REGISTRY: Registry[Any] = Registry().with_resources([(n, Resource.from_contents(s)) for n, s in ALL.items()])
KINDS = [
    "cautions",
    "common",
    "family",
    "job",
    "printed",
    "procedure",
    "stocks",
    "tables",
    "tools",
    "traits",
    "verdicts",
    "workshop",
]


def resolved(file: str, schema: Schema) -> tuple[str, Schema]:
    """What a reference leads to, under the words that stand beside it; and the file that it is in."""
    beside = {k: v for k, v in schema.items() if k != "$ref"}
    while "$ref" in schema:
        name, _, pointer = schema["$ref"].partition("#")
        file = name or file
        schema = ALL[file]
        for part in pointer.strip("/").split("/"):
            schema = schema[part]
        beside = {**{k: v for k, v in schema.items() if k != "$ref"}, **beside}
    return file, beside


def fields(file: str, schema: Schema, path: str, seen: tuple[str, ...] = ()) -> Iterator[tuple[str, str, Schema]]:
    """Every field of a schema: a property, or the entry of an open map."""
    if schema.get("$ref") in seen:
        return
    seen = (*seen, schema["$ref"]) if "$ref" in schema else seen
    file, schema = resolved(file, schema)
    children = dict(schema.get("properties", {}))
    if isinstance(schema.get("additionalProperties"), dict):
        children["*"] = schema["additionalProperties"]
    for name, child in children.items():
        where, full = resolved(file, child)
        yield f"{path}/{name}", where, full
        yield from fields(file, child, f"{path}/{name}", seen)
    if isinstance(schema.get("items"), dict):
        yield from fields(file, schema["items"], f"{path}/[]", seen)


FIELDS = [(path, file, schema) for name in ALL for path, file, schema in fields(name, ALL[name], name)]


def test_each_kind_of_file_has_its_schema_and_each_schema_is_sound() -> None:
    assert sorted(ALL) == [f"{kind}.json" for kind in KINDS]
    for name, schema in ALL.items():
        Draft202012Validator.check_schema(schema)
        assert schema["$id"] == name


def test_what_there_may_be_one_of_each_for_is_what_families_name() -> None:
    assert ALL["common.json"]["$defs"]["member"]["enum"] == [*axis_paths(), *LOCAL_AXES]


def test_each_field_has_a_title_a_meaning_and_an_example() -> None:
    assert len(FIELDS) > 400
    for path, _, schema in FIELDS:
        assert schema.get("title"), path
        assert len(schema.get("description", "")) > 3, path
        assert schema.get("examples"), path


def test_each_example_is_accepted_by_its_own_field() -> None:
    refused = []
    for path, file, schema in FIELDS:
        for example in schema["examples"]:
            validator = Draft202012Validator(absolute(schema, file), registry=REGISTRY)
            refused += [f"{path}: {fault.message}" for fault in validator.iter_errors(example)]
    assert refused == []


def absolute(schema: Any, file: str) -> Any:
    """References with their file's name, so that a field can stand alone."""
    if isinstance(schema, dict):
        return {k: f"{file}{v}" if k == "$ref" and v.startswith("#") else absolute(v, file) for k, v in schema.items()}
    return [absolute(v, file) for v in schema] if isinstance(schema, list) else schema


def test_a_map_with_listed_keys_is_closed_or_says_what_else_may_stand() -> None:
    assert [path for path, _, s in FIELDS if "properties" in s and "additionalProperties" not in s] == []


def everywhere(schema: Any) -> Iterator[Schema]:
    if isinstance(schema, dict):
        yield schema
        for child in schema.values():
            yield from everywhere(child)
    elif isinstance(schema, list):
        for child in schema:
            yield from everywhere(child)


@pytest.mark.parametrize("name", ALL)
def test_nothing_is_chosen_by_trial(name: str) -> None:
    """With oneOf, a slip in one alternative is told as a failure of all of them."""
    assert not [s for s in everywhere(ALL[name]) if {"oneOf", "anyOf"} & set(s)]


def test_our_own_annotations_use_listed_words() -> None:
    for path, _, schema in FIELDS:
        for key in ("quantity", "quantities"):
            assert not isinstance(schema.get(key), str) or schema[key] in {*NAMES, "any"}, path
        assert schema.get("formula") in {None, "number", "truth"}, path


def test_every_number_of_a_family_says_what_it_is_a_quantity_of() -> None:
    """So that a bare number in a family always has a unit."""
    own = [(path, schema) for path, _, schema in FIELDS if path.startswith("family.json/") and "/amend/" not in path]
    numbers = [(path, schema) for path, schema in own if {"number", "integer"} & set(schema.get("type", ()))]
    assert len(numbers) > 80
    assert [path for path, schema in numbers if "quantity" not in schema] == []


def test_what_is_optional_may_stand_empty() -> None:
    """`rod_length:` with nothing after it means not yet known, wherever a key may also be left out."""
    for name, file in ALL.items():
        forms = [form for form in everywhere(file) if "properties" in form and form.get("title") != "Change to a step"]
        for form in forms:
            for key, child in form["properties"].items():
                if key not in form.get("required", ()):
                    full = resolved(name, child)[1]
                    assert "null" in full.get("type", ()) or None in full.get("enum", ()), f"{name} {key}"
