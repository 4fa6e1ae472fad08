"""Edits are seen, whatever was edited; what is served is what is there now, on this machine alone."""

from __future__ import annotations

import multiprocessing
import os
import threading
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path
from urllib.request import urlopen

from procgen.files.memory import NOTHING
from procgen.make import publish
from procgen.make.known import LAST, Resident
from procgen.make.watching import A_WHILE, LOOK, RARELY, SELDOM, Builder, Pace, edits, server


def below(folder: Path) -> list[str]:
    return [str(folder), *map(str, sorted(folder.rglob("*")))]


def script(*doings: Callable[[], object]) -> Callable[[], None]:
    """Each look does the next thing; then it is over."""
    left: Iterator[Callable[[], object]] = iter(doings)

    def wait() -> None:
        doing = next(left, None)
        if doing is None:
            raise KeyboardInterrupt
        doing()

    return wait


def seen(folder: Path, *doings: Callable[[], object]) -> list[set[str]]:
    found = []
    with suppress(KeyboardInterrupt):
        for changed in edits(lambda: below(folder), script(*doings)):
            found.append({Path(name).name for name in changed} - {folder.name})
    return found


def test_every_kind_of_edit_is_seen(tmp_path: Path) -> None:
    one = tmp_path / "one.yaml"
    one.write_text("1")
    found = seen(
        tmp_path,
        lambda: None,
        lambda: one.write_text("22"),
        lambda: (tmp_path / "two.yaml").write_text("2"),
        lambda: one.rename(tmp_path / "three.yaml"),
        lambda: (tmp_path / "two.yaml").unlink(),
        lambda: os.utime(tmp_path / "three.yaml", (1, 1)),
    )
    assert found == [set(), {"one.yaml"}, {"two.yaml"}, {"one.yaml", "three.yaml"}, {"two.yaml"}, {"three.yaml"}]


def test_looks_are_close_while_edits_come() -> None:
    now, slept = 0.0, list[float]()
    pace = Pace(slept.append, lambda: now)
    pace.wait()
    now = A_WHILE - 1
    pace.wait()
    pace.edited()
    now += A_WHILE - 1
    pace.wait()
    now += 1
    pace.wait()
    pace.edited()
    pace.wait()
    assert slept == [LOOK, LOOK, LOOK, SELDOM, LOOK]


def test_an_edit_meanwhile_is_not_lost(tmp_path: Path) -> None:
    one = tmp_path / "one.yaml"
    one.write_text("1")
    count = 0
    with suppress(KeyboardInterrupt):
        for _ in edits(lambda: below(tmp_path), script(lambda: None, lambda: None)):
            count += 1
            if count == 1:
                one.write_text("while the first is being made")
    assert count == 2


def test_an_edit_is_seen_once_it_is_whole(tmp_path: Path) -> None:
    """A file is emptied, then written; a look between the two is not the last."""
    one = tmp_path / "one.yaml"
    one.write_text("1")
    breaths = script(lambda: one.write_text("1 and"), lambda: one.write_text("1 and 2"), *[lambda: None] * 9)
    found = []
    with suppress(KeyboardInterrupt):
        for changed in edits(lambda: below(tmp_path), script(lambda: one.write_text("")), breath=breaths):
            found.append((changed, one.read_text()))
    assert found == [((), "1"), ((str(one),), "1 and 2")]


def test_the_new_tree_is_served_at_once(tmp_path: Path) -> None:
    out = tmp_path / "site"
    out.mkdir()
    (out / "index.html").write_text("old")
    serving = server(out, 0)
    threading.Thread(target=serving.serve_forever, daemon=True).start()
    try:
        host, port = serving.server_address[:2]
        assert host == "127.0.0.1"
        address = f"http://127.0.0.1:{port}/index.html"
        assert urlopen(address).read() == b"old"
        new = publish.fresh_tree(out)
        publish.write(new, "index.html", b"new")
        publish.publish(new, out)
        assert urlopen(address).read() == b"new"
    finally:
        serving.shutdown()
        serving.server_close()


def test_what_seldom_changes_is_looked_at_now_and_then(tmp_path: Path) -> None:
    near, far = tmp_path / "near", tmp_path / "far"
    near.mkdir()
    far.mkdir()
    looks = [lambda: (far / "one.py").write_text("1"), *[lambda: None] * (RARELY - 2)]
    found = []
    with suppress(KeyboardInterrupt):
        for changed in edits(lambda: below(near), script(*looks), lambda: below(far)):
            found.append(changed)
    assert found == [()]
    found.clear()
    with suppress(KeyboardInterrupt):
        looks = [lambda: (far / "two.py").write_text("2"), *[lambda: None] * (RARELY - 1)]
        for changed in edits(lambda: below(near), script(*looks), lambda: below(far)):
            found.append(changed)
    assert found == [(), (str(far), str(far / "two.py"))]


def _count(resident: Resident) -> int:
    made: list[int] = resident.begin(NOTHING).held("made", list)
    made.append(1)
    return len(made)


def _die_at_third(resident: Resident) -> int:
    count = _count(resident)
    return os._exit(3) if count == 3 else count


def test_a_builder_remembers() -> None:
    with Builder(_count) as builder:
        assert [builder.build() for _ in range(3)] == [1, 2, 3]
        builder.end()
        assert builder.build() == 1


def test_a_builder_that_dies_is_replaced() -> None:
    with Builder(_die_at_third) as builder:
        assert [builder.build() for _ in range(4)] == [1, 2, None, 1]


def test_a_builder_that_died_meanwhile_is_replaced_before_it_is_asked() -> None:
    with Builder(_count) as builder:
        assert builder.build() == 1
        (process,) = multiprocessing.active_children()
        process.kill()
        process.join()
        assert builder.build() == 1


def test_what_goes_unused_is_let_go() -> None:
    resident = Resident()
    resident.begin(NOTHING).held("a", list).append(1)
    for _ in range(LAST):
        resident.begin(NOTHING)
    assert resident.held("a", list) == [1]
    for _ in range(LAST + 1):
        resident.begin(NOTHING)
    assert resident.held("a", list) == []
