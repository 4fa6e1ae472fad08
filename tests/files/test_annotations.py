"""What a schema says of each part of a file, worked out by hand from the small schemas beside this file."""

from __future__ import annotations

from reads import sound

from procgen.files.annotations import annotated, fields
from procgen.files.schemas import Schemas


def test_each_path_of_a_document(schemas: Schemas) -> None:
    document = sound(
        "format: engine/2\nid: a\nbore: 3\nmains: {every: {journal: 1}, 1: {journal: 2, next: {journal: }}}\n"
        "plugs: {MG: {hole: 4:30}}\npoint: [1, 2, 3]\naxis: [1 mm, 2 deg]\nwhen: x\nnonsense: 1\n"
    )
    journal = {"quantity": "length"}
    assert annotated(document, schemas) == {
        (): {"title": "Engine"},
        ("format",): {},
        ("id",): {"title": "Id"},
        ("bore",): {"title": "Bore", "quantity": "length"},
        ("mains",): {"each": "main"},
        ("mains", "every"): {"title": "Main bearing"},
        ("mains", "every", "journal"): journal,
        ("mains", "1"): {"title": "Main bearing"},
        ("mains", "1", "journal"): journal,
        ("mains", "1", "next"): {"title": "Main bearing"},
        ("mains", "1", "next", "journal"): journal,
        ("plugs",): {"each": "plug"},
        ("plugs", "MG"): {},
        ("plugs", "MG", "hole"): {"quantity": "clock"},
        ("point",): {"title": "Where", "quantities": "length"},  # the nearer title stands
        ("point", 0): {},
        ("point", 1): {},
        ("point", 2): {},
        ("axis",): {},
        ("axis", 0): {"title": "First", "quantity": "length"},
        ("axis", 1): {"title": "Second", "quantity": "angle"},
        ("when",): {"title": "When", "formula": "truth"},
    }


def test_of_alternatives_the_one_for_that_type(schemas: Schemas) -> None:
    as_text = annotated(sound("format: engine/2\nvalue: x + y\n"), schemas)
    as_map = annotated(sound("format: engine/2\nvalue: {is: 3}\n"), schemas)
    assert as_text[("value",)] == {"title": "A formula", "formula": "number"}
    assert as_map[("value",)] == {"title": "A figure"}
    assert ("value", "is") in as_map


def test_nothing_of_a_file_of_no_known_kind(schemas: Schemas) -> None:
    assert annotated(sound("format: recipe/1\n"), schemas) == {}


def test_fields_of_a_form(schemas: Schemas) -> None:
    found = {field.path: field for field in fields(schemas, "engine")}
    assert dict(found["bore",].says) == {"title": "Bore", "quantity": "length"}
    assert found["bore",].types == ("number", "string", "null")
    assert found["bore",].leaf
    assert found["mains",].says == {"each": "main"}
    assert not found["mains",].leaf
    assert dict(found["mains", "every", "journal"].says) == {"quantity": "length"}
    assert dict(found["mains", "*", "journal"].says) == {"quantity": "length"}
    assert dict(found["plugs", "*", "hole"].says) == {"quantity": "clock"}
    assert found["oversizes", "[]"].types == ("number", "string")
    assert dict(found["id",].says) == {"title": "Id"}
    assert found["id",].types == ("string",)


def test_fields_of_a_form_that_holds_itself_come_to_an_end(schemas: Schemas) -> None:
    paths = [field.path for field in fields(schemas, "engine")]
    assert ("mains", "*", "next") in paths
    assert max(len(path) for path in paths) <= 4
    assert len(paths) < 60


def test_the_forms_own_order_is_kept(schemas: Schemas) -> None:
    tops = [field.path[0] for field in fields(schemas, "engine") if len(field.path) == 1]
    assert tops[:5] == ["format", "id", "name", "units", "layout"]
