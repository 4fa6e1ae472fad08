"""What the package brings along is found, in a checkout and in an installed package."""

from __future__ import annotations

from pathlib import Path

import pytest

from procgen.files import home


@pytest.mark.parametrize("kind", ["schemas", "templates", "shared"])
def test_in_a_checkout(kind: str) -> None:
    assert home.resources(kind).is_dir()
    assert home.resources(kind).name == kind


def test_in_an_installed_package(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "procgen" / "_data" / "schemas").mkdir(parents=True)
    (tmp_path / "schemas").mkdir()
    monkeypatch.setattr(home, "_PACKAGE", tmp_path / "procgen")
    assert home.resources("schemas") == tmp_path / "procgen" / "_data" / "schemas"


def test_missing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(home, "_PACKAGE", tmp_path / "procgen")
    with pytest.raises(FileNotFoundError, match="`schemas` is missing"):
        home.resources("schemas")
