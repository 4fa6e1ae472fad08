"""What is known by its digest comes from where it stands already, else out of the cache, never from what is damaged."""

from pathlib import Path

import pytest

from procgen.make.cache import Cache
from procgen.make.kept import put_known


@pytest.fixture
def cache(tmp_path: Path) -> Cache:
    return Cache(tmp_path / "cache")


def test_what_stands_there_is_linked(tmp_path: Path, cache: Cache) -> None:
    tree, old = tmp_path / "new", tmp_path / "old"
    key = cache.keep(b"a page")
    (old / "a").mkdir(parents=True)
    (old / "a" / "page").write_bytes(b"a page")
    assert put_known(cache, "a/page", key, tree, old) == b"a page"
    assert (tree / "a" / "page").stat().st_ino == (old / "a" / "page").stat().st_ino


@pytest.mark.parametrize("there", [None, b"edited", b"a pag"])
def test_what_is_not_as_it_was_comes_out_of_the_cache(tmp_path: Path, cache: Cache, there: bytes | None) -> None:
    tree, old = tmp_path / "new", tmp_path / "old"
    key = cache.keep(b"a page")
    old.mkdir()
    if there is not None:
        (old / "page").write_bytes(there)
    assert put_known(cache, "page", key, tree, old) == b"a page"
    assert (tree / "page").read_bytes() == b"a page"
    assert there is None or (old / "page").read_bytes() == there


def test_what_is_nowhere_is_not_known(tmp_path: Path, cache: Cache) -> None:
    assert put_known(cache, "page", "0" * 64, tmp_path / "new", tmp_path / "old") is None


def test_a_shard_needs_it_in_the_cache_for_others_to_find(tmp_path: Path, cache: Cache) -> None:
    old = tmp_path / "old"
    old.mkdir()
    (old / "page").write_bytes(b"a page")
    key = Cache(tmp_path / "other").keep(b"a page")
    assert put_known(cache, "page", key, None, old) is None
