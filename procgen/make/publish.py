"""Putting a whole new tree in the place of the old one, so that whoever opens it sees the one or the other.

Where the system can exchange two directories in one step, it does. Elsewhere two renames with a journal between them:
`heal`, called at every start, finishes or undoes what a power cut interrupted.
"""

from __future__ import annotations

import ctypes
import os
import shutil
import sys
from contextlib import suppress
from pathlib import Path

OURS = ("print", "jobs", ".gitignore")

_AT_FDCWD = -100
_RENAME_EXCHANGE = 2


def objection(out: Path, root: Path, keeps: bool) -> str:
    """Why `out` must not be replaced by what is made of the workshop in `root`, as a sentence; "" where it may be.
    `keeps`: whether what is not made anew stays in it.

    Who names the wrong folder would lose all that is in it, so nothing is replaced but what was made here: a site has
    its `sw.js`; where cards or packets alone were made there is nothing but these.
    """
    if not out.exists():
        return ""
    if not out.is_dir():
        return f"{out} is a file, and a folder is wanted"
    if out.resolve() in (root.resolve(), *root.resolve().parents):
        return f"{out} holds the workshop itself, which would be gone"
    others = sorted(entry.name for entry in out.iterdir() if entry.name not in OURS)
    if keeps or not others or (out / "sw.js").is_file():
        return ""
    named = ", ".join([*others[:3], *("…" for _ in others[3:4])])
    return f"{out} holds what was not made here ({named}), and it would be gone"


def fresh_tree(out: Path) -> Path:
    """An empty directory beside `out`, on the same file system, to build in."""
    heal(out)
    new = _beside(out, "new")
    shutil.rmtree(new, ignore_errors=True)
    new.mkdir(parents=True)
    return new


def link_tree(old: str | Path, new: str | Path) -> None:
    """Everything of `old` that `new` does not have, by hard links (copies where there are none)."""
    with os.scandir(old) as entries:
        for entry in entries:
            target = os.path.join(new, entry.name)
            if entry.is_dir():
                os.makedirs(target, exist_ok=True)
                link_tree(entry.path, target)
                continue
            if os.path.lexists(target):
                continue
            try:
                os.link(entry.path, target)
            except OSError:
                shutil.copy2(entry.path, target)


def write(tree: Path, path: str, content: bytes, old: Path | None = None) -> None:
    """Write one file of a new tree. Never through a hard link, which would change the old tree too.

    Where the `old` tree's file says the same, it is linked, so that it keeps its age.
    """
    if old is not None and read(old, path) == content:
        link(tree, path, old, content)
    else:
        _room(tree, path).write_bytes(content)


def link(tree: Path, path: str, old: Path, content: bytes) -> None:
    """A file of the new tree that is as it stands in the `old` one; written where nothing can be linked."""
    target = _room(tree, path)
    try:
        os.link(old / path, target)
    except OSError:
        target.write_bytes(content)


def read(tree: Path, path: str) -> bytes | None:
    """What a tree has there, if anything."""
    try:
        return (tree / path).read_bytes()
    except OSError:
        return None


def _room(tree: Path, path: str) -> Path:
    target = tree / path
    target.parent.mkdir(parents=True, exist_ok=True)
    target.unlink(missing_ok=True)
    return target


def publish(new: Path, out: Path) -> None:
    """Put `new` where `out` is. `.gitignore` is carried over; everything else of the old tree goes."""
    kept, carried = out / ".gitignore", new / ".gitignore"
    if kept.is_file() and not carried.exists():  # of a tree that was linked to the old one it is there
        shutil.copy2(kept, carried)
    if not out.exists():
        new.rename(out)
    elif _exchanged(new, out):
        shutil.rmtree(new)
    else:
        _swap(new, out)


def add(new: Path, out: Path) -> None:
    """Put the files of `new` among those of `out`, which stay: one in its place, several by a whole new tree."""
    files = [path for path in new.rglob("*") if path.is_file()]
    if len(files) == 1 and out.is_dir():
        target = out / files[0].relative_to(new)
        target.parent.mkdir(parents=True, exist_ok=True)
        os.replace(files[0], target)
        with suppress(OSError):  # of an odd tree somebody else clears away what is left
            files[0].unlink(missing_ok=True)  # a link to what stands there already is not renamed
            os.removedirs(files[0].parent)
        return
    if out.is_dir():
        link_tree(out, new)
    publish(new, out)


def heal(out: Path) -> None:
    """Finish an interrupted swap: with the journal there, `out` may be missing and its old tree set aside."""
    journal, old, new = _beside(out, "journal"), _beside(out, "old"), _beside(out, "new")
    if not journal.exists():
        return
    if not out.exists():
        (new if new.exists() else old).rename(out)
    shutil.rmtree(old, ignore_errors=True)
    journal.unlink()


def _swap(new: Path, out: Path) -> None:
    journal, old = _beside(out, "journal"), _beside(out, "old")
    shutil.rmtree(old, ignore_errors=True)
    journal.write_text("two renames under way\n")
    out.rename(old)
    new.rename(out)
    journal.unlink()
    shutil.rmtree(old)


def _exchanged(new: Path, out: Path) -> bool:
    """Whether the system exchanged the two in one step (Linux's renameat2)."""
    if not sys.platform.startswith("linux"):
        return False
    try:
        renameat2 = ctypes.CDLL(None, use_errno=True).renameat2
    except (OSError, AttributeError):
        return False
    result: int = renameat2(_AT_FDCWD, os.fsencode(new), _AT_FDCWD, os.fsencode(out), _RENAME_EXCHANGE)
    return result == 0


def _beside(out: Path, what: str) -> Path:
    return out.parent / f".{out.name}.{what}"
