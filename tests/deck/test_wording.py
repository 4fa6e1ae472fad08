"""The cards and cautions keep to what a person with greasy gloves can take in, and never suggest what harms."""

from __future__ import annotations

import re

import pytest

from tests.demo import ROOT, workshop

OURS = (
    "rough-wash", "cracks", "threads", "measure-bores", "travel", "cylinder-survey", "deck-face", "decide",
    "receive", "plug-map", "strip", "water-plugs", "cam-bearings", "galleys", "cam-in", "re-plug", "galley-test",
    "prime", "preserve",
)  # fmt: skip
INJURY = re.compile(r"injur|burn|death|blind|poison|crush|wound|lost (eye|finger)|disease", re.IGNORECASE)
"""Words of harm to a person. ANSI Z535.6 keeps NOTICE for what harms things only (from memory, not checked)."""


def words(*texts: object) -> int:
    return sum(len(str(text).split()) for text in texts if text is not None)


def first_sentence(text: str) -> str:
    return re.split(r"(?<=[.!?])\s", text)[0]


@pytest.mark.parametrize("id", OURS)
def test_a_step_is_short_enough_to_keep_in_mind(id: str) -> None:
    steps = workshop().procedures[id].steps
    assert steps
    assert [step.id for step in steps if words(step.do, step.right, step.because) > 45] == []


@pytest.mark.parametrize("id", OURS)
def test_every_branch_ends_in_an_action_short_enough_to_print_large(id: str) -> None:
    decisions = workshop().procedures[id].decisions
    assert decisions
    long = [b.id for d in decisions.values() for b in d.branches if not 2 < len(first_sentence(b.then.value)) <= 32]
    assert long == []


@pytest.mark.parametrize("id", OURS)
def test_every_reading_is_taken_and_every_decision_made_in_some_step(id: str) -> None:
    card = workshop().procedures[id]
    assert {name for step in card.steps for name, _ in step.read} == set(card.readings)
    assert {name for step in card.steps for name, _ in step.decide} == set(card.decisions)


@pytest.mark.parametrize("id", OURS)
def test_no_figure_is_typed_into_a_sentence(id: str) -> None:
    card = workshop().procedures[id]
    texts = [t for s in card.steps for t in (s.do, s.right, s.because) if t is not None]
    texts += [b.then for d in card.decisions.values() for b in d.branches]
    typed = [str(t) for t in texts if re.search(r"\d", re.sub(r"\{[^}]*\}", "", str(t)))]
    assert typed == []


@pytest.mark.parametrize("id", OURS)
def test_a_card_is_short_enough_for_a_wall(id: str) -> None:
    card = workshop().procedures[id]
    assert [step.id for step in card.steps if words(step.do, step.right, step.because) > 30] == []
    branches = [branch for decision in card.decisions.values() for branch in decision.branches]
    assert [b.id for b in branches if words(b.then.value) - words(first_sentence(b.then.value)) > 17] == []
    assert [seen for r in card.readings.values() for seen in r.choices.values() if words(seen) > 5] == []
    assert words(card.reason.value) <= 38
    assert len(card.cautions) <= 2
    assert all(len(step.cautions) <= 1 for step in card.steps)


def test_cautions_are_short_and_a_notice_is_not_about_people() -> None:
    cautions = workshop().cautions
    assert len(cautions) > 20
    assert [c.id for c in cautions.values() if words(c.avoid) > 30 or words(c.hazard) > 16] == []
    for caution in cautions.values():
        if caution.level == "NOTICE":
            assert not caution.symbols
            assert not INJURY.search(f"{caution.hazard} {caution.consequence} {caution.avoid}")
        else:
            assert caution.symbols


def test_petrol_is_named_only_to_forbid_it() -> None:
    paths = [*(ROOT / "procedures").rglob("*.yaml"), *(ROOT / "shared").glob("*.yaml")]
    lines = [line for path in paths for line in path.read_text(encoding="utf-8").splitlines()]
    named = [line for line in lines if re.search("petrol|gasoline", line)]
    assert named
    assert all(re.search("never", line, re.IGNORECASE) for line in named)
