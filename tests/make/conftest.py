"""A small workshop to build, with two caches that have the fonts already."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

SMALL = Path(__file__).parent.parent / "check" / "workshop"


@pytest.fixture(scope="session")
def fonts(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Prepared once: it takes longer than all the rest."""
    from procgen.draw.fonts import prepare

    folder = tmp_path_factory.mktemp("fonts")
    prepare(folder)
    return folder


@pytest.fixture
def root(tmp_path: Path, fonts: Path) -> Path:
    shutil.copytree(SMALL, tmp_path / "shop")
    for cache in ("cache", "other"):
        shutil.copytree(fonts, tmp_path / cache / "fonts")
    return tmp_path / "shop"
