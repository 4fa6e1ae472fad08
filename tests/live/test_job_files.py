"""A job saved by the page is one that the command line takes as it is, and one that the page reads back."""

from __future__ import annotations

import json
from pathlib import Path
from random import Random
from typing import Any

import pytest
import yaml
from engine import run
from jobs import as_file, from_file, judged, loaded, random_job
from test_agreement import on_the_page, plainly, same

from procgen.files.reading import read
from procgen.model.workshop import Workshop

JOBS = Path(__file__).resolve().parents[2] / "procedures" / "jobs"
WRITE = "function answer(job) { const text = JobFile.write(job); return [text, JobFile.read(text)] }"
READ = """
function answer(text) {
  try {
    JobFile.read(text)
    return null
  } catch (wrong) {
    if (wrong instanceof JobFile.NotOurs) return wrong.message
    throw wrong
  }
}
"""


TAKE = "function answer(text) { return JobFile.read(text) }"
BY_HAND = """\
# what stood on the stand
format: job/1   # the form
id: by-hand
title: Sea Lavender's pump, the "old" one   # a comment
family: bittern
marks: {block: 'it''s 0417', found: "on the \\"front\\" face", left: , none: ~}
units: {length: mm}
gauges: {}
sessions:
- id: came-in
  card: receive
  on: 2026-04-07
  by: M. Widgeon
  gauge: {bore: bore_gauge_1,
    hole: micrometer_50}     # over two lines
  seen: as it came in,
    with its filter on
  clock: 4:30
  cylinder:
    A1: {shadow: even, ridge: 0.05 mm, read: {is: 984.1, because: "yes, truly"}}
    A2:
      bore:
        12: {thrust: 98.495, axial: 98.49}
  list: [a b, "c, d", [e]]
-
  id: later
  card: rings
overrides: []
"""


def test_a_file_written_by_hand_is_read_as_procgen_reads_it() -> None:
    [found] = run(TAKE, [BY_HAND])
    assert found == {"variant": None, **from_file(BY_HAND)}


def test_block_texts_are_read_as_yaml_reads_them() -> None:
    """YAML 1.2.2, chapter 8: kept or folded, with or without the last line's end, inset by as much as is said."""
    random = Random(8)
    texts = [
        "  a: |2-\n      x\n    y\n",
        "  a: >-2 # so far in\n      x\n  b: |\n    at the end",
        "  a: >\r\n    x\r\n    y\r\n",
    ]
    texts += ["  l:\n  - >\n    q\n    r\n  - b: |+\n      s: t\n\n    c: d\n  - e\n"]
    said = ["", "  ", "    x", "    y # z", "     set in", "      - v", "    t: u", '    "w']
    for _ in range(300):
        head = random.choice("|>") + random.choice(("", "-", "+"))
        below = "".join(f"{line}\n" for line in random.choices(said, k=random.randrange(7)))
        texts.append(f"  a: {head}\n{below}" + random.choice(("  b: c\n", "# c\n", "")))
    written = [f"format: job/1\nid: a\nfamily: b\nmarks:\n{text}" for text in texts]
    ours = [text for text in written if read("a.yaml", text.encode())[0] is not None]
    assert len(ours) > 200, "a blank line set in further than the text is refused by procgen"
    assert [found["marks"] for found in run(TAKE, ours)] == [from_file(text)["marks"] for text in ours]


@pytest.mark.parametrize("path", sorted(JOBS.glob("*.yaml")), ids=lambda path: path.stem)
def test_a_demo_job_is_read_as_it_was_written(path: Path) -> None:
    [found] = run(TAKE, [path.read_text()])
    assert found == from_file(path.read_text())


@pytest.mark.parametrize(
    "style", [{"default_flow_style": flow, "width": width} for flow in (None, True, False) for width in (40, 999)]
)
def test_whatever_another_library_writes_is_read(style: dict[str, Any], workshop: Workshop) -> None:
    """PyYAML writes blocks, braces and both, and breaks lines wherever YAML lets it."""
    random = Random(5)
    order = [card for card, _ in workshop.deck]
    jobs = [
        json.loads(as_file(random_job(random, workshop, family, order, 0.3))) for family in workshop.families.values()
    ]
    texts = [yaml.safe_dump(job, sort_keys=False, allow_unicode=True, **style) for job in jobs]
    assert run(TAKE, texts) == [from_file(text) for text in texts]


@pytest.mark.parametrize("path", sorted(JOBS.glob("*.yaml")), ids=lambda path: path.stem)
def test_a_demo_job_saved_by_the_page(path: Path, workshop: Workshop, data: dict[str, Any]) -> None:
    original = loaded(path.read_text(), workshop)
    ours = plainly(judged(original, workshop))
    job = from_file(path.read_text())
    [[text, again]] = run(WRITE, [job])
    assert plainly(judged(loaded(text, workshop), workshop)) == ours, "verdict by verdict"
    order = [card for card, _ in workshop.deck]
    for kept in (job, again):
        [found] = on_the_page([kept], data, [order])
        assert len(found) == len(ours)
        for a, b in zip(ours, found, strict=True):
            same(a, b)


def test_jobs_at_random_come_back_as_they_were(workshop: Workshop) -> None:
    random = Random(11)
    order = [card for card, _ in workshop.deck]
    jobs = [random_job(random, workshop, family, order, 0.5) for family in workshop.families.values()]
    for job, (text, again) in zip(jobs, run(WRITE, jobs), strict=True):
        ours = plainly(judged(loaded(as_file(job), workshop), workshop))
        assert plainly(judged(loaded(text, workshop), workshop)) == ours
        [[text_again, _]] = run(WRITE, [again])
        assert text_again == text


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "begin with"),
        ("format: family/1\nid: a\nfamily: b\n", "begin with"),
        ("format: job/1\nid: a\nfamily: b\nsessions: [{id: x]\n", "Line 4"),
        ("format: job/1\nid: a\nfamily: b\nsessions: {id: x}\n", "lists"),
        ("format: job/1\nid: a\nfamily: b\nmarks: {c: d\n", "Line 4"),
        ("format: job/1\nid: a\nfamily: b\ntitle: c: d\n", "Line 4"),
        ("format: job/1\nid: a\nfamily: b\ntitle: 'c' d\n", "Line 4"),
        ("format: job/1\nid: a\nfamily: b\nunits: {length: in}\n", "Bare figures of this file are in in"),
        ("format: job/1\nid: a\nfamily: &x b\n", "Line 3"),
        ("format: job/1\nid: a\nfamily: b\ntitle: | x\n  y\n", "Line 4"),
        ("format: job/1\nid: a\nfamily: b\ntitle: |\n\n   x\n  y\n", "Line 7"),
        ("format: job/1\nid: a\nid: b\nfamily: c\n", "twice"),
        ("format: job/1\nid: a\nfamily: b\n    variant: c\n", "indented"),
        ("format: job/1\nid: a\nfamily: b\nchanges:\n  geometry:\n    stroke: 3\n", "changes"),
        ("format: job/1\nid: a\n", "family"),
        ('format: job/1\nid: "a\nfamily: b\n', "Line 2"),
        ("format: job/1\nid: a\nfamily: b\nmarks:\n  __proto__: c\n", "Line 5"),
    ],
)
def test_what_the_page_does_not_take_is_refused_in_words(text: str, says: str) -> None:
    [said] = run(READ, [text])
    assert said is not None
    assert says in said


def test_words_that_yaml_would_take_for_something_else(workshop: Workshop) -> None:
    marks = {"block": "0417", "a": "yes", "b": "null", "c": "1e3", "d": 'say "so": # no', "e": "12:30", "f": "- x"}
    job = {"id": "no", "title": "Off: 3", "family": "bittern", "variant": "bittern-51", "gauges": {}, "marks": marks}
    [[text, again]] = run(WRITE, [{**job, "sessions": [], "overrides": []}])
    found = loaded(text, workshop)
    assert (found.id, found.title, dict(found.marks)) == ("no", "Off: 3", marks)
    assert again["marks"] == marks
