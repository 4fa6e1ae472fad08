"""Old output or new output, never half of each."""

from pathlib import Path

import pytest

from procgen.make import publish


def tree(root: Path, **files: str) -> Path:
    root.mkdir(parents=True, exist_ok=True)
    for name, text in files.items():
        (root / name).write_text(text)
    return root


@pytest.fixture(params=["exchange", "renames"])
def way(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    if request.param == "renames":
        monkeypatch.setattr(publish, "_exchanged", lambda new, out: False)
    return str(request.param)


def test_the_new_tree_takes_the_place_of_the_old(tmp_path: Path, way: str) -> None:
    out = tree(tmp_path / "site", old="1")
    new = publish.fresh_tree(out)
    publish.write(new, "a/new", b"2")
    publish.publish(new, out)
    assert [p.name for p in out.rglob("*") if p.is_file()] == ["new"]
    assert sorted(p.name for p in tmp_path.iterdir()) == ["site"]


def test_gitignore_is_carried_over(tmp_path: Path, way: str) -> None:
    out = tree(tmp_path / "site")
    (out / ".gitignore").write_text("*\n")
    publish.publish(publish.fresh_tree(out), out)
    assert (out / ".gitignore").read_text() == "*\n"


def test_a_linked_file_is_replaced_without_touching_the_old_tree(tmp_path: Path) -> None:
    out = tree(tmp_path / "site", page="old")
    new = publish.fresh_tree(out)
    publish.link_tree(out, new)
    publish.write(new, "page", b"new")
    assert (out / "page").read_text() == "old"
    assert (new / "page").read_text() == "new"


@pytest.mark.parametrize("count", [1, 2])
def test_files_are_added_to_those_that_stay(tmp_path: Path, way: str, count: int) -> None:
    out = tree(tmp_path / "site", page="old", other="stays", **{".gitignore": "*\n"})
    (out / "print").mkdir()
    shown = (out / "page").open()
    new = publish.fresh_tree(out)
    for path in ("page", "print/bore.pdf")[:count]:
        publish.write(new, path, b"new", out)
    publish.add(new, out)
    assert (out / "page").read_text() == "new"
    assert (out / "other").read_text() == "stays"
    assert (out / ".gitignore").read_text() == "*\n"
    assert (out / "print" / "bore.pdf").exists() == (count == 2)
    assert shown.read() == "old"  # nobody who had it open sees it change
    assert [path.name for path in tmp_path.iterdir()] == ["site"]


def test_a_file_that_says_the_same_stays_what_it_is(tmp_path: Path) -> None:
    out = tree(tmp_path / "site", page="as it was")
    before = (out / "page").stat()
    new = publish.fresh_tree(out)
    publish.write(new, "page", b"as it was", out)
    publish.add(new, out)
    assert (out / "page").stat().st_ino == before.st_ino
    assert [path.name for path in tmp_path.iterdir()] == ["site"]


@pytest.mark.parametrize("moment", ["before", "between", "after"])
def test_an_interrupted_swap_is_healed(tmp_path: Path, moment: str) -> None:
    out, new = tree(tmp_path / "site", page="old"), tree(tmp_path / ".site.new", page="new")
    old = tmp_path / ".site.old"
    (tmp_path / ".site.journal").write_text("")
    if moment != "before":
        out.rename(old)
    if moment == "after":
        new.rename(out)
    publish.heal(out)
    assert (out / "page").read_text() == ("old" if moment == "before" else "new")
    assert not old.exists()
    assert not (tmp_path / ".site.journal").exists()


def test_what_was_made_here_may_be_replaced(tmp_path: Path) -> None:
    root = tree(tmp_path / "workshop")
    assert publish.objection(tmp_path / "new", root, keeps=False) == ""
    assert publish.objection(tree(tmp_path / "empty"), root, keeps=False) == ""
    assert publish.objection(tree(root / "site", **{"sw.js": "", "index.html": ""}), root, keeps=False) == ""
    assert publish.objection(tree(tmp_path / "cards" / "print").parent, root, keeps=False) == ""


def test_nothing_else_is_ever_replaced(tmp_path: Path) -> None:
    """`--out .` in a workshop would otherwise take its procedures away, and say that all is well."""
    root = tree(tmp_path / "workshop" / "procedures").parent
    assert "holds the workshop itself" in publish.objection(root, root, keeps=False)
    assert "holds the workshop itself" in publish.objection(tmp_path, root, keeps=False)
    assert "was not made here (deck)" in publish.objection(tree(root / "procedures" / "deck").parent, root, keeps=False)
    letters = tree(tmp_path / "letters", **dict.fromkeys("abcd", ""))
    assert "(a, b, c, …)" in publish.objection(letters, root, keeps=False)
    assert publish.objection(letters, root, keeps=True) == ""
    assert "is a file" in publish.objection(letters / "a", root, keeps=False)
