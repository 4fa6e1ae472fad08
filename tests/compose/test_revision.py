"""The code of what a card says: the same everywhere, another for anything that is said otherwise."""

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from small_shed import SHOP, TEAL, WEAR, Files, card, shed, text_of

from procgen.compose.revision import ALPHABET, LENGTH, dump, figure_text, revision
from procgen.model.card import Figure
from procgen.model.workshop import Workshop
from tests.demo import deck, workshop

ROOT = Path(__file__).parent.parent.parent
GOLDEN = Path(__file__).parent / "golden"
UPDATE = "PROCGEN_UPDATE_GOLDEN"
"""Set in the environment, the golden texts are written anew; read the difference before committing it."""


def test_the_alphabet_has_no_signs_that_are_taken_for_each_other() -> None:
    assert len(set(ALPHABET)) == len(ALPHABET) == 32
    assert not set(ALPHABET) & set("0O1I")
    assert re.fullmatch(r"[2-9A-Z]+", ALPHABET)


def test_a_code_is_short_and_of_that_alphabet(tmp_path: Path) -> None:
    code = card(shed(tmp_path)).revision
    assert len(code) == LENGTH
    assert set(code) <= set(ALPHABET)


def of(root: Path, path: str = "", old: str = "", new: str = "", family: str = "teal") -> str:
    """The revision of the small workshop's card with one text changed."""
    files: Files = {}
    if path:
        assert text_of(path).count(old) >= 1
        files = {path: text_of(path).replace(old, new, 1)}
    return card(shed(root, files), family=family).revision


@pytest.mark.parametrize(
    ("path", "old", "new"),
    [
        (SHOP, "stock: a5", "stock: letter-half"),
        (SHOP, "name: Test Shop", "name: Another Shop\nsite: https://shed.example/cards/\ntheme: mono"),
        (SHOP, "stock: a5", "stock: a5\napproved: {by: A. Teal, on: 2026-03-14}\nread_from: {steps: 0.5 m}"),
        (SHOP, "uncertainty: 0.004 mm", "uncertainty: 0.009 mm"),
        (SHOP, "source: shop practice", "source: somebody's note"),
        (TEAL, "stroke: 80.0", "stroke: 80.0, rod_length: 140.0"),
        (TEAL, "stroke: 80.0", "stroke:   80.0"),
        (WEAR, "formula: size - geometry.bore", "formula: -geometry.bore + size"),
    ],
)
def test_what_is_not_on_the_card_does_not_change_it(tmp_path: Path, path: str, old: str, new: str) -> None:
    if "letter-half" in new:
        new = f"stock: {next(id for id in shed(tmp_path / 'x').stocks if id != 'a5')}"
    assert of(tmp_path / "a", path, old, new) == of(tmp_path / "b")


@pytest.mark.parametrize(
    ("path", "old", "new"),
    [
        (SHOP, "is: 0.10 mm", "is: 0.11 mm"),
        (SHOP, "is: 0.10 mm", "is: 0.100 mm"),  # another precision is said
        (SHOP, "{length: mm}", "{length: mm, also: in brackets}"),
        (SHOP, "{length: mm}", "{length: in}"),
        (TEAL, "deck_clearance: 0.4", "deck_clearance: 1.2"),
        (TEAL, "deck_clearance: 0.4", "deck_clearance: "),
        (TEAL, "name: Teal", "name: Green teal"),
        (TEAL, "cylinders: 2", "cylinders: 3"),
        (WEAR, "title: Wear", "title: Worn out"),
        (WEAR, "Is the bore worn out?", "Is it worn?"),
        (WEAR, "A worn bore burns oil.", "It burns oil."),
        (WEAR, "Wipe it first.", "Wipe it."),
        (WEAR, "Bore. It is worn.", "Bore. It is well worn."),
        (WEAR, "wear > shop.wear_max", "wear >= shop.wear_max"),
        (WEAR, "show: 1 %", "show: 0.1 %"),
        (WEAR, "scored: is scored", "scored: has scores"),
        (WEAR, "with: bore_gauge", "with: bore_gauge\n    where: at the top"),
        (WEAR, "with: bore_gauge", "with: calliper"),
        (WEAR, "tools: [bore-gauge]", "tools: [bore-gauge, calliper]"),
        (WEAR, "tools: [bore-gauge]", "tools: [bore-gauge]\ncautions: [heat]"),
        (WEAR, "tools: [bore-gauge]", "tools: [bore-gauge]\nrecord: [the wear]"),
        (WEAR, "tools: [bore-gauge]", "tools: [bore-gauge]\nhold_point: Stop."),
        (WEAR, "read: [size, wall]", "read: [wall, size]"),
        (WEAR, "do: Decide for each cylinder.", "do: Decide for each cylinder.\n    cautions: [heat]"),
        (WEAR, "do: Decide for each cylinder.", "do: Decide for each cylinder.\n    right: All are decided."),
        (WEAR, "do: Decide for each cylinder.", "do: Decide for each cylinder.\n    because: Pistons are ordered."),
    ],
)
def test_whatever_is_said_otherwise_changes_it(tmp_path: Path, path: str, old: str, new: str) -> None:
    assert of(tmp_path / "a", path, old, new) != of(tmp_path / "b")


def test_the_families_cards_differ(tmp_path: Path) -> None:
    assert of(tmp_path, family="teal") != of(tmp_path, family="smew")


PRINT = """
import sys
from pathlib import Path
sys.path.insert(0, {here!r})
from small_shed import SMALL, card
from procgen.load.workshop import load_workshop
print(card(load_workshop(SMALL, Path.read_bytes).workshop).revision)
"""


def test_the_same_in_other_processes_whatever_their_hashes(tmp_path: Path) -> None:
    """Sets and dictionaries come in another order with another seed."""
    told = []
    for seed in ("1", "2"):
        environment = {**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": str(ROOT)}
        command = [sys.executable, "-c", PRINT.format(here=str(Path(__file__).parent))]
        told.append(subprocess.run(command, env=environment, capture_output=True, text=True, check=True).stdout.strip())
    assert told == [of(tmp_path)] * 2


def test_figures_in_a_line_of_text() -> None:
    assert figure_text(Figure("0.10", "mm", "≤", "0.004 in")) == "≤ 0.10 mm (0.004 in)"
    assert figure_text(Figure("", "mm", state="blank")) == figure_text(Figure("", "mm", state="wanting")) == "[ ] mm"
    assert figure_text(Figure("80.0", "mm", variant="short")) == "short: 80.0 mm"


@pytest.fixture(scope="module")
def demo() -> Workshop:
    return workshop()


@pytest.mark.parametrize(("family", "id"), [("bittern", "cylinder-survey"), ("grebe", "cam-bearings")])
def test_two_whole_cards(demo: Workshop, family: str, id: str) -> None:
    """A card that has all its figures, and one of a family of which hardly any are known."""
    said = "\n".join(dump(card(demo, id, family))) + "\n"
    path = GOLDEN / f"{family}-{id}.txt"
    if os.environ.get(UPDATE):
        path.parent.mkdir(exist_ok=True)
        path.write_text(said, encoding="utf-8")
    assert said == path.read_text(encoding="utf-8"), f"if that is meant: {UPDATE}=1 pytest {Path(__file__).name}"


def test_the_decks_order_gives_stages_their_numbers_and_neighbours(demo: Workshop) -> None:
    cards = deck("bittern").cards
    assert [found.id for found in cards] == [id for id, _ in demo.deck]
    assert [found.stage.number for found in cards] == list(range(1, len(cards) + 1))
    assert {found.stage.total for found in cards} == {len(cards)}
    names = [demo.procedures[id].stage for id, _ in demo.deck]
    assert [found.stage.name for found in cards] == names
    assert [found.stage.before for found in cards] == ["", *names[:-1]]
    assert [found.stage.after for found in cards] == [*names[1:], ""]
    assert [found.address for found in cards] == [f"bittern/{id}" for id, _ in demo.deck]


def test_no_two_cards_of_the_demo_have_one_code(demo: Workshop) -> None:
    codes = {f"{id}/{c.id}": c.revision for id in demo.families for c in deck(id).cards}
    assert len(set(codes.values())) == len(codes)
    assert all(revision(card(demo, "receive", id)) == codes[f"{id}/receive"] for id in demo.families)
