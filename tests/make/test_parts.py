"""A page is made anew where what it shows has changed, and nowhere else; and is what a build from nothing makes."""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from quiet import Quiet

from procgen.make import parts, pool
from procgen.make.cache import Cache
from procgen.make.making import Made, make
from procgen.make.order import Order, PartFailed
from procgen.web.part import Files, Part, as_is
from procgen.web.tools import Tools

HERE = Path(__file__).parent
SITE = HERE.parents[1] / "templates" / "site"


@pytest.fixture
def anew(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Paths of what is made rather than known, without the part of their names that tells their content."""
    found: list[str] = []
    whole = Part.made

    def made(part: Part, tools: Tools) -> Files:
        files = whole(part, tools)
        found.extend(re.sub(r"\.[0-9a-f]{12}\.", ".", path) for path in files)
        return files

    monkeypatch.setattr(Part, "made", made)
    return found


def made(root: Path, cache: str = "cache", out: str = "site", only: str = "site", **more: object) -> Made:
    order = Order(root, root.parent / out, root.parent / cache, only=only, **more)  # type: ignore[arg-type]
    result = make(order, Path.read_bytes, Quiet())
    assert result.is_sound, result.problems
    return result


def tree(root: Path, out: str = "site") -> dict[str, bytes]:
    top = root.parent / out
    return {path.relative_to(top).as_posix(): path.read_bytes() for path in top.rglob("*") if path.is_file()}


def edited(path: str, old: str, new: str) -> Callable[[Path], None]:
    def edit(root: Path) -> None:
        file = root / path
        assert old in file.read_text()
        file.write_text(file.read_text().replace(old, new))

    return edit


def written(path: str, text: str) -> Callable[[Path], None]:
    def edit(root: Path) -> None:
        (root / path).parent.mkdir(parents=True, exist_ok=True)
        (root / path).write_text(text)

    return edit


FAMILY, CARD, SHOP = "procedures/families/teal.yaml", "procedures/deck/wear.yaml", "procedures/workshop.yaml"
LEDGER = 'format: printed/1\nprinted:\n  - {family: smew, card: wear, revision: "ABCDE", on: 2026-03-14}\n'
JOB = "format: job/1\nid: dabchick\ntitle: Dabchick\nfamily: teal\nsessions: []\n"
TEAL, SMEW = ("teal/index.html", "teal/wear.html"), ("smew/index.html", "smew/wear.html")
SAID = ("data/smew/wear.said.js", "data/teal/wear.said.js")
LIVE = ("data/smew/wear.js", "data/teal/wear.js")
PAGES = ("compare.html", "guide.html", "index.html", *SMEW, *TEAL)
OURS = (SITE / "guide.html").read_text().replace("<h1>What", "<h1>All that")

EDITS = {
    "a family's name": (
        edited(FAMILY, "name: Teal", "name: Pochard"),
        ("data/search.js", "data/teal/wear.said.js", "index.html", "sw.js", *TEAL),
    ),
    "a size that one family states": (
        edited(FAMILY, "deck_clearance: 0.4", "deck_clearance: 0.8"),
        ("data/teal/wear.said.js", "sw.js", *TEAL),
    ),
    "a word of a step": (
        edited(CARD, "Wipe it first.", "Wipe it dry."),
        ("data/search.js", "smew/wear.html", "sw.js", "teal/wear.html", *SAID),
    ),
    "what an arm says": (
        edited(CARD, "Bore. It is worn.", "Bore. It is done for."),
        ("smew/wear.html", "sw.js", "teal/wear.html", *SAID, *LIVE),
    ),
    "a limit": (
        edited(SHOP, "is: 0.10 mm", "is: 0.12 mm"),
        ("smew/wear.html", "sw.js", "teal/wear.html", *SAID, *LIVE),
    ),
    "a job that comes": (
        written("procedures/jobs/dabchick.yaml", JOB),
        ("index.html", "jobs/dabchick/index.html", "sw.js"),
    ),
    "a print that is noted": (
        written("procedures/printed.yaml", LEDGER),
        ("data/smew/wear.said.js", "sw.js"),
    ),
    "the shop's name": (edited(SHOP, "name: Test Shop", "name: The Mud Dock"), ("sw.js", *PAGES)),
    "the stock and the theme, which no page shows": (edited(SHOP, "stock: a5", "stock: a6\ntheme: mono"), ()),
}


@pytest.mark.parametrize("name", EDITS)
def test_only_what_shows_an_edit_is_made_anew(name: str, root: Path, anew: list[str]) -> None:
    edit, shows = EDITS[name]
    made(root)
    assert {*PAGES, *SAID, *LIVE, "sw.js"} <= {*anew}
    anew.clear()
    edit(root)
    made(root)
    assert sorted(anew) == sorted(shows)
    made(root, "other", "fresh")
    assert tree(root) == tree(root, "fresh")


def test_an_edited_template_makes_all_anew(root: Path, anew: list[str]) -> None:
    made(root)
    count = len(anew)
    anew.clear()
    written("templates/site/guide.html", OURS)(root)
    made(root)
    assert len(anew) == count
    assert b"<h1>All that" in tree(root)["guide.html"]
    made(root, "other", "fresh")
    assert tree(root) == tree(root, "fresh")


def test_a_print_gone_missing_is_no_longer_linked(root: Path, anew: list[str]) -> None:
    made(root, only="")
    (root.parent / "site/print/smew/wear.pdf").unlink()
    shutil.copytree(root.parent / "site", root.parent / "fresh")
    anew.clear()
    made(root, only="", families=("teal",))
    assert sorted(anew) == ["smew/wear.html", "sw.js"]
    assert b"Print this card" not in tree(root)["smew/wear.html"]
    made(root, "other", "fresh", only="", families=("teal",))
    assert tree(root) == tree(root, "fresh")


def test_other_characters_make_other_fonts(root: Path, anew: list[str]) -> None:
    """And all pages, since they name the style sheet, which names the fonts."""
    made(root)
    anew.clear()
    edited(FAMILY, "name: Teal", "name: Tęal")(root)
    made(root)
    assert {"assets/card-text.woff2", "assets/site.css", "compare.html"} <= {*anew}
    assert not {*LIVE, "data/smew/wear.said.js"} & {*anew}
    made(root, "other", "fresh")
    assert tree(root) == tree(root, "fresh")


def test_a_damaged_or_missing_entry_is_made_good(root: Path) -> None:
    made(root)
    before = tree(root)
    for number, path in enumerate(sorted((root.parent / "cache/made").rglob("*"))):
        if path.is_file():
            path.write_bytes(b"somebody else's") if number % 2 else path.unlink()
    shutil.rmtree(root.parent / "site")
    made(root)
    assert tree(root) == before


def test_workers_make_the_same(root: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pool, "FEW", 2)
    monkeypatch.setattr(parts, "MANY", 2)
    made(root)
    made(root, "other", "fresh", workers=3)
    assert tree(root) == tree(root, "fresh")


def test_a_template_that_fails_is_told_with_its_page(root: Path) -> None:
    made(root)
    before = tree(root)
    written("templates/site/family.html", "{{ shop.nmae }}")(root)
    with pytest.raises(
        PartFailed, match=r"(smew|teal)/index.html could not be made: UndefinedError.*nmae.*\(family.html, line 1\)"
    ):
        made(root)
    assert tree(root) == before


def test_what_was_made_after_a_template_was_edited_is_not_kept(
    tmp_path: Path, anew: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """It would be found under what templates said before the edit."""
    monkeypatch.setattr(parts, "_tools", lambda fonts, templates: None)
    template = tmp_path / "templates" / "site" / "page.html"
    template.parent.mkdir(parents=True)

    def making() -> parts.Parts:
        places = (tmp_path / "fonts", (tmp_path / "templates",), Cache(tmp_path / "cache"))
        return parts.Parts(*places, tmp_path / "new", tmp_path / "old", 1)

    template.write_text("before")
    build = making()
    build([Part(as_is, ("first", b"1"))])
    template.write_text("after the edit")
    build([Part(as_is, ("second", b"2"))])
    template.write_text("before")
    anew.clear()
    making()([Part(as_is, ("first", b"1")), Part(as_is, ("second", b"2"))])
    assert len(anew) == 1
