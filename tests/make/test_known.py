"""What was found before is told again to the letter, whatever was edited meanwhile; only what changed is looked at."""

import shutil
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from pathlib import Path

import pytest

from procgen.check import context as checking
from procgen.check.portions import Portions
from procgen.compose import Bench, benches, compose_deck, lives
from procgen.compose.characters import characters
from procgen.compose.common import Common
from procgen.files.memory import NOTHING, Memory
from procgen.files.problems import Problem
from procgen.load import folder
from procgen.load.folder import Folder
from procgen.load.workshop import load_procedures, load_workshop
from procgen.make.ahead import Ahead
from procgen.make.cache import Cache
from procgen.make.checking import read_and_check
from procgen.make.composing import Composing
from procgen.make.known import Kept, Resident
from procgen.make.order import Order
from procgen.model.family import Family
from procgen.model.workshop import Workshop

TESTS = Path(__file__).resolve().parents[1]
SOUND, WRONG = TESTS / "check" / "workshop", TESTS / "check" / "wrong"
DEMO = TESTS.parent / "procedures"
FAMILY, OTHER = "procedures/families/bittern.yaml", "procedures/families/curlew.yaml"
CARD, JOB, SHOP = (
    "procedures/deck/cylinder-survey.yaml",
    "procedures/jobs/sea-lavender.yaml",
    "procedures/workshop.yaml",
)
SHARED = "shared/own.yaml"
Edit = Callable[[str], str]


def told(root: Path, memory: Memory = NOTHING, ahead: Ahead | None = None) -> tuple[Problem, ...]:
    return read_and_check(root, Path.read_bytes, memory, ahead).problems


@pytest.fixture(scope="module")
def cache(tmp_path_factory: pytest.TempPathFactory) -> Cache:
    """One for all slips, so that each is looked for among what is known of the others."""
    return Cache(tmp_path_factory.mktemp("cache"))


@pytest.mark.parametrize("case", sorted(path.name for path in WRONG.iterdir() if path.is_dir()))
def test_a_slip_and_its_mend(case: str, tmp_path: Path, cache: Cache) -> None:
    """Before, broken, mended, and broken again."""
    resident = Resident()
    for turn, name in enumerate(("", case, "", case)):
        root = tmp_path / "shop"
        shutil.rmtree(root, ignore_errors=True)
        shutil.copytree(SOUND, root)
        if name:
            shutil.copytree(WRONG / name, root, dirs_exist_ok=True, ignore=shutil.ignore_patterns("says.txt"))
        fresh = told(root)
        assert told(root, Kept(cache)) == fresh, turn
        assert told(root, resident.begin(NOTHING)) == fresh, turn


def swap(old: str, new: str) -> Edit:
    def edit(text: str) -> str:
        assert old in text
        return text.replace(old, new, 1)

    return edit


def line_above(text: str) -> str:
    """Every place in the file moves."""
    return f"# noted\n{text}"


EDITS: dict[str, tuple[str, Edit]] = {
    "a family's size": (FAMILY, swap("  bore: 98", "  bore: 97")),
    "a family's figure left out": (FAMILY, swap("  deck_clearance:", "  # deck_clearance:")),
    "a family's words": (FAMILY, swap("describe: ", "describe: Old. ")),
    "a family, moved": (FAMILY, line_above),
    "a family, broken": (OTHER, swap("geometry:", "geometri:")),
    "a card's text": (CARD, swap("reason: ", "reason: Well. ")),
    "a card, moved": (CARD, line_above),
    "a card, broken": (CARD, swap("title:", "titel:")),
    "a card's formula": (CARD, swap("formula: ", "formula: no_such_thing + ")),
    "a shared caution": (SHARED, swap("level: NOTICE", "level: WARNING")),
    "a job, moved": (JOB, line_above),
    "a job's reading": (JOB, swap("cam_bore: 48.562", "cam_bore: 485.62")),
    "a job's reading, of another name": (JOB, swap("found_plug: 13", "found_plugs: 13")),
    "a rule of the shop": (SHOP, swap("source:", "source: not")),
}
OWN = """format: cautions/1
cautions:
  own:
    level: NOTICE
    hazard: A burn
    consequence: hurts.
    avoid: Wear gloves.
    source: common practice, no source
"""


@pytest.fixture(scope="module")
def shed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Two families of the demo, a job, and a shared file of its own that says something odd."""
    root = tmp_path_factory.mktemp("shed")
    shutil.copytree(DEMO / "deck", root / "procedures/deck")
    shutil.copy(DEMO / "workshop.yaml", root / SHOP)
    for path in (FAMILY, OTHER, JOB):
        (root / path).parent.mkdir(exist_ok=True)
        shutil.copy(DEMO.parent / path, root / path)
    (root / "shared").mkdir()
    (root / SHARED).write_text(OWN)
    assert "notice-injury" in {problem.code for problem in told(root)}
    return root


@pytest.fixture(scope="module")
def warm(shed: Path, tmp_path_factory: pytest.TempPathFactory) -> tuple[Cache, Resident]:
    cache, resident = Cache(tmp_path_factory.mktemp("warm")), Resident()
    told(shed, resident.begin(Kept(cache)))
    return cache, resident


@pytest.fixture
def looked_at(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The families that anything is worked out for."""
    found: list[str] = []
    made = checking.benches

    def noted(shop: Workshop, family: Family, common: Common) -> Mapping[str, Bench]:
        found.append(family.id)
        return made(shop, family, common)

    monkeypatch.setattr(checking, "benches", noted)
    return found


@pytest.fixture
def edited(shed: Path, request: pytest.FixtureRequest) -> Iterator[Path]:
    path, edit = EDITS[request.param]
    before = (shed / path).read_text()
    (shed / path).write_text(edit(before))
    yield shed
    (shed / path).write_text(before)


@pytest.mark.parametrize("edited", EDITS, indirect=True)
def test_an_edit_of_the_demo(edited: Path, warm: tuple[Cache, Resident]) -> None:
    cache, resident = warm
    fresh = told(edited)
    assert told(edited, Kept(cache)) == fresh
    assert told(edited, Kept(cache)) == fresh
    assert told(edited, resident.begin(NOTHING)) == fresh


@pytest.mark.parametrize("edited", EDITS, indirect=True)
def test_families_looked_at_ahead(edited: Path, tmp_path: Path) -> None:
    """In other processes, from nothing: problems to the letter; decks as they are composed here."""
    fresh = read_and_check(edited, Path.read_bytes)
    kept, composing = Kept(Cache(tmp_path)), Composing(Order(edited, tmp_path / "site", tmp_path))
    ahead = read_and_check(edited, Path.read_bytes, kept, Ahead(2, composing))
    assert ahead.problems == fresh.problems
    if fresh.is_sound:
        portions = Portions(ahead.context, kept)
        for id, family in fresh.workshop.families.items():
            assert composing.has(portions, id)
            known = composing.enlivened(portions, composing.deck(portions, id))
            assert known == compose_deck(fresh.workshop, family)
            assert composing.characters(portions, known) == characters(known)
            assert repr(known) == repr(compose_deck(fresh.workshop, family))  # by which prints and pages are known


def test_this_process_works_nothing_out_then(shed: Path, tmp_path: Path, looked_at: list[str]) -> None:
    ahead = Ahead(2, Composing(Order(shed, tmp_path / "site", tmp_path)))
    told(shed, Kept(Cache(tmp_path)), ahead)
    assert looked_at == []
    told(shed, NOTHING, ahead)  # nowhere to leave what is found
    assert looked_at


def test_files_are_read_ahead(shed: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    shop = shutil.copytree(shed, tmp_path / "shop")
    kept, ahead = Kept(Cache(tmp_path / "cache")), Ahead(2)
    assert len(Folder(shop, Path.read_bytes, kept).unknown("family")) == 2
    with monkeypatch.context() as patch, ahead.read(shop, Path.read_bytes, kept) as apart:
        patch.setattr(folder, "schema_problems", None)  # so that this process can't
        apart.result()
        Folder(shop, Path.read_bytes, kept).by_id("family")
        assert load_procedures(Folder(shop, Path.read_bytes, kept))
    assert len(Folder(shop, Path.read_bytes, kept).unknown("family")) == 0

    (shop / FAMILY).write_text((shop / FAMILY).read_text() + "surprise: 1\n")
    with ahead.read(shop, Path.read_bytes, kept):  # one file: no process is begun for it
        assert len(Folder(shop, Path.read_bytes, kept).unknown("family")) == 1
    assert told(shop, kept, ahead) == told(shop)


def test_only_what_changed_is_parsed(shed: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """And what was loaded before comes back to the letter, by which all that follows is known."""
    shop, kept, parsed = shutil.copytree(shed, tmp_path / "shop"), Kept(Cache(tmp_path / "cache")), list[str]()
    fresh = load_workshop(shop, Path.read_bytes)
    load_workshop(shop, Path.read_bytes, memory=kept)
    read = folder.read_document
    monkeypatch.setattr(folder, "read_document", lambda shown, *rest: parsed.append(shown) or read(shown, *rest))
    assert repr(load_workshop(shop, Path.read_bytes, memory=kept)) == repr(fresh)
    assert not [path for path in parsed if "/families/" in path or "/deck/" in path]
    for path, edit, anew in (
        (FAMILY, swap("  bore: 98", "  bore: 96"), {FAMILY}),
        (CARD, swap("reason: ", "reason: Well now. "), {CARD, FAMILY, OTHER}),  # a family may amend any card
    ):
        (shop / path).write_text(edit((shop / path).read_text()))
        parsed.clear()
        found = load_workshop(shop, Path.read_bytes, memory=kept)
        assert {path for path in parsed if "/families/" in path or "/deck/" in path} == anew
        assert found == load_workshop(shop, Path.read_bytes)


def test_only_what_changed_is_looked_at(shed: Path, warm: tuple[Cache, Resident], looked_at: list[str]) -> None:
    for path, edit, families in (
        (FAMILY, swap("describe: ", "describe: Very old. "), set()),
        (FAMILY, swap("  bore: 98", "  bore: 96"), {"bittern"}),
        (OTHER, line_above, {"curlew"}),
        (CARD, swap("reason: ", "reason: Well now. "), {"bittern", "curlew"}),
    ):
        before = (shed / path).read_text()
        (shed / path).write_text(edit(before))
        looked_at.clear()
        told(shed, Kept(warm[0]))
        assert set(looked_at) == families
        (shed / path).write_text(before)
    looked_at.clear()
    told(shed, Kept(warm[0]))
    assert looked_at == []


def test_words_have_no_say_in_what_is_known(shed: Path) -> None:
    """What a family's pages judge readings by is known without its `describe` too, as what is told of it is."""
    workshop = read_and_check(shed, Path.read_bytes).workshop
    family = workshop.families["bittern"]
    said = []
    for one in (family, replace(family, describe="Something else.")):
        deck = compose_deck(workshop, one, is_live=False)
        said.append(lives(deck, benches(workshop, one)))
    assert said[0] == said[1]
    assert any(said[0].values())


def test_what_is_damaged_is_found_anew(shed: Path, tmp_path: Path, looked_at: list[str]) -> None:
    fresh = told(shed, Kept(Cache(tmp_path)))
    entries = [path for path in tmp_path.rglob("*") if path.is_file()]
    whole = {path: path.read_bytes() for path in entries}
    for path in entries:
        path.write_bytes(whole[path][:-1])
    looked_at.clear()
    assert told(shed, Kept(Cache(tmp_path))) == fresh
    assert set(looked_at) == {"bittern", "curlew"}
    assert {path: path.read_bytes() for path in entries} == whole
