"""A new file is sound as it is, reads back the name it was given, and becomes a fuller one by taking # away."""

from __future__ import annotations

import re
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st
from small_workshops import SHOP, Load

from procgen.files.checking import schema_problems
from procgen.files.reading import read
from procgen.load.names import schemas
from procgen.load.starters import KINDS, starter
from procgen.load.workshop import load_workshop

FOLDER = {"family": "families", "procedure": "deck", "job": "jobs"}


@pytest.mark.parametrize("kind", KINDS)
def test_a_starter_is_sound(load: Load, kind: str) -> None:
    loaded = load({f"procedures/{FOLDER[kind]}/marsh-hen.yaml": starter(kind, "marsh-hen", "Marsh hen")})
    assert [str(p) for p in loaded.problems] == []
    assert loaded.workshop is not None
    assert set(loaded.workshop.families) == ({"marsh-hen"} if kind == "family" else set())
    assert set(loaded.workshop.procedures) == ({"marsh-hen"} if kind == "procedure" else set())


def test_a_starter_family_says_nothing_that_nobody_told_it() -> None:
    with TemporaryDirectory() as folder:
        path = Path(folder) / "procedures/families/marsh-hen.yaml"
        path.parent.mkdir(parents=True)
        (path.parents[1] / "workshop.yaml").write_text(SHOP, "utf-8")
        path.write_text(starter("family", "marsh-hen", "Marsh hen"), "utf-8")
        workshop = load_workshop(Path(folder), Path.read_bytes).workshop
    assert workshop is not None
    facts = workshop.families["marsh-hen"].facts
    assert len(facts) > 10
    assert {fact.value for fact in facts.values()} == {None}


@given(name=st.text(min_size=1, max_size=60).filter(str.strip))
def test_any_name_reads_back_as_given(name: str) -> None:
    """PyYAML reads it, and so do we: white space aside, it is the same text. Other control characters are refused."""
    for kind, key in (("family", "name"), ("job", "title")):
        text = starter(kind, "marsh-hen", name)
        assert yaml.load(text, yaml.BaseLoader)[key] == " ".join(name.split())
        document, problems = read("new.yaml", text.encode("utf-8", "surrogatepass"))
        if not problems:
            assert document is not None
            assert schema_problems(document, schemas()) == ()


def test_a_long_title_is_cut_between_words() -> None:
    text = starter("procedure", "valve-seats", "Valve seats, guides and springs")
    assert yaml.load(text, yaml.BaseLoader)["title"] == "Valve seats, guides"
    whole = yaml.load(starter("procedure", "x", "Crankshaftstraightening"), yaml.BaseLoader)["title"]
    assert whole == "Crankshaftstraightening"[:20]


def test_the_lines_to_take_the_mark_from_are_sound_too() -> None:
    """What a family's starter offers behind # passes its schema once the # is gone."""
    text = starter("family", "marsh-hen", "Marsh hen")
    head, offered = text.split("# The rest is written only", 1)
    lines = [re.sub(r"^#( |$)", "", line) for line in offered.splitlines()[2:]]
    whole = head + "\n".join(line for line in lines if not line.startswith("                    "))
    document, problems = read("new.yaml", whole.encode())
    assert problems == ()
    assert document is not None
    assert schema_problems(document, schemas()) == ()
    assert isinstance(document.data, dict)
    offered_keys = {"variants", "cylinders", "block", "mains", "rods", "cam", "passages", "plugs", "core_plugs"}
    assert offered_keys | {"drain_plugs", "notes"} <= set(document.data)


def test_other_kinds_are_refused() -> None:
    with pytest.raises(ValueError, match="`card` is none of family, procedure, job"):
        starter("card", "x", "X")
