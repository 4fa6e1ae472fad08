"""What goes into the cache comes out of it, or nothing does."""

import multiprocessing
import os
from pathlib import Path

import pytest

from procgen.make.cache import Cache, digest


def files(folder: Path) -> list[Path]:
    return [path for path in folder.rglob("*") if path.is_file()]


def test_content_comes_back(tmp_path: Path) -> None:
    Cache(tmp_path).put(digest("a"), b"content")
    assert Cache(tmp_path).get(digest("a")) == b"content"
    assert Cache(tmp_path).get(digest("b")) is None


@pytest.mark.parametrize(
    "harm",
    [
        lambda content: content[:-1],
        lambda content: content[:-1] + bytes([content[-1] ^ 1]),
        lambda content: content + b"x",
        lambda content: b"",
        lambda content: b"not an entry at all",
    ],
)
def test_a_damaged_entry_is_no_entry(tmp_path: Path, harm) -> None:  # type: ignore[no-untyped-def]
    cache = Cache(tmp_path)
    cache.put(digest("a"), b"content")
    (entry,) = files(tmp_path)
    entry.write_bytes(harm(entry.read_bytes()))
    assert cache.get(digest("a")) is None
    cache.put(digest("a"), b"content")
    assert cache.get(digest("a")) == b"content"


def test_what_is_put_patiently_is_written_when_there_is_time(tmp_path: Path) -> None:
    cache = Cache(tmp_path, patient=True)
    cache.put(digest("a"), b"content")
    cache.put_record(digest("b"), [1, 2])
    assert cache.has(digest("a"))
    assert cache.get(digest("a")) == b"content"
    assert cache.get_record(digest("b")) == [1, 2]
    cache.trim()
    assert not files(tmp_path)
    cache.settle()
    assert Cache(tmp_path).get(digest("a")) == b"content"
    assert Cache(tmp_path).get_record(digest("b")) == [1, 2]


def test_a_forked_process_writes_at_once(tmp_path: Path) -> None:
    cache = Cache(tmp_path, patient=True)
    child = multiprocessing.get_context("fork").Process(target=cache.put, args=(digest("a"), b"content"))
    child.start()
    child.join()
    assert cache.get(digest("a")) == b"content"


def test_patience_has_an_end(tmp_path: Path) -> None:
    cache = Cache(tmp_path, patient=True)
    for number in range(200):
        cache.put(digest(f"{number}"), b"content")
    assert files(tmp_path)


def test_an_entry_under_another_key_is_no_entry(tmp_path: Path) -> None:
    cache = Cache(tmp_path)
    cache.put(digest("a"), b"content")
    (entry,) = files(tmp_path)
    other = digest("b")
    (entry.parent.parent / other[:1]).mkdir(exist_ok=True)
    entry.rename(entry.parent.parent / other[:1] / other[1:])
    assert cache.get(other) is None


def test_parts_never_run_together() -> None:
    assert digest("ab", "c") != digest("a", "bc") != digest("abc")


def test_what_was_used_longest_ago_goes_first(tmp_path: Path) -> None:
    cache = Cache(tmp_path, bound=1000)
    for age, name in enumerate("abcd"):
        cache.put(digest(name), name.encode() * 300)
        path = next(path for path in files(tmp_path) if path.stat().st_mtime > 1000)
        os.utime(path, (age, age))
    assert cache.get(digest("a")) is not None  # used now
    cache.trim()
    there = [name for name in "abcd" if cache.get(digest(name)) is not None]
    assert there == ["a", "d"]


def test_it_is_looked_through_when_a_sixteenth_was_added(tmp_path: Path) -> None:
    for number in range(40):  # each a build of its own
        cache = Cache(tmp_path, bound=100_000)
        cache.put(digest(f"{number}"), b"x" * 5000)
        cache.trim()
        assert sum(path.stat().st_size for path in (tmp_path / "made").rglob("*") if path.is_file()) <= 100_000
    (tmp_path / "added").write_text("not a number")
    cache = Cache(tmp_path, bound=20_000)
    cache.put(digest("last"), b"x")
    cache.trim()
    assert len(files(tmp_path / "made")) <= 4


def test_a_cache_that_cannot_be_written_is_only_slow(tmp_path: Path) -> None:
    in_the_way = tmp_path / "made"
    in_the_way.write_text("a file where the folder should be")
    cache = Cache(tmp_path)
    cache.put(digest("a"), b"content")
    cache.trim()
    assert cache.get(digest("a")) is None
