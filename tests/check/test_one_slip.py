"""One slip anywhere in a sound workshop: the report names exactly its file and line, and nothing else.

The workshops are made at random: sizes, number of cylinders, names, and comments and empty lines strewn in between.
"""

import tempfile
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from procgen.files.problems import Severity
from procgen.make.checking import read_and_check

SHOP, CARD, FAMILY = "procedures/workshop.yaml", "procedures/deck/wear.yaml", "procedures/families/{id}.yaml"
Files = dict[str, list[str]]
Slip = tuple[str, str, str, str]
"""File, what stands there, what is written instead, and the code that tells it; told where the second stands."""

SLIPS: tuple[Slip, ...] = (
    (CARD, "formula: size - geometry.bore", "formula: size - geometry.bor", "unknown-name"),
    (CARD, "formula: size - geometry.bore", "formula: size -", "formula-syntax"),
    (CARD, "formula: size - geometry.bore", "formula: size - mains.bolts", "unknown-name"),
    (CARD, "formula: size - geometry.bore", "formula: size - 42", "formula-number"),
    (CARD, "when: wall is scored", "when: wall is skored", "unknown-word"),
    (CARD, "do: Look at {geometry.bore}.", "do: Look at {geometry.bored}.", "unknown-name"),
    (CARD, "show: 0.01 mm", "show: 0.01 kPa", "show-unit"),
    (CARD, "show: 0.01 mm", "show: fine", "show"),
    (CARD, "measure: length", "measure: lengths", "not-a-choice"),
    (CARD, "tools: [bore-gauge]", "tools: [bore-gage]", "no-tool"),
    (CARD, "question: Well?", "queston: Well?", "unknown-key"),
    (CARD, "reason: It wears.", "reason: 'It wears.", "yaml"),
    (CARD, "reason: It wears.", "reason: It wears.\nreason: Twice.", "duplicate-key"),
    (FAMILY, "stroke:", "strokes:", "unknown-key"),
    (FAMILY, "deck_clearance: 0.4", "deck_clearance: 0.4 N·m", "quantity"),
    (FAMILY, "deck_clearance: 0.4", "deck_clearance: [0.4]", "wrong-type"),
    (FAMILY, "deck_clearance: 0.4", "deck_clearance: 010", "look-alike"),
    (FAMILY, "block.material: iron", "block.material: iorn", "trait-value"),
    (FAMILY, "block.material: iron", "block.materiel: iron", "no-trait"),
    (FAMILY, "format: family/1", "format: familie/1", "unknown-format"),
    (SHOP, "deck: [wear]", "deck: [wear, tear]", "deck-no-card"),
    (SHOP, "stock: a5", "stock: a55", "no-stock"),
    (SHOP, "is: 0.10 mm", "is: 0.10 mn", "quantity"),
)


def sound(id: str, cylinders: int, bore: float, stroke: float) -> Files:
    return {
        SHOP: [
            *("format: workshop/1", "name: Test Shop", "show: {length: mm}", "stock: a5", "deck: [wear]", "rules:"),
            *("  wear_max:", "    title: Most wear", "    is: 0.10 mm", "    source: shop practice"),
        ],
        CARD: [
            *("format: procedure/1", "id: wear", "title: Wear", "question: Well?", "stage: Measure"),
            *("reason: It wears.", "tools: [bore-gauge]", "values:", "  wear:", "    title: Wear"),
            *("    each: cylinder", "    formula: size - geometry.bore", "    show: 0.01 mm", "readings:", "  size:"),
            *("    title: Size", "    each: cylinder", "    measure: length", "    with: bore_gauge", "  wall:"),
            *(
                "    title: Wall",
                "    each: cylinder",
                "    choices:",
                "      sound: is sound",
                "      scored: is scored",
            ),
            *("decisions:", "  worn:", "    title: Worn?", "    each: cylinder", "    branches:", "      - id: scored"),
            *("        when: wall is scored", "        then: Bore.", "      - id: large"),
            *("        when: wear > shop.wear_max", "        then: Bore.", "    otherwise:", "      id: keep"),
            *("      then: Keep.", "steps:", "  - id: look", "    do: Look at {geometry.bore}."),
            *("    read: [size, wall]", "    show: [wear]", "    decide: [worn]"),
        ],
        FAMILY.format(id=id): [
            *("format: family/1", f"id: {id}", f"name: {id.title()}", "units: {length: mm}", "layout:"),
            *("  kind: inline", f"  cylinders: {cylinders}", "traits:", "  block.material: iron", "geometry:"),
            *(f"  bore: {bore}", f"  stroke: {stroke}", "  deck_clearance: 0.4"),
        ],
    }


IDS = st.sampled_from(["teal", "smew", "scoter", "garganey"])
SIZES = st.integers(500, 1500).map(lambda tenths: tenths / 10)
WORKSHOPS = st.builds(sound, IDS, st.integers(1, 12), SIZES, SIZES)
STREWN = st.lists(st.tuples(st.integers(1, 40), st.sampled_from(["", "# a note", "    # further in: 3"])), max_size=6)


def strewn(lines: list[str], what: list[tuple[int, str]]) -> list[str]:
    """Comments and empty lines in between, never before the first line."""
    lines = list(lines)
    for place, line in what:
        lines.insert(1 + place % len(lines), line)
    return lines


def told(files: Files) -> list[tuple[str, int, str]]:
    with tempfile.TemporaryDirectory() as folder:
        for path, lines in files.items():
            (Path(folder) / path).parent.mkdir(parents=True, exist_ok=True)
            (Path(folder) / path).write_text("\n".join(lines) + "\n", encoding="utf-8")
        problems = read_and_check(Path(folder), Path.read_bytes).problems
    return [(p.place.path, p.place.line, p.code) for p in problems if p.severity is not Severity.NOTE]


few = settings(max_examples=3, suppress_health_check=[HealthCheck.too_slow])


@few
@given(WORKSHOPS, STREWN)
def test_a_sound_workshop_is_told_nothing_of(files: Files, notes: list[tuple[int, str]]) -> None:
    assert told({path: strewn(lines, notes) for path, lines in files.items()}) == []


@pytest.mark.parametrize(("path", "old", "new", "code"), SLIPS, ids=[slip[2].split("\n")[-1] for slip in SLIPS])
@few
@given(WORKSHOPS, STREWN)
def test_a_slip_is_told_at_its_line_and_nowhere_else(
    path: str, old: str, new: str, code: str, files: Files, notes: list[tuple[int, str]]
) -> None:
    path = next(known for known in files if Path(known).parent == Path(path).parent)
    files = {known: strewn(lines, notes) for known, lines in files.items()}
    broken = "\n".join(files[path]).replace(old, new, 1).split("\n")
    line = next(number for number, text in enumerate(broken, 1) if new.split("\n")[-1] in text)
    assert told({**files, path: broken}) == [(path, line, code)]
