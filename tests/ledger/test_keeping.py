"""The ledger is written whole or not at all, and never over somebody else's entries."""

from __future__ import annotations

from pathlib import Path

import pytest

from procgen.ledger.keeping import Busy, keep


def test_in_one_step(tmp_path: Path) -> None:
    path = tmp_path / "printed.yaml"
    keep(path, None, b"one")
    path.chmod(0o640)
    keep(path, b"one", b"two")
    assert path.read_bytes() == b"two"
    assert path.stat().st_mode & 0o777 == 0o640
    assert [one.name for one in tmp_path.iterdir()] == ["printed.yaml"]


def test_what_others_wrote_meanwhile_stays(tmp_path: Path) -> None:
    path = tmp_path / "printed.yaml"
    path.write_bytes(b"theirs")
    for was in (b"ours", None):
        with pytest.raises(Busy, match="changed meanwhile"):
            keep(path, was, b"new")
    assert path.read_bytes() == b"theirs"
    assert [one.name for one in tmp_path.iterdir()] == ["printed.yaml"]


def test_while_another_is_writing(tmp_path: Path) -> None:
    path, beside = tmp_path / "printed.yaml", tmp_path / ".printed.yaml.new"
    path.write_bytes(b"old")
    beside.write_bytes(b"half")
    with pytest.raises(Busy, match=r"\.printed\.yaml\.new is there"):
        keep(path, b"old", b"new")
    assert (path.read_bytes(), beside.read_bytes()) == (b"old", b"half")


def test_a_link_stays_a_link(tmp_path: Path) -> None:
    real, link = tmp_path / "real.yaml", tmp_path / "printed.yaml"
    real.write_bytes(b"old")
    link.symlink_to(real)
    keep(link, b"old", b"new")
    assert link.is_symlink()
    assert real.read_bytes() == b"new"
