"""The same input gives the same output, whatever was there before and however the work was dealt out."""

import os
import re
import shutil
from pathlib import Path

import pytest
from quiet import Quiet

from procgen.make import pool, unchanged
from procgen.make.making import Made, make
from procgen.make.order import Order


def made(root: Path, cache: str = "cache", out: str = "site", **more: object) -> Made:
    order = Order(root, root.parent / out, root.parent / cache, **more)  # type: ignore[arg-type]
    return make(order, Path.read_bytes, Quiet())


def tree(root: Path, out: str = "site") -> dict[str, bytes]:
    top = root.parent / out
    return {path.relative_to(top).as_posix(): path.read_bytes() for path in top.rglob("*") if path.is_file()}


def change(root: Path, old: str = "name: Teal", new: str = "name: Garganey") -> None:
    path = root / "procedures/families/teal.yaml"
    assert old in path.read_text()
    path.write_text(path.read_text().replace(old, new))


def test_nothing_is_printed_twice(root: Path) -> None:
    first = made(root)
    assert first.printed == 2
    before = tree(root)
    shutil.rmtree(root.parent / "site")
    again = made(root)
    assert again.printed == 0
    assert tree(root) == before
    assert (again.problems, again.pages, again.faces) == (first.problems, first.pages, first.faces)


def test_an_edit_prints_what_it_changes_and_no_more(root: Path) -> None:
    made(root)
    smew = (root.parent / "site/print/smew/wear.pdf").stat().st_ino
    change(root)
    assert made(root).printed == 1
    assert (root.parent / "site/print/smew/wear.pdf").stat().st_ino == smew  # linked, not written
    after = tree(root)
    made(root, "other", "fresh")
    assert tree(root, "fresh") == after


def test_a_template_of_the_workshop_is_seen(root: Path) -> None:
    made(root)
    (root / "templates/cards").mkdir(parents=True)
    text = (Path(__file__).parents[2] / "templates/cards/card.html").read_text()
    (root / "templates/cards/card.html").write_text(text.replace("<b>Bring</b>", "<b>Fetch</b>"))
    assert made(root).printed == 2


def test_a_damaged_cache_is_made_good(root: Path) -> None:
    made(root)
    before = tree(root)
    for path in (root.parent / "cache/made").rglob("*"):
        if path.is_file():
            path.write_bytes(path.read_bytes()[:-3])
    shutil.rmtree(root.parent / "site")
    assert made(root).printed == 2
    assert tree(root) == before


def test_one_bad_entry_is_made_good(root: Path) -> None:
    made(root)
    before = tree(root)
    largest = max((path for path in (root.parent / "cache/made").rglob("*") if path.is_file()), key=os.path.getsize)
    largest.write_bytes(b"somebody else's")
    shutil.rmtree(root.parent / "site")
    made(root)
    assert tree(root) == before


def test_two_shards_are_one_build(root: Path) -> None:
    made(root, "other", "alone")
    assert made(root, shard=(1, 2)).printed == 1
    assert not (root.parent / "site").exists()
    assert made(root, shard=(2, 2)).printed == 1
    assert made(root).printed == 0
    assert tree(root) == tree(root, "alone")


def test_workers_never_change_the_output(root: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pool, "FEW", 2)
    made(root, "other", "alone", workers=1)
    made(root, workers=2)
    assert tree(root) == tree(root, "alone")


def test_a_crash_names_its_card_and_leaves_the_old(root: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    made(root)
    before = tree(root)
    change(root)

    def crash(*_: object) -> None:
        raise RuntimeError("out of ink")

    monkeypatch.setattr("procgen.paper.press.Press.card", crash)
    result = made(root)
    assert not result.is_sound
    (told,) = (problem for problem in result.problems if problem.is_error)
    assert told.message == "teal/wear could not be printed: RuntimeError: out of ink"
    assert tree(root) == before
    assert sorted(path.name for path in root.parent.iterdir()) == ["cache", "other", "shop", "site"]


def test_what_makes_printing_slow_is_told(root: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("procgen.make.native.has_subset", lambda: False)
    slow = made(root).slow
    assert "libharfbuzz-subset" in slow
    assert "doubles" in slow
    shutil.rmtree(root.parent / "site")
    assert made(root).slow == ""  # nothing was printed, so nothing was slow


def test_an_age_is_noted_and_any_change_seen(tmp_path: Path) -> None:
    one, other = tmp_path / "one", tmp_path / "other"
    for path in (one, other):
        path.write_text("1")
        os.utime(path, (1000, 1000))
    names = [str(one), str(tmp_path / "not-there")]
    watch = unchanged.Watch(["make"], str(tmp_path / "cache"), names)
    watch.settle([str(other)], names, "said\n\nso\n")
    assert unchanged.told(["make"], str(tmp_path / "cache")) == "said\n\nso\n"
    assert unchanged.told(["make", "--stock", "a4"], str(tmp_path / "cache")) is None
    other.write_text("2")
    os.utime(other, (1000, 1000))  # same size, same time: its inode was still touched
    assert unchanged.told(["make"], str(tmp_path / "cache")) is None


def test_a_file_that_comes_is_seen(tmp_path: Path) -> None:
    names = [str(tmp_path / "not-there")]
    unchanged.Watch(["make"], str(tmp_path / "cache"), names).settle([], names, "said")
    assert unchanged.told(["make"], str(tmp_path / "cache")) == "said"
    (tmp_path / "not-there").write_text("1")
    assert unchanged.told(["make"], str(tmp_path / "cache")) is None


def test_nothing_is_noted_of_files_just_edited(tmp_path: Path) -> None:
    (tmp_path / "one").write_text("1")
    names = [str(tmp_path / "one")]
    unchanged.Watch(["make"], str(tmp_path / "cache"), names).settle([], names, "said")
    assert unchanged.told(["make"], str(tmp_path / "cache")) is None


def test_several_stocks_from_one_order(root: Path) -> None:
    """The first where pages look for it, the others beside it, each card in all; glance cards in a folder too."""
    one = made(root, stocks=("a5", "a6", "letter"), glance="letter", only="cards")
    assert one.is_sound
    files = {path for path in tree(root) if path.startswith("print/teal/")}
    names = {path.removeprefix("print/teal/") for path in files}
    plain = {name for name in names if "/" not in name}
    assert "deck.pdf" in plain
    for folder in ("a6", "letter"):
        assert {f"{folder}/{name}" for name in plain} <= names | {f"{folder}/sheets.pdf"}
    assert {name for name in names if name.startswith("glance/")} == {
        f"glance/{name}" for name in plain - {"sheets.pdf"}
    }
    alone = made(root, cache="other", out="alone", stocks=("a6",), only="cards")
    assert alone.is_sound
    card = next(name for name in plain if name not in ("deck.pdf", "sheets.pdf"))
    assert tree(root, "alone")[f"print/teal/{card}"] == tree(root)[f"print/teal/a6/{card}"]


def test_pages_offer_what_was_printed_and_nothing_else(root: Path) -> None:
    made(root, stocks=("a5", "a6"), glance="letter")
    files = tree(root)
    deck, cards = files["teal/index.html"].decode(), [path for path in files if re.fullmatch(r"teal/(?!index).*", path)]
    for path in ("deck.pdf", "sheets.pdf", "a6/deck.pdf", "glance/deck.pdf"):
        assert f'href="../print/teal/{path}"' in deck
    found = {path: set(re.findall(r'href="\.\./(print/[^"]*)"', files[path].decode())) for path in cards}
    assert all(links <= files.keys() for links in found.values())
    assert cards
    assert all(f"print/teal/a6/{path[5:-5]}.pdf" in links for path, links in found.items())
    assert any("/glance/" in link for links in found.values() for link in links)
    made(root, cards=(cards[0][5:-5],))
    assert "a6/deck.pdf" in tree(root)["teal/index.html"].decode(), "it is still there"
    made(root)
    assert "a6/deck.pdf" not in tree(root)["teal/index.html"].decode()


def test_one_card_alone_is_what_it_is_among_all(root: Path) -> None:
    """And brings no deck of it alone."""
    made(root)
    assert made(root, "other", "one", families=("teal",), cards=("wear",), only="cards").printed == 1
    assert tree(root, "one") == {"print/teal/wear.pdf": tree(root)["print/teal/wear.pdf"]}
