"""Edits are seen, whatever was edited; what is served is what is there now, on this machine alone."""

from __future__ import annotations

import os
import threading
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path
from urllib.request import urlopen

from procgen.make import publish
from procgen.make.watching import edits, server


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
